/** Versions of what is on disk, and how data of an older one becomes data of this one. */
import * as z from 'zod/mini';
import { Id } from '#core/barn/fields.ts';
import { StartError } from '../startError.ts';

/** Version of what is on disk, snapshot, journal and days alike. Goes up when an older hub could not read it any more. */
export const DATA_VERSION = 3;

/** What one version's files become in the next. A step throws for data that is not of its version. */
type Step = { readonly snapshot: (data: unknown) => unknown; readonly batch: (data: unknown) => unknown };

const Version1 = z.looseObject({ journal: Id, seq: z.int() });

/** Step `n` leads from version n to n + 1. None is ever taken out: a backup may be of any age. */
const STEPS: Readonly<Record<number, Step>> = {
  1: {
    // Version 1 had no name for a run of numbers besides the journal's, and forgot a day's entries with each snapshot.
    snapshot: (data) => {
      const known = Version1.parse(data);
      return { ...known, run: known.journal, dayFrom: null };
    },
    batch: (data) => data,
  },
  2: {
    // Nothing changed its shape; version 3 has kinds of facts that a hub of version 2 would take for damage.
    snapshot: (data) => data,
    batch: (data) => data,
  },
};

const Versioned = z.looseObject({ version: z.int() });

/**
 * The data version a file says it has; null when it says none that has ever been. Throws StartError when it is newer than
 * this program.
 */
export function versionOf(path: string, data: unknown): number | null {
  const known = Versioned.safeParse(data);
  if (!known.success || known.data.version < 1) return null;
  const { version } = known.data;
  if (version <= DATA_VERSION) return version;
  throw new StartError(
    `${path} was written by a newer Aisle Board (data version ${version}, this program reads up to ${DATA_VERSION}). ` +
      'Start the newer program instead. Nothing was changed.',
  );
}

/** A snapshot of `version` as it would be in this one. Throws when it is not of that version. */
export function snapshotToday(version: number, data: unknown): unknown {
  const made = stepsFrom(version).reduce((next, step) => step.snapshot(next), data);
  return version === DATA_VERSION || typeof made !== 'object' ? made : { ...made, version: DATA_VERSION };
}

/** A batch of a journal file of `version` as it would be in this one. Throws when it is not of that version. */
export function batchToday(version: number, data: unknown): unknown {
  return stepsFrom(version).reduce((next, step) => step.batch(next), data);
}

function stepsFrom(version: number): Step[] {
  return Array.from({ length: DATA_VERSION - version }, (_, i) => {
    const step = STEPS[version + i];
    if (!step) throw new Error(`no step from data version ${version + i}`);
    return step;
  });
}
