/** The journal's files as they are written: appends, changes of file, and what a failed write asks for. */
import { stat, unlink, type FileHandle } from 'node:fs/promises';
import { join } from 'node:path';
import type { Entry } from '#core/day/ops.ts';
import { codeOf } from '../startError.ts';
import { checkRoom, syncFolder } from './files.ts';
import { appendBatch, beginSegment, cutTo, openSegment, readSegment, segmentName } from './segment.ts';

/** Something to be done before anything can be appended. Safe to do again. */
export type Amend = () => Promise<void>;

type Beginning = {
  readonly folder: string;
  /** Binds the files to the snapshot. */
  readonly name: string;
  /** The files there are, by the first number they can hold. */
  readonly segments: readonly number[];
  readonly lastSeq: number;
};

export class Journal {
  readonly name: string;
  readonly #folder: string;
  #segments: number[];
  #current: FileHandle | null = null;
  /** Bytes of the current file that are known to be on disk. */
  #durable = 0;
  #lastSeq: number;
  /** Why nothing is taken; null: all is well. */
  #trouble: Error | null = null;
  #amends: Amend[] = [];
  /** Appends and changes of file, one after the other. */
  #writing: Promise<unknown> = Promise.resolve();

  constructor({ folder, name, segments, lastSeq }: Beginning) {
    this.#folder = folder;
    this.name = name;
    this.#segments = [...segments];
    this.#lastSeq = lastSeq;
  }

  /** Does these first, then opens the last file. Rejects when that fails; then nothing is taken until `mend` resolves. */
  open(amends: readonly Amend[]): Promise<void> {
    this.#amends.push(...amends);
    return this.#inTurn(async () => {
      try {
        await this.#amend();
      } catch (error) {
        this.#trouble = asError(error);
        throw error;
      }
    });
  }

  append(entries: readonly Entry[]): Promise<void> {
    return this.#inTurn(async () => {
      if (this.#trouble || !this.#current) throw this.#trouble ?? new Error('the journal is closed');
      if (entries.length === 0) return;
      try {
        this.#durable += await appendBatch(this.#current, entries);
      } catch (error) {
        throw this.#stop(error, () => this.#cutBack());
      }
      this.#lastSeq = entries.at(-1)?.seq ?? this.#lastSeq;
    });
  }

  mend(): Promise<void> {
    return this.#inTurn(async () => {
      await this.#amend();
      await checkRoom(this.#folder);
      this.#trouble = null;
    });
  }

  /** Goes on in a new file, unless the current one is empty. */
  turnOver(): Promise<void> {
    return this.#inTurn(async () => {
      if (this.#trouble) throw this.#trouble;
      const from = this.#lastSeq + 1;
      if (this.#segments.at(-1) === from) return;
      const path = this.#path(from);
      try {
        await beginSegment(this.#folder, this.name, from);
        const next = await openSegment(path);
        await this.#current?.close();
        this.#current = next;
        this.#durable = (await next.stat()).size;
      } catch (error) {
        // A file that is there but not written to would hide what is appended to the one before it.
        throw this.#stop(error, () => this.#remove(from));
      }
      this.#segments.push(from);
    });
  }

  /** While `step` writes the files anew nothing is appended; then appends go on at the end of the last one. */
  rewrite(step: () => Promise<void>): Promise<void> {
    return this.#inTurn(async () => {
      if (this.#trouble) throw this.#trouble;
      await this.#current?.close();
      this.#current = null;
      const failed = await step().then(
        () => null,
        (error: unknown) => asError(error),
      );
      await this.#amend().catch((error: unknown) => {
        // Each file is there whole: opening it again is all there is to mend.
        throw this.#stop(error, async () => {});
      });
      if (failed) throw failed;
    });
  }

  /** To be done before `open`: begins a file for what comes next. */
  async beginNext(): Promise<void> {
    const from = this.#lastSeq + 1;
    await beginSegment(this.#folder, this.name, from);
    if (this.#segments.at(-1) !== from) this.#segments.push(from);
  }

  /** Lets go of files that hold nothing after `seq`. */
  async dropUpTo(seq: number): Promise<void> {
    const [done, kept] = [[], []] as [number[], number[]];
    this.#segments.forEach((from, i) => {
      ((this.#segments[i + 1] ?? Infinity) <= seq + 1 ? done : kept).push(from);
    });
    this.#segments = kept;
    for (const from of done) await unlink(this.#path(from));
  }

  /** Entries `from` … `to`, as far as there are files for them. */
  async entries(from: number, to: number): Promise<Entry[]> {
    const files = this.#segments.filter(
      (first, i) => first <= to && (this.#segments[i + 1] ?? Infinity) > from,
    );
    const found = new Map<number, Entry>();
    for (const first of files) {
      const { batches } = await readSegment(this.#path(first), this.name);
      for (const entry of batches.flat()) {
        if (entry.seq >= from && entry.seq <= to) found.set(entry.seq, entry);
      }
    }
    return [...found.values()].sort((a, b) => a.seq - b.seq);
  }

  async close(): Promise<void> {
    await this.#writing.catch(() => {});
    await this.#current?.close();
    this.#current = null;
  }

  async #amend(): Promise<void> {
    for (let next = this.#amends[0]; next; next = this.#amends[0]) {
      await next();
      this.#amends.shift();
    }
    if (this.#current) return;
    const path = this.#path(this.#segments.at(-1) ?? 1);
    this.#durable = (await stat(path)).size;
    this.#current = await openSegment(path);
  }

  #stop(why: unknown, amend: Amend): Error {
    this.#amends.push(amend);
    this.#trouble = asError(why);
    return this.#trouble;
  }

  /** Takes away what of the failed batch may have reached the file. */
  async #cutBack(): Promise<void> {
    const handle = this.#current;
    this.#current = null;
    await handle?.close().catch(() => {});
    await cutTo(this.#path(this.#segments.at(-1) ?? 1), this.#durable);
  }

  async #remove(from: number): Promise<void> {
    await unlink(this.#path(from)).catch((error: unknown) => {
      if (codeOf(error) !== 'ENOENT') throw error;
    });
    await syncFolder(this.#folder);
  }

  #path(from: number): string {
    return join(this.#folder, segmentName(from));
  }

  #inTurn<T>(step: () => Promise<T>): Promise<T> {
    const turn = this.#writing.catch(() => {}).then(step);
    this.#writing = turn;
    // Each caller hears of a failure through their own promise.
    turn.catch(() => {});
    return turn;
  }
}

function asError(error: unknown): Error {
  return error instanceof Error ? error : new Error(String(error));
}
