/** What a folder holds, read and checked. Nothing is changed here, so that a backup may read while a hub writes. */
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Entry } from '#core/day/ops.ts';
import { StartError } from '../startError.ts';
import { readSegment, segmentFrom, segmentName, tornTail } from './segment.ts';
import { SnapshotFile, type Snapshot } from './snapshot.ts';
import type { TornTail } from './storage.ts';
import { DATA_VERSION } from './version.ts';

/** Its presence tells that a folder holds a barn. */
export const SNAPSHOT_NAME = 'snapshot.json';

export type Found = {
  readonly snapshot: Snapshot;
  /** Everything after the snapshot, in order and without a gap. */
  readonly entries: readonly Entry[];
  /** All journal files there are, by the first number they can hold. */
  readonly segments: readonly number[];
  /** The data version of the files that are to be brought up to this program's; null: none is. */
  readonly olderVersion: number | null;
  readonly torn: { readonly tail: TornTail; readonly bytes: Buffer } | null;
};

/**
 * Reads `folder`; null when it holds no barn. `now` in ms names a tail still to be cut off. Throws StartError when it is
 * damaged or newer than this program.
 */
export async function readFolder(folder: string, now: number): Promise<Found | null> {
  const path = join(folder, SNAPSHOT_NAME);
  const segments = (await readdir(folder)).flatMap((name) => segmentFrom(name) ?? []).sort((a, b) => a - b);
  const read = await new SnapshotFile(path).read();
  if (!read) {
    if (segments.length === 0) return null;
    throw new StartError(
      `${path} is missing. Put the whole folder back from a backup (npm run restore). Nothing was changed.`,
    );
  }
  const { snapshot, version } = read;
  const needed = segments.filter((_, i) => (segments[i + 1] ?? Infinity) > snapshot.seq + 1);
  // A file is begun before each snapshot. Only a crash right at the beginning leaves none, and version 1 was less strict.
  const isBegun = (segments.at(-1) ?? 0) > snapshot.seq || (segments.length > 0 && version === 1);
  if (!isBegun && snapshot.seq > 0) {
    throw missing(join(folder, segmentName(snapshot.seq + 1)), snapshot.seq + 1);
  }
  const { entries, torn, oldest } = await readAll(folder, snapshot, needed, now);
  const from = Math.min(version, oldest);
  return { snapshot, entries, segments, torn, olderVersion: from < DATA_VERSION ? from : null };
}

/** Entries after the snapshot from these files. Only the last file may have a torn tail. */
async function readAll(
  folder: string,
  snapshot: Snapshot,
  segments: readonly number[],
  now: number,
): Promise<Pick<Found, 'entries' | 'torn'> & { oldest: number }> {
  const entries: Entry[] = [];
  let torn: Found['torn'] = null;
  let oldest = DATA_VERSION;
  let next = snapshot.seq + 1;
  for (const from of segments) {
    const path = join(folder, segmentName(from));
    const segment = await readSegment(path, snapshot.journal);
    if (from > next) throw missing(path, next);
    for (const entry of segment.batches.flat()) {
      if (entry.seq < next) continue;
      if (entry.seq > next) throw missing(path, next);
      entries.push(entry);
      next += 1;
    }
    oldest = Math.min(oldest, segment.version);
    const tail = tornTail(path, segment, now);
    if (!tail) continue;
    if (from !== segments.at(-1)) throw missing(path, next);
    torn = { tail, bytes: segment.bytes };
  }
  return { entries, torn, oldest };
}

function missing(path: string, seq: number): StartError {
  return new StartError(
    `${path}: record ${seq} is missing. Put the whole folder back from a backup (npm run restore). Nothing was changed.`,
  );
}
