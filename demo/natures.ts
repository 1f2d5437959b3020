/** What the simulated people are really like. Of this nothing but their clearances stands on a board. */
import { own } from '#core/barn/basics.ts';
import type { Clearance } from '#core/barn/stage.ts';
import type { Board } from '#core/day/board.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import type { Chance } from './random.ts';

/** How often somebody taps otherwise than they should; each a probability. */
export type Habits = {
  readonly startForgotten: number;
  /** Says nothing after a stage and taps it together with the next. */
  readonly twoAtOnce: number;
  /** Taps a neighbour's tile and takes it back. */
  readonly wrongTile: number;
};

export const USUAL_HABITS: Habits = { startForgotten: 0.12, twoAtOnce: 0.07, wrongTile: 0.03 };

/** Somebody as they really are; of this nothing but the clearances stands on a board. */
export type Nature = {
  readonly id: string;
  readonly clearances: readonly Clearance[];
  /** Time taken over the barn's usual time. */
  readonly pace: number;
  /** ms; null: does not come today. */
  readonly arrivesAt: number | null;
  /** How early they take up a horse: the part of the barn's earliest time before the ramp. */
  readonly earliness: number;
  readonly habits: Habits;
};

export type NatureOptions = {
  readonly habits: Habits;
  /** Probability that somebody expected does not come. */
  readonly absence: number;
  /** When these people really come, ms; null: not at all. Everybody else: about when they said. */
  readonly arrivals: Readonly<Record<string, number | null>>;
};

/** What the people of this board are like; `chanceOf` gives one day's chance, `lasting` what stays over days. */
export function natures(
  { barn, day }: Board,
  { habits, absence, arrivals }: NatureOptions,
  chanceOf: (volunteer: string) => Chance,
  lasting: (volunteer: string) => Chance,
): Nature[] {
  return Object.entries(day.hands).flatMap(([id, { presence }]) => {
    const volunteer = own(barn.volunteers, id);
    if (!volunteer || presence.state !== 'expected' || presence.from === null) return [];
    const chance = chanceOf(id);
    const same = lasting(id);
    // About when they said: two minutes early to a few minutes late, seldom more.
    const late = chance.gamma(2, 4 * MINUTE_MS) - 2 * MINUTE_MS;
    const usual = chance.happens(absence) ? null : Math.round(presence.from + late);
    return [
      {
        id,
        clearances: volunteer.clearances,
        pace: (volunteer.private?.pace ?? 1) * same.between(0.93, 1.08),
        earliness: same.between(0.65, 1),
        arrivesAt: Object.hasOwn(arrivals, id) ? (arrivals[id] ?? null) : usual,
        habits,
      },
    ];
  });
}
