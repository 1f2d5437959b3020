/** When volunteers came and went: from taps, and from what was put right about them since. */
import type { CorrectionRecord, Stay } from './account.ts';
import { lessonEnd, liveBookings } from '../day/preps.ts';
import { ofKind, standing, type DayRecord, type Told } from './record.ts';

type Tapped = { id: string; volunteer: string; from: number | null; until: number | null };

/**
 * The stays of the day's volunteers, by when they began. One that nobody ended is counted to the day's close. Of several
 * corrections of one stay the last counts.
 */
export function staysOf(record: DayRecord, corrections: readonly CorrectionRecord[]): Stay[] {
  const close = closeOf(record);
  const tapped = tappedStays(standing(record.entries));
  const stays = new Map<string, Omit<Stay, 'date' | 'ms' | 'countedUntil'>>(
    tapped.map((one) => [one.id, { ...one, tapped: null, correction: null }]),
  );
  for (const { id, by, at, why, correction } of corrections) {
    if (correction.about !== 'stay') continue;
    const was = tapped.find((one) => one.id === correction.of);
    const key = correction.of ?? id;
    stays.set(key, {
      id: key,
      volunteer: was?.volunteer ?? correction.volunteer,
      from: correction.from,
      until: correction.until,
      tapped: was ? { from: was.from, until: was.until } : null,
      correction: { id, by, at, why },
    });
  }
  return [...stays.values()]
    .map((stay): Stay => {
      const countedUntil = stay.from === null ? null : (stay.until ?? Math.max(close, stay.from));
      const ms = stay.from === null || countedUntil === null ? 0 : Math.max(0, countedUntil - stay.from);
      return { ...stay, date: record.date, countedUntil, ms };
    })
    .sort((a, b) => (a.from ?? 0) - (b.from ?? 0) || (a.id < b.id ? -1 : 1));
}

/** When the day closed, ms: the end of its last lesson or the last stage tapped, whichever was later. Of an open day: now. */
export function closeOf({ day, entries, now }: DayRecord): number {
  if (now !== null) return now;
  const all = standing(entries);
  const stages = [...ofKind(all, 'stagesFinished'), ...ofKind(all, 'stageStarted')];
  return Math.max(
    0,
    ...liveBookings(day).map(({ lesson }) => lessonEnd(lesson)),
    ...stages.map(({ at }) => at),
  );
}

/** Who starts work is here, as on the board; who has left and starts again is not, since that tap may be an old one. */
function tappedStays(all: readonly Told[]): Tapped[] {
  const stays: Tapped[] = [];
  const known = new Set<string>();
  const open = new Map<string, Tapped>();
  const come = (id: string, volunteer: string, at: number): void => {
    known.add(volunteer);
    if (open.has(volunteer)) return;
    const stay = { id, volunteer, from: at, until: null };
    open.set(volunteer, stay);
    stays.push(stay);
  };
  const go = (id: string, volunteer: string, at: number, wasHere: boolean): void => {
    const stay = open.get(volunteer);
    open.delete(volunteer);
    if (stay) stay.until = at;
    else if (wasHere && !known.has(volunteer)) stays.push({ id, volunteer, from: null, until: at });
    known.add(volunteer);
  };
  for (const { id, by, at, fact } of all) {
    if (fact.kind === 'volunteerArrived') come(id, fact.volunteer, at);
    else if (fact.kind === 'volunteerLeft') go(id, fact.volunteer, at, true);
    else if (fact.kind === 'volunteerNotComing') go(id, fact.volunteer, at, false);
    else if (fact.kind === 'stageStarted' && by !== null && !known.has(by)) come(id, by, at);
  }
  return stays;
}
