/** Horses taken off work and given back, and what was found on them. */
import type { FindingRecord, HoldRecord } from './account.ts';
import { ofKind, standing, type DayRecord } from './record.ts';

export function findingsOf({ date, entries }: DayRecord): FindingRecord[] {
  const all = standing(entries);
  const read = ofKind(all, 'findingRead');
  return ofKind(all, 'findingSeen').map(({ id, by, at, fact }) => ({
    date,
    at,
    horse: fact.horse,
    finding: fact.finding,
    words: fact.words,
    by,
    readBy: [...new Set(read.flatMap((one) => (one.fact.finding === id && one.by !== null ? one.by : [])))],
  }));
}

/** A release ends every hold on the horse; one of a hold from before stands alone. */
export function holdsOf({ date, entries }: DayRecord): HoldRecord[] {
  const holds: HoldRecord[] = [];
  for (const { by, at, fact } of standing(entries)) {
    if (fact.kind === 'horsePulled') {
      const { horse, hold, why } = fact;
      holds.push({ date, horse, pulled: { at, by, hold, why }, released: null });
    } else if (fact.kind === 'horseReleased') {
      const released = { at, by, word: fact.word };
      const open = holds.filter((one) => one.horse === fact.horse && one.released === null);
      for (const one of open) one.released = released;
      if (open.length === 0) holds.push({ date, horse: fact.horse, pulled: null, released });
    }
  }
  return holds;
}

/** Whether the horse was off work at `at` (ms), as far as this day's record tells. */
export function wasPulled(holds: readonly HoldRecord[], horse: string | null, at: number): boolean {
  return holds.some(
    (one) =>
      one.horse === horse &&
      (one.pulled?.at ?? -Infinity) <= at &&
      (one.released === null || one.released.at > at),
  );
}
