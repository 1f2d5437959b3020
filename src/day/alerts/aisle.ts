/** What calls for attention in the aisle: somebody wants a hand, or feet are not checked while a stand-in could still be ready. */
import { own } from '../../barn/basics.ts';
import type { Forecast } from '../../plan/model.ts';
import type { Board } from '../board.ts';
import { isFinished, isOver, isPulled } from '../preps.ts';
import { helpLines } from '../views/help.ts';
import type { BarnAlert, FeetAlert, HelpAlert } from './alert.ts';

/** At barn time `now` in ms, on a tablet with these stalls (none named: all). */
export function aisleAlerts(
  board: Board,
  forecast: Forecast | null,
  now: number,
  stalls: readonly string[],
): BarnAlert[] {
  return [...helpAlerts(board, now), ...feetAlerts(board, forecast, now, stalls)];
}

export function helpAlerts(board: Board, now: number): HelpAlert[] {
  // Most boards have no call, and the lines look at everybody.
  if (board.day.help.length === 0) return [];
  return helpLines(board, now).map((line) => ({
    kind: line.coming.length > 0 ? 'answered' : line.kind,
    key: line.id,
    since: line.at,
    line,
  }));
}

/** Horses whose feet are not checked by their feet-by time, until they are, are pulled, or should be at the ramp. */
export function feetAlerts(
  board: Board,
  forecast: Forecast | null,
  now: number,
  stalls: readonly string[],
): FeetAlert[] {
  return Object.values(forecast?.preps ?? {}).flatMap(({ prep: id, feetBy, rampTime }): FeetAlert[] => {
    if (feetBy === null || feetBy >= now || rampTime <= now) return [];
    const prep = own(board.day.preps, id);
    const horse = prep && own(board.barn.horses, prep.horse);
    if (!horse || isFinished(prep, 'feet') || isPulled(board.barn, horse.id)) return [];
    if (prep.places.length === 0 || isOver(board.day, prep, now)) return [];
    if (stalls.length > 0 && !stalls.includes(horse.stall)) return [];
    return [
      {
        kind: 'feetBy',
        key: `feetBy:${id}`,
        since: feetBy,
        horse: horse.id,
        prep: id,
        name: horse.name,
        feetBy,
      },
    ];
  });
}
