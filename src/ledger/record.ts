/** What the ledger reads: a day as it stood, what was written down in it, and what was put right about it since. */
import type { Rules } from '../barn/rules.ts';
import type { Day } from '../day/board.ts';
import type { Entry, Fact } from '../day/ops.ts';
import type { CorrectionRecord } from './account.ts';

export type DayRecord = {
  readonly date: string;
  /** As it stood at its end, or stands now. */
  readonly day: Day;
  /** Its own, in order. */
  readonly entries: readonly Entry[];
  /** The barn's rules then; null: they were not kept. */
  readonly rules: Rules | null;
  /** Barn time in ms while the day is open; null: it is over. */
  readonly now: number | null;
};

/** A fact with who did it and when (ms): when it was tapped, not when the hub heard of it. */
export type Told<F extends Fact = Fact> = {
  readonly id: string;
  readonly by: string | null;
  readonly at: number;
  readonly fact: F;
};

/** All that was written down, in the order it was tapped, with what was taken back left out. */
export function standing(entries: readonly Entry[]): Told[] {
  const undone = takenBack(entries);
  return told(entries).filter(({ id }) => !undone.has(id));
}

/** All that was written down, in the order it was tapped. */
export function told(entries: readonly Entry[]): Told[] {
  return entries
    .flatMap(({ id, by, at, tappedAt, facts }) =>
      facts.map((fact) => ({ id, by, at: Math.min(at, tappedAt), fact })),
    )
    .sort((a, b) => a.at - b.at);
}

/** Ids of the ops that were taken back. */
export function takenBack(entries: readonly Entry[]): ReadonlySet<string> {
  return new Set(entries.flatMap(({ facts }) => facts.flatMap((f) => (f.kind === 'undone' ? f.op : []))));
}

/** Facts of one kind. */
export function ofKind<K extends Fact['kind']>(
  all: readonly Told[],
  kind: K,
): Told<Extract<Fact, { kind: K }>>[] {
  return all.flatMap((one) =>
    one.fact.kind === kind ? { ...one, fact: one.fact as Extract<Fact, { kind: K }> } : [],
  );
}

/** What these entries put right, about whichever day, in the order it was said. */
export function correctionsIn(entries: readonly Entry[]): CorrectionRecord[] {
  return entries.flatMap(({ id, by, at, facts }) =>
    facts.flatMap((fact) =>
      fact.kind === 'ledgerCorrected'
        ? { id, by, at, why: fact.why, date: fact.date, correction: fact.correction, was: null }
        : [],
    ),
  );
}
