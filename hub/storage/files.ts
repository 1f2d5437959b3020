/** Files that are there whole or not at all, also after a power cut. */
import { open, rename, unlink } from 'node:fs/promises';
import { dirname } from 'node:path';

/** Riders' records are nobody's business but the hub's. */
const OWNER_ONLY = 0o600;

/** Writes `bytes` under `path`: temp file, fsync, rename, fsync of the folder. */
export async function writeWhole(path: string, bytes: string | Buffer): Promise<void> {
  const temp = `${path}.new`;
  try {
    const file = await open(temp, 'w', OWNER_ONLY);
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(temp, path);
  } catch (error) {
    await unlink(temp).catch(() => {});
    throw error;
  }
  await syncFolder(dirname(path));
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
