/** What every system of the bench is given to do, and what its tablets say of it. */
import type { Op } from '#core/day/ops.ts';

/** One change of one tile, the same for every system. */
export type Change = { readonly id: string; readonly tile: string; readonly op: Op };

export type Tablet = {
  /** Bytes of frames that carried changes, and of those that carried forecasts and what goes with them. */
  readonly bytes: { changes: number; forecasts: number };
  /** Hears of each change of another tablet that this one has applied. */
  applied: (id: string) => void;
  send: (change: Change) => void;
  close: () => void;
};

/** Connected and brought up to date: what that took. */
export type Joined = { readonly tablet: Tablet; readonly ms: number; readonly bytes: number };
