/** The end of the work: what is still to put away, what stands about, and when the aisle is done. */
import { own } from '../../barn/basics.ts';
import type { Forecast } from '../../plan/model.ts';
import { stillOut, type StillOut } from '../after.ts';
import type { Board } from '../board.ts';
import type { AisleTile } from './aisle.ts';

export type OutLine = {
  readonly horse: string;
  readonly name: string;
  readonly stall: string;
  readonly things: readonly StillOut[];
};

export type AisleEnd = {
  /** Some horse worked today, none has work or a lesson before it, and every one is put away. */
  readonly isDone: boolean;
  /** No horse has a lesson before it, and some are to be put away or are. */
  readonly isEvening: boolean;
  /** Horses through with their lessons and not put away. */
  readonly toPutAway: number;
  /** When the last of them is likely to be put away; null: not known for all. */
  readonly awayAt: number | null;
  /** What stands about of horses with no lesson before them, horse by horse. */
  readonly out: readonly OutLine[];
};

/** Of the horses on these tiles. */
export function aisleEnd(board: Board, tiles: readonly AisleTile[], forecast: Forecast | null): AisleEnd {
  const through = tiles.filter((tile) => tile.kind === 'after' && tile.next !== null);
  const before = tiles.filter((tile) => tile.kind !== 'after' && tile.prep !== null && !tile.hold);
  const away = tiles.filter((tile) => tile.status === 'putAway');
  const out = stillOut(board);
  const dones = through.map(({ prep }) => own(forecast?.after ?? {}, prep ?? '')?.done ?? null);
  return {
    isDone: through.length === 0 && before.length === 0 && away.length > 0,
    isEvening: before.length === 0 && through.length + away.length > 0,
    toPutAway: through.length,
    awayAt: dones.reduce<number | null>(
      (last, done) => (last === null || done === null ? null : Math.max(last, done)),
      dones[0] ?? null,
    ),
    out: tiles
      .filter((tile) => tile.kind === 'after' || tile.prep === null)
      .map(({ horse, stall }) => ({
        horse,
        name: own(board.barn.horses, horse)?.name ?? horse,
        stall,
        things: out.filter((one) => one.horse === horse),
      }))
      .filter(({ things }) => things.length > 0),
  };
}
