/** What a barn's past days have taught: how long stages take, and how long people need from one to the next. */
import * as z from 'zod/mini';
import type { Barn } from '../barn/barn.ts';
import type { Rules } from '../barn/rules.ts';
import { SECOND_MS } from '../time/units.ts';
import { DurationModel, learn } from './durations/learn.ts';
import { Observation } from './durations/observation.ts';
import { priorFrom } from './durations/prior.ts';

/** From a stage's end to the start of the next: looking at the board, fetching, without the walk between stalls. ms */
export const Changeover = z.object({ sameHorse: z.boolean(), ms: z.int() });
export type Changeover = z.infer<typeof Changeover>;

/** What to keep of past days. Plain data. */
export const History = z.object({ observations: z.array(Observation), changeovers: z.array(Changeover) });
export type History = z.infer<typeof History>;

export const NO_HISTORY: History = { observations: [], changeovers: [] };

/** Plain data: survives JSON and a thread's border. */
export const Learned = z.object({
  durations: DurationModel,
  /** Each person's pace as the coordinator had set it when this was learned; `durations` is relative to it. */
  paces: z.record(z.string(), z.number()),
  sameHorseMs: z.number(),
  otherHorseMs: z.number(),
});
export type Learned = z.infer<typeof Learned>;

/** Until a barn has its own. Common practice, no source. */
const SAME_HORSE_MS = 20 * SECOND_MS;
const OTHER_HORSE_MS = 60 * SECOND_MS;
/** How many changeovers seen the above are worth. */
const WORTH = 10;

/**
 * The model from a barn's history. On the first day it is the barn's stage minutes and each person's pace: a person's
 * effect is learned relative to their pace, which is the same as a prior of log pace on it.
 */
export function learnFrom(barn: Barn, { observations, changeovers }: History): Learned {
  const paces = Object.fromEntries(
    Object.values(barn.volunteers).map((volunteer) => [volunteer.id, paceOf(volunteer.private?.pace)]),
  );
  const atPaceOne = observations.map((seen) => ({
    ...seen,
    minutes: seen.minutes / paceOf(paces[seen.person]),
  }));
  const typical = (sameHorse: boolean, usual: number): number =>
    medianWith(
      changeovers.filter((one) => one.sameHorse === sameHorse).map((one) => one.ms),
      usual,
    );
  return {
    durations: learn(priorFrom(barn.rules.stageMinutes), atPaceOne),
    paces,
    sameHorseMs: typical(true, SAME_HORSE_MS),
    otherHorseMs: typical(false, OTHER_HORSE_MS),
  };
}

const onFirstDay = new WeakMap<Rules['stageMinutes'], DurationModel>();

/** What is believed before any history. */
export function learnedNothing({ stageMinutes }: Rules): Learned {
  let durations = onFirstDay.get(stageMinutes);
  if (!durations) {
    durations = learn(priorFrom(stageMinutes), []);
    onFirstDay.set(stageMinutes, durations);
  }
  return { durations, paces: {}, sameHorseMs: SAME_HORSE_MS, otherHorseMs: OTHER_HORSE_MS };
}

function paceOf(pace: number | undefined): number {
  return pace !== undefined && Number.isFinite(pace) && pace > 0 ? pace : 1;
}

/** Median of the values and of `WORTH` times the usual one: a few long waits do not move it. */
function medianWith(values: readonly number[], usual: number): number {
  const sorted = [...values, ...new Array<number>(WORTH).fill(usual)].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? usual;
}
