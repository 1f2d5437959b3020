/** Putting horses away: whoever has nothing else to do takes the next one, stage by stage. Part of the simulated people. */
import { own } from '#core/barn/basics.ts';
import { asks, isCleared, type AfterStage } from '#core/barn/stage.ts';
import type { Board, Prep } from '#core/day/board.ts';
import { afterPrep, openAfter } from '#core/day/after.ts';

export type ToPutAway = {
  readonly prep: Prep;
  readonly stage: AfterStage;
  /** Metres from the aisle's first stall. */
  readonly metres: number;
};

/** Horses through with their lessons at `now` (ms) that this person may take on, the one they are on first, then the nearest. */
export function toPutAway(
  board: Board,
  person: { readonly id: string; readonly metres: number },
  taken: ReadonlySet<string>,
  now: number,
): ToPutAway | null {
  const { barn } = board;
  const has = own(barn.volunteers, person.id)?.clearances ?? [];
  const open = Object.values(barn.horses).flatMap((horse): ToPutAway[] => {
    const prep = afterPrep(board, horse.id, now);
    const stage = prep ? openAfter(prep, barn.rules)[0] : undefined;
    if (!prep || !stage || taken.has(prep.id)) return [];
    if (prep.onIt && prep.onIt.by !== person.id) return [];
    if (!isCleared(has, asks(horse.experiencedFor, stage))) return [];
    return [{ prep, stage, metres: own(barn.stalls, horse.stall)?.metres ?? 0 }];
  });
  const rank = ({ prep, metres }: ToPutAway): number =>
    lastBy(prep) === person.id ? -1 : Math.abs(metres - person.metres);
  return open.sort((a, b) => rank(a) - rank(b) || (a.prep.id < b.prep.id ? -1 : 1))[0] ?? null;
}

/** Who did the last thing after the lesson; null: nothing is done. */
function lastBy({ marks }: Prep): string | null {
  const all = [...marks.untack, ...marks.cool, ...marks.look].sort((a, b) => a.at - b.at);
  return all.at(-1)?.by ?? null;
}
