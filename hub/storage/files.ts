/** Files that are there whole or not at all, also after a power cut. */
import { copyFile, open, rename, unlink } from 'node:fs/promises';
import { dirname, join } from 'node:path';

/** Riders' records are nobody's business but the hub's. */
const OWNER_ONLY = 0o600;

/** Room there must be for a hub to go on: a snapshot of a large barn, and some hours of taps. */
const ROOM_BYTES = 1024 * 1024;

/** Writes `bytes` under `path`: temp file, fsync, rename, fsync of the folder. */
export async function writeWhole(path: string, bytes: string | Buffer): Promise<void> {
  const temp = `${path}.new`;
  try {
    await writeSynced(temp, bytes);
    await rename(temp, path);
  } catch (error) {
    await unlink(temp).catch(() => {});
    throw error;
  }
  await syncFolder(dirname(path));
}

/** A copy that is on disk when this resolves, in a folder still to be synced. */
export async function copySynced(from: string, to: string): Promise<void> {
  await copyFile(from, to);
  const file = await open(to, 'r+');
  try {
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Rejects when `folder` does not take a megabyte just now. */
export async function checkRoom(folder: string): Promise<void> {
  const path = join(folder, 'room.new');
  try {
    await writeSynced(path, Buffer.alloc(ROOM_BYTES, 1));
  } finally {
    await unlink(path).catch(() => {});
  }
}

/** Makes the folder's own list of names last: a rename or a new file is not there after a power cut without it. */
export async function syncFolder(path: string): Promise<void> {
  // Windows has no handle on a folder to sync; its rename is written through.
  if (process.platform === 'win32') return;
  const folder = await open(path, 'r');
  try {
    await folder.sync();
  } finally {
    await folder.close();
  }
}

async function writeSynced(path: string, bytes: string | Buffer): Promise<void> {
  const file = await open(path, 'w', OWNER_ONLY);
  try {
    await file.writeFile(bytes);
    await file.sync();
  } finally {
    await file.close();
  }
}
