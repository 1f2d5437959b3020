/** Storage in a folder: one snapshot, and journal files with what came after it. */
import { mkdir, readdir, unlink, type FileHandle } from 'node:fs/promises';
import { join } from 'node:path';
import type { Entry } from '#core/day/ops.ts';
import type { SequenceState } from '#core/day/sequence.ts';
import { codeOf, StartError } from '../startError.ts';
import { takeLock } from './lock.ts';
import {
  appendBatch,
  beginSegment,
  cutTail,
  openSegment,
  readSegment,
  segmentFrom,
  segmentName,
} from './segment.ts';
import { DATA_VERSION, SnapshotFile, type Snapshot } from './snapshot.ts';
import { firstState, type Beginning, type Opened, type Storage, type TornTail } from './storage.ts';

/** Its presence tells that a folder holds a barn. */
export const SNAPSHOT_NAME = 'snapshot.json';

const LOCK_NAME = 'lock';

/**
 * Opens `folder`, made when missing. `now` in ms names a cut-off tail. Throws StartError when the folder cannot be
 * written, is in use, is damaged, or holds newer data; then nothing in it has changed.
 */
export async function openDiskStorage(folder: string, first: Beginning, now: number): Promise<Storage> {
  const unlock = await lockFolder(folder);
  try {
    const file = new SnapshotFile(join(folder, SNAPSHOT_NAME));
    const { opened, segments } = await load(folder, file, first, now);
    return await DiskStorage.open(folder, file, opened, segments, unlock);
  } catch (error) {
    unlock();
    throw plain(folder, error);
  }
}

async function lockFolder(folder: string): Promise<() => void> {
  try {
    await mkdir(folder, { recursive: true, mode: 0o700 });
    return takeLock(join(folder, LOCK_NAME), folder);
  } catch (error) {
    throw plain(folder, error);
  }
}

function plain(folder: string, error: unknown): StartError {
  if (error instanceof StartError) return error;
  const why = codeOf(error) || String(error);
  return new StartError(`The folder ${folder} cannot be written (${why}). Choose another with --data.`, {
    cause: error,
  });
}

type Loaded = { opened: Opened; segments: number[] };

async function load(folder: string, file: SnapshotFile, first: Beginning, now: number): Promise<Loaded> {
  const segments = (await readdir(folder)).flatMap((name) => segmentFrom(name) ?? []).sort((a, b) => a - b);
  const snapshot = await file.read();
  if (!snapshot) {
    if (segments.length > 0) {
      throw new StartError(
        `${join(folder, SNAPSHOT_NAME)} is missing. Put the whole folder back from a backup. Nothing was changed.`,
      );
    }
    const state = firstState(first.board);
    await file.write(toSnapshot(first.journal, state));
    await beginSegment(folder, first.journal, 1);
    return { opened: { journal: first.journal, state, entries: [], torn: null }, segments: [1] };
  }
  const { journal } = snapshot;
  const needed = segments.filter((_, i) => (segments[i + 1] ?? Infinity) > snapshot.seq + 1);
  if (needed.length === 0) {
    await beginSegment(folder, journal, snapshot.seq + 1);
    needed.push(snapshot.seq + 1);
    segments.push(snapshot.seq + 1);
  }
  const { entries, torn } = await readAll(folder, journal, needed, snapshot.seq, now);
  const { board, seq, at, seen } = snapshot;
  return { opened: { journal, state: { board, seq, at, seen }, entries, torn }, segments };
}

/** Entries after `seq` from these files, checked to be without a gap. Only the last file may have a torn tail. */
async function readAll(
  folder: string,
  journal: string,
  segments: readonly number[],
  seq: number,
  now: number,
): Promise<{ entries: Entry[]; torn: TornTail | null }> {
  const entries: Entry[] = [];
  let torn: TornTail | null = null;
  let next = seq + 1;
  for (const from of segments) {
    const path = join(folder, segmentName(from));
    const segment = await readSegment(path, journal);
    for (const entry of segment.entries) {
      if (entry.seq < next) continue;
      if (entry.seq > next) throw missing(path, next);
      entries.push(entry);
      next += 1;
    }
    if (segment.tornAt === null) continue;
    if (from !== segments.at(-1)) throw missing(path, next);
    torn = await cutTail(path, segment, now);
  }
  return { entries, torn };
}

function missing(path: string, seq: number): StartError {
  return new StartError(
    `${path}: record ${seq} is missing, with good records after it. Put the whole folder back from a backup. Nothing was changed.`,
  );
}

function toSnapshot(journal: string, { board, seq, at, seen }: SequenceState): Snapshot {
  return { version: DATA_VERSION, journal, seq, at, board, seen: seen.map(([op, outcome]) => [op, outcome]) };
}

class DiskStorage implements Storage {
  readonly opened: Opened;
  readonly #folder: string;
  readonly #file: SnapshotFile;
  readonly #unlock: () => void;
  #segments: number[];
  #current: FileHandle;
  #lastSeq: number;
  /** Appends and changes of file, one after the other. */
  #writing: Promise<unknown> = Promise.resolve();
  #snapshotting: Promise<void> = Promise.resolve();

  private constructor(
    folder: string,
    file: SnapshotFile,
    opened: Opened,
    segments: number[],
    current: FileHandle,
    unlock: () => void,
  ) {
    this.#folder = folder;
    this.#file = file;
    this.opened = opened;
    this.#segments = segments;
    this.#current = current;
    this.#lastSeq = opened.entries.at(-1)?.seq ?? opened.state.seq;
    this.#unlock = unlock;
  }

  static async open(
    folder: string,
    file: SnapshotFile,
    opened: Opened,
    segments: number[],
    unlock: () => void,
  ): Promise<DiskStorage> {
    const current = await openSegment(join(folder, segmentName(segments.at(-1) ?? 1)));
    return new DiskStorage(folder, file, opened, segments, current, unlock);
  }

  append(entries: readonly Entry[]): Promise<void> {
    if (entries.length === 0) return this.#inTurn(async () => {});
    return this.#inTurn(async () => {
      await appendBatch(this.#current, entries);
      this.#lastSeq = entries.at(-1)?.seq ?? this.#lastSeq;
    });
  }

  /**
   * A new journal file first, then the snapshot, then the old files go. A crash between any two leaves files whose
   * entries the snapshot already has; they are skipped at the next start.
   */
  snapshot(state: SequenceState): Promise<void> {
    const turned = this.#inTurn(() => this.#turnOver());
    this.#snapshotting = this.#snapshotting
      .catch(() => {})
      .then(async () => {
        await turned;
        await this.#file.write(toSnapshot(this.opened.journal, state));
        await this.#dropUpTo(state.seq);
      });
    return this.#snapshotting;
  }

  async close(): Promise<void> {
    await this.#snapshotting.catch(() => {});
    await this.#writing.catch(() => {});
    await this.#current.close();
    this.#unlock();
  }

  async #turnOver(): Promise<void> {
    const from = this.#lastSeq + 1;
    if (this.#segments.at(-1) === from) return;
    await beginSegment(this.#folder, this.opened.journal, from);
    const next = await openSegment(join(this.#folder, segmentName(from)));
    await this.#current.close();
    this.#current = next;
    this.#segments.push(from);
  }

  async #dropUpTo(seq: number): Promise<void> {
    const [done, kept] = [[], []] as [number[], number[]];
    this.#segments.forEach((from, i) => {
      ((this.#segments[i + 1] ?? Infinity) <= seq + 1 ? done : kept).push(from);
    });
    this.#segments = kept;
    for (const from of done) await unlink(join(this.#folder, segmentName(from)));
  }

  #inTurn<T>(step: () => Promise<T>): Promise<T> {
    const turn = this.#writing.then(step);
    this.#writing = turn;
    // Each caller hears of a failure through their own promise; after one, every later step fails too.
    turn.catch(() => {});
    return turn;
  }
}
