/**
 * One file of the journal: a line saying what it is, then one line a batch. A new file is begun with each snapshot, so
 * that old ones can go whole. Its name carries the first sequence number it can hold.
 */
import { open, readFile, truncate, type FileHandle } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import * as z from 'zod/mini';
import { Id } from '#core/barn/basics.ts';
import { Entry } from '#core/day/ops.ts';
import { StartError } from '../startError.ts';
import { syncFolder, writeWhole } from './files.ts';
import { readLines, toLine } from './line.ts';
import { DATA_VERSION, refuseNewer } from './snapshot.ts';
import type { TornTail } from './storage.ts';

const Head = z.object({
  version: z.literal(DATA_VERSION),
  journal: Id,
  from: z.int().check(z.gte(1)),
});
const Batch = z.array(Entry);

const NAME = /^journal-(\d{12})\.log$/;

export function segmentName(from: number): string {
  return `journal-${String(from).padStart(12, '0')}.log`;
}

/** The first sequence number a file of this name can hold; null when it is no journal file. */
export function segmentFrom(name: string): number | null {
  const from = NAME.exec(name)?.[1];
  return from === undefined ? null : Number(from);
}

/** A new, empty file, there whole or not at all. */
export async function beginSegment(folder: string, journal: string, from: number): Promise<void> {
  await writeWhole(join(folder, segmentName(from)), toLine({ version: DATA_VERSION, journal, from }));
}

export type Segment = {
  readonly entries: readonly Entry[];
  readonly tornAt: number | null;
  readonly bytes: Buffer;
};

/**
 * Everything in a journal file. Throws StartError for a file of another run of numbers, a newer one, and damage before
 * its end; `tornAt` is the byte where an unfinished last write begins.
 */
export async function readSegment(path: string, journal: string): Promise<Segment> {
  const bytes = await readFile(path);
  const { lines, damage } = readLines(bytes);
  const [first, ...batches] = lines;
  if (damage && (!damage.tail || !first)) throw damagedAt(path, damage.atByte);
  refuseNewer(path, first?.value);
  const head = Head.safeParse(first?.value);
  if (!head.success) throw damagedAt(path, 0);
  if (head.data.journal !== journal) {
    throw new StartError(
      `${path} belongs to other records than the snapshot beside it. Put the whole folder back from one backup. Nothing was changed.`,
    );
  }
  const entries = batches.flatMap(({ value, atByte }) => {
    const batch = Batch.safeParse(value);
    if (!batch.success) throw damagedAt(path, atByte);
    return batch.data;
  });
  return { entries, tornAt: damage?.atByte ?? null, bytes };
}

/** Cuts an unfinished last write off and keeps it beside the journal under the time `now` (ms). */
export async function cutTail(
  path: string,
  { tornAt, bytes }: Segment,
  now: number,
): Promise<TornTail | null> {
  if (tornAt === null) return null;
  const tail = bytes.subarray(tornAt);
  const keptAs = `torn-${new Date(now).toISOString().replaceAll(/[:.]/g, '-')}.log`;
  await writeWhole(join(dirname(path), keptAs), tail);
  await truncate(path, tornAt);
  const file = await open(path, 'r+');
  try {
    await file.sync();
  } finally {
    await file.close();
  }
  await syncFolder(dirname(path));
  return { file: basename(path), atByte: tornAt, bytes: tail.length, keptAs };
}

export async function openSegment(path: string): Promise<FileHandle> {
  return open(path, 'a');
}

/** Writes one batch as one line and waits for the disk. */
export async function appendBatch(
  file: Pick<FileHandle, 'appendFile' | 'datasync'>,
  entries: readonly Entry[],
): Promise<void> {
  await file.appendFile(toLine(entries));
  await file.datasync();
}

function damagedAt(path: string, byte: number): StartError {
  return new StartError(
    `${path} is damaged at byte ${byte}. Put the folder back from a backup; ` +
      'if there is none, keep a copy of the folder before trying anything. Nothing was changed.',
  );
}
