/** Storage in a folder: one snapshot, journal files with what came after it, and a file for each day that is over. */
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { withoutAll, type Forgotten } from '#core/day/forget.ts';
import type { Entry } from '#core/day/ops.ts';
import type { SequenceState } from '#core/day/sequence.ts';
import { codeOf, StartError } from '../startError.ts';
import { erasingSteps } from './erasing.ts';
import { syncFolder } from './files.ts';
import { Journal, type Amend } from './journal.ts';
import { DAYS_FOLDER, readDays, writeDay, type KeptDay } from './keptDay.ts';
import { readFolder, SNAPSHOT_NAME, type Found } from './load.ts';
import { takeLock } from './lock.ts';
import { keepOlder } from './older.ts';
import { beginSegment, cutTail, segmentName } from './segment.ts';
import { SnapshotFile, toSnapshot } from './snapshot.ts';
import { firstState, type Beginning, type Opened, type Storage } from './storage.ts';
import { troubleOf } from './trouble.ts';

export { SNAPSHOT_NAME } from './load.ts';

const LOCK_NAME = 'lock';

/**
 * Opens `folder`, made when missing. `now` in ms names a cut-off tail. Throws StartError when the folder cannot be
 * written, is in use, is damaged, or holds newer data; then nothing in it has changed. A full disk does not keep a barn
 * that is there from opening: then `append` rejects until `mend` has resolved.
 */
export async function openDiskStorage(folder: string, first: Beginning, now: number): Promise<Storage> {
  const unlock = await lockFolder(folder);
  try {
    const found = (await readFolder(folder, now)) ?? (await begin(folder, first, now));
    return await DiskStorage.open(folder, found, first.journal, unlock);
  } catch (error) {
    unlock();
    throw plain(folder, error);
  }
}

/** Takes the folder for this process; the answer gives it back. Throws StartError when another hub has it. */
export async function lockFolder(folder: string): Promise<() => void> {
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
  return new StartError(
    troubleOf(error) === 'full'
      ? `There is no room left on the disk for the folder ${folder} (${why}). Make room, or choose another with --data.`
      : `The folder ${folder} cannot be written (${why}). Choose another with --data.`,
    { cause: error },
  );
}

async function begin(folder: string, first: Beginning, now: number): Promise<Found> {
  const naming = { journal: first.journal, run: first.journal, dayFrom: null };
  await new SnapshotFile(join(folder, SNAPSHOT_NAME)).write(toSnapshot(naming, firstState(first.board)));
  await beginSegment(folder, first.journal, 1);
  const found = await readFolder(folder, now);
  if (!found) throw new Error('what was just written is not there');
  return found;
}

class DiskStorage implements Storage {
  opened: Opened;
  readonly #folder: string;
  readonly #file: SnapshotFile;
  readonly #journal: Journal;
  readonly #unlock: () => void;
  #snapshotting: Promise<void> = Promise.resolve();

  private constructor(folder: string, found: Found, freshRun: string, unlock: () => void) {
    const { snapshot, entries, segments, torn } = found;
    const { board, seq, at, seen, journal: name, run, dayFrom } = snapshot;
    this.#folder = folder;
    this.#file = new SnapshotFile(join(folder, SNAPSHOT_NAME));
    this.#journal = new Journal({ folder, name, segments, lastSeq: entries.at(-1)?.seq ?? seq });
    this.#unlock = unlock;
    this.opened = {
      journal: torn ? freshRun : run,
      state: { board, seq, at, seen },
      entries,
      dayFrom,
      torn: torn?.tail ?? null,
      trouble: null,
    };
  }

  static async open(
    folder: string,
    found: Found,
    freshRun: string,
    unlock: () => void,
  ): Promise<DiskStorage> {
    const storage = new DiskStorage(folder, found, freshRun, unlock);
    try {
      await storage.#journal.open(storage.#amends(found));
    } catch (error) {
      const trouble = troubleOf(error);
      if (trouble !== 'full') throw error;
      storage.opened = { ...storage.opened, trouble };
    }
    return storage;
  }

  append(entries: readonly Entry[]): Promise<void> {
    return this.#journal.append(entries);
  }

  mend(): Promise<void> {
    return this.#journal.mend();
  }

  /**
   * A new journal file first, then the snapshot, then the old files go. A crash between any two leaves files whose
   * entries the snapshot already has; they are skipped at the next start.
   */
  snapshot(state: SequenceState, dayFrom: number | null): Promise<void> {
    const turned = this.#journal.turnOver();
    this.#snapshotting = this.#snapshotting
      .catch(() => {})
      .then(async () => {
        await turned;
        const naming = { journal: this.#journal.name, run: this.opened.journal, dayFrom };
        await this.#file.write(toSnapshot(naming, state));
        await this.#journal.dropUpTo(Math.min(state.seq, (dayFrom ?? Infinity) - 1));
      });
    return this.#snapshotting;
  }

  entries(from: number, to: number): Promise<Entry[]> {
    return this.#journal.entries(from, to);
  }

  async keepDay(day: KeptDay): Promise<void> {
    await writeDay(this.daysFolder, day);
    await syncFolder(this.#folder);
  }

  days(most: number): Promise<{ days: KeptDay[]; damaged: string[] }> {
    return readDays(this.daysFolder, most);
  }

  erase(people: readonly Forgotten[], run: string): Promise<void> {
    this.#snapshotting = this.#snapshotting
      .catch(() => {})
      .then(async () => {
        await this.#journal.rewrite(async () => {
          for await (const _ of erasingSteps(this.#folder, people, run));
        });
        this.opened = { ...withoutAll(this.opened, people), journal: run };
      });
    return this.#snapshotting;
  }

  get daysFolder(): string {
    return join(this.#folder, DAYS_FOLDER);
  }

  async close(): Promise<void> {
    await this.#snapshotting.catch(() => {});
    await this.#journal.close();
    this.#unlock();
  }

  /** What the files ask for before they can be written on. */
  #amends({ snapshot, torn, segments, olderVersion }: Found): Amend[] {
    const amends: Amend[] = [];
    if (olderVersion !== null) amends.push(() => keepOlder(this.#folder, olderVersion));
    if (torn) {
      const path = join(this.#folder, segmentName(segments.at(-1) ?? 1));
      amends.push(async () => {
        // First the new name: a tablet must never take an entry to come for one that it saw in the tail.
        await this.#file.write({ ...snapshot, run: this.opened.journal });
        await cutTail(path, torn.tail, torn.bytes);
      });
    }
    if (olderVersion !== null || segments.length === 0) {
      amends.push(async () => {
        await this.#journal.beginNext();
        await this.#file.write({ ...snapshot, run: this.opened.journal });
      });
    }
    return amends;
  }
}
