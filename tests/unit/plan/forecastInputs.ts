/** Inputs for the planner's tests: the small barn's board, and stage times without chance. */
import type { Board } from '#core/day/board.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Fact } from '#core/day/ops.ts';
import { learn } from '#core/plan/durations/learn.ts';
import { priorFrom } from '#core/plan/durations/prior.ts';
import { learnedNothing, type Learned } from '#core/plan/learned.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { entry, NOON } from '../../properties/day-arbitraries.ts';

/** The board after these facts, tapped at noon by ada. */
export function after(board: Board, ...facts: Fact[]): Board {
  return facts.reduce(
    (b, fact, i) => evolve(b, entry(200 + i, fact, { by: 'ada', id: `t${i}`, at: NOON })),
    board,
  );
}

/** Minutes after noon. */
export function minutes(at: number | null | undefined): number | null {
  return at === null || at === undefined ? null : Math.round(((at - NOON) / MINUTE_MS) * 1000) / 1000;
}

export function minute(after: number): number {
  return NOON + after * MINUTE_MS;
}

/** Every stage takes the barn's minutes at everybody's pace, nobody needs a moment in between, everybody comes. */
export function noChance({ barn }: Board): Learned {
  const prior = priorFrom(barn.rules.stageMinutes);
  const sure = Object.fromEntries(
    Object.entries(prior).map(([stage, one]) => [
      stage,
      { ...one, spread: 1e-9, spreadDf: 1e6, horseShrink: 1e9, personShrink: 1e9 },
    ]),
  ) as typeof prior;
  return {
    ...learnedNothing(barn.rules),
    durations: learn(sure, []),
    sameHorseMs: 0,
    otherHorseMs: 0,
    unseenStart: 0,
    noShow: 0,
  };
}
