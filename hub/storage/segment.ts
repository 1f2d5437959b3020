/**
 * One file of the journal: a line saying what it is, then one line a batch. A new file is begun with each snapshot, so
 * that old ones can go whole. Its name carries the first sequence number it can hold.
 */
import { open, readFile, type FileHandle } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import * as z from 'zod/mini';
import { Id } from '#core/barn/fields.ts';
import { Entry } from '#core/day/ops.ts';
import { StartError } from '../startError.ts';
import { syncFolder, writeWhole } from './files.ts';
import { readLines, toLine } from './line.ts';
import type { TornTail } from './storage.ts';
import { batchToday, DATA_VERSION, versionOf } from './version.ts';

const Head = z.object({
  version: z.int(),
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

/** A new file, there whole or not at all; with `batches` from the start. */
export async function beginSegment(
  folder: string,
  journal: string,
  from: number,
  batches: readonly (readonly Entry[])[] = [],
): Promise<void> {
  const lines = [{ version: DATA_VERSION, journal, from }, ...batches].map(toLine);
  await writeWhole(join(folder, segmentName(from)), Buffer.concat(lines));
}

export type Segment = {
  readonly version: number;
  readonly batches: readonly (readonly Entry[])[];
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
  const version = versionOf(path, first?.value);
  const head = Head.safeParse(first?.value);
  if (version === null || !head.success) throw damagedAt(path, 0);
  if (head.data.journal !== journal) {
    throw new StartError(
      `${path} belongs to other records than the snapshot beside it. Put the whole folder back from one backup (npm run restore). Nothing was changed.`,
    );
  }
  const read = batches.map(({ value, atByte }) => {
    try {
      return Batch.parse(batchToday(version, value));
    } catch {
      throw damagedAt(path, atByte);
    }
  });
  return { version, batches: read, tornAt: damage?.atByte ?? null, bytes };
}

/** What `cutTail` will do to this file, named by the time `now` (ms); null when it ends well. */
export function tornTail(path: string, { tornAt, bytes }: Segment, now: number): TornTail | null {
  if (tornAt === null) return null;
  const keptAs = `torn-${new Date(now).toISOString().replaceAll(/[:.]/g, '-')}.log`;
  return { file: basename(path), atByte: tornAt, bytes: bytes.length - tornAt, keptAs };
}

/** Keeps an unfinished last write beside the journal, then cuts it off. */
export async function cutTail(path: string, torn: TornTail, bytes: Buffer): Promise<void> {
  await writeWhole(join(dirname(path), torn.keptAs), bytes.subarray(torn.atByte));
  await cutTo(path, torn.atByte);
}

/** Cuts the file to its first `size` bytes and waits for the disk. Rejects when it does not have so many. */
export async function cutTo(path: string, size: number): Promise<void> {
  const file = await open(path, 'r+');
  try {
    const has = (await file.stat()).size;
    if (has < size) throw new Error(`${path} has ${has} bytes, and ${size} were written`);
    if (has > size) await file.truncate(size);
    await file.sync();
  } finally {
    await file.close();
  }
  await syncFolder(dirname(path));
}

export async function openSegment(path: string): Promise<FileHandle> {
  return open(path, 'a');
}

/** Writes one batch as one line and waits for the disk; answers with its bytes. */
export async function appendBatch(
  file: Pick<FileHandle, 'appendFile' | 'datasync'>,
  entries: readonly Entry[],
): Promise<number> {
  const line = toLine(entries);
  await file.appendFile(line);
  await file.datasync();
  return line.length;
}

function damagedAt(path: string, byte: number): StartError {
  return new StartError(
    `${path} is damaged at byte ${byte}. Put the folder back from a backup (npm run restore); ` +
      'if there is none, keep a copy of the folder before trying anything. Nothing was changed.',
  );
}
