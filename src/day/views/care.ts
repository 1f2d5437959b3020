/** What the coordinator is told of the horses' care besides findings: farrier, work, isolation; and of helmets. */
import type { Horse } from '../../barn/horse.ts';
import { farrierState, type FarrierState } from '../../care/farrier.ts';
import { helmetState, type HelmetState } from '../../care/helmet.ts';
import type { HelmetKept } from '../../care/helmetRules.ts';
import type { WorkloadOver } from '../../care/workload.ts';
import type { Board } from '../board.ts';
import { liveBookings } from '../preps.ts';
import { judgeHorseDay } from '../worked.ts';

export type CareNote =
  | { readonly about: 'farrier'; readonly horse: string; readonly name: string; readonly state: FarrierState }
  | { readonly about: 'work'; readonly horse: string; readonly name: string; readonly over: WorkloadOver }
  | {
      readonly about: 'isolation';
      readonly horse: string;
      readonly name: string;
      readonly isolation: NonNullable<Horse['isolation']>;
    }
  | { readonly about: 'helmet'; readonly id: string; readonly name: string; readonly state: HelmetState };

/** At barn time `now` in ms. What cannot be said (no date on record) is no note: the record shows it. */
export function careNotes(board: Board, now: number): CareNote[] {
  const horses = Object.values(board.barn.horses).sort((a, b) => (a.name < b.name ? -1 : 1));
  return [
    ...horses.flatMap(({ id, name, isolation }): CareNote[] =>
      isolation ? [{ about: 'isolation', horse: id, name, isolation }] : [],
    ),
    ...horses.flatMap(({ id, name }): CareNote[] =>
      overWorked(board, id, now).map((over) => ({ about: 'work', horse: id, name, over })),
    ),
    ...horses.flatMap((horse): CareNote[] => {
      const state = farrierOf(board, horse);
      const isDue = state !== null && state.kind !== 'fine';
      return isDue ? [{ about: 'farrier', horse: horse.id, name: horse.name, state }] : [];
    }),
    ...helmetNotes(board),
  ];
}

/** Null: there is no date on record, or it lies ahead. */
export function farrierOf({ barn, day }: Board, { farrierOn }: Horse): FarrierState | null {
  if (day.date === null) return null;
  const state = farrierState(barn.rules.care.farrier, farrierOn ?? null, day.date);
  return state.kind === 'cannot-say' ? null : state;
}

/** The rules of work that today, as it is planned, goes over. */
export function overWorked(board: Board, horse: string, now: number): readonly WorkloadOver[] {
  const lessons = liveBookings(board.day).flatMap(({ lesson, place }) =>
    place.horse === horse ? lesson : [],
  );
  const verdict = judgeHorseDay(board, horse, [...new Set(lessons)], now);
  return verdict.kind === 'does-not-fit' ? verdict.over : [];
}

function helmetNotes({ barn, day }: Board): CareNote[] {
  const { date } = day;
  if (date === null) return [];
  const kept: readonly { id: string; name: string; helmet: HelmetKept }[] = [
    ...Object.values(barn.helmets).map((helmet) => ({ id: helmet.id, name: helmet.name, helmet })),
    ...Object.values(barn.riders).flatMap(({ id, callName, private: known }) =>
      known?.helmet ? [{ id, name: callName, helmet: known.helmet }] : [],
    ),
  ];
  return kept.flatMap(({ id, name, helmet }): CareNote[] => {
    const state = helmetState(barn.rules.care.helmet, helmet, date);
    const isTold = state.kind === 'replace' || state.kind === 'due-soon';
    return isTold ? [{ about: 'helmet', id, name, state }] : [];
  });
}
