/** What a barn's past days have taught: how long stages take, and how long people need from one to the next. */
import type { Barn } from '../barn/barn.ts';
import type { Rules } from '../barn/rules.ts';
import { STAGES } from '../barn/stage.ts';
import { SECOND_MS } from '../time/units.ts';
import { learn, type DurationModel } from './durations/learn.ts';
import type { Observation } from './durations/observation.ts';
import { priorFrom } from './durations/prior.ts';

/** From a stage's end to the start of the next: looking at the board, fetching, without the walk between stalls. ms */
export type Changeover = { readonly sameHorse: boolean; readonly ms: number };

/** That somebody took up a horse so long before its ramp time. ms, negative after it. */
export type TakeUp = { readonly person: string; readonly ms: number };

/** How many of how many. */
export type Share = { readonly count: number; readonly of: number };

/** What to keep of past days. Plain data. */
export type History = {
  readonly observations: readonly Observation[];
  readonly changeovers: readonly Changeover[];
  readonly takeUps: readonly TakeUp[];
  /** Stages finished that nobody had tapped as begun. */
  readonly unseenStarts: Share;
  /** People expected who did not come. */
  readonly noShows: Share;
};

export const NO_HISTORY: History = {
  observations: [],
  changeovers: [],
  takeUps: [],
  unseenStarts: { count: 0, of: 0 },
  noShows: { count: 0, of: 0 },
};

/** Plain data: survives JSON and a thread's border, and is nowhere kept. */
export type Learned = {
  readonly durations: DurationModel;
  /** Each person's pace as the coordinator had set it when this was learned; `durations` is relative to it. */
  readonly paces: Readonly<Record<string, number>>;
  readonly sameHorseMs: number;
  readonly otherHorseMs: number;
  /** How long before its ramp time each person takes up a horse when nothing else keeps them; missing: not known. */
  readonly takeUpMs: Readonly<Record<string, number>>;
  /** Chance that a stage is begun without a tap, and that somebody expected does not come. */
  readonly unseenStart: number;
  readonly noShow: number;
};

/** Until a barn has its own. Common practice, no source. */
const SAME_HORSE_MS = 20 * SECOND_MS;
const OTHER_HORSE_MS = 60 * SECOND_MS;
/** How many changeovers seen the above are worth. */
const WORTH = 10;
/** The same for chances: of a stage begun without a tap, and of somebody who does not come. No source. */
const UNSEEN_START = 0.1;
const NO_SHOW = 0.03;
const WORTH_OF_CHANCE = 30;

/**
 * The model from a barn's history. On the first day it is the barn's stage minutes and each person's pace: a person's
 * effect is learned relative to their pace, which is the same as a prior of log pace on it.
 */
export function learnFrom(barn: Barn, history: History): Learned {
  const { observations, changeovers, takeUps, unseenStarts, noShows } = history;
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
    takeUpMs: usualTakeUps(takeUps),
    unseenStart: shareOf(unseenStarts, UNSEEN_START),
    noShow: shareOf(noShows, NO_SHOW),
  };
}

/** The last one asked for: what is computed from a model is kept with it, so the same minutes get the same model. */
let onFirstDay: { readonly minutes: string; readonly durations: DurationModel } | null = null;

/** What is believed before any history. */
export function learnedNothing({ stageMinutes }: Rules): Learned {
  const minutes = STAGES.map((stage) => stageMinutes[stage]).join();
  if (onFirstDay?.minutes !== minutes) {
    onFirstDay = { minutes, durations: learn(priorFrom(stageMinutes), []) };
  }
  return {
    durations: onFirstDay.durations,
    paces: {},
    sameHorseMs: SAME_HORSE_MS,
    otherHorseMs: OTHER_HORSE_MS,
    takeUpMs: {},
    unseenStart: UNSEEN_START,
    noShow: NO_SHOW,
  };
}

/** Fewer say nothing about a person's habit. Own choice, no source. */
const LEAST_TAKE_UPS = 4;

function usualTakeUps(takeUps: readonly TakeUp[]): Record<string, number> {
  const byPerson = new Map<string, number[]>();
  for (const { person, ms } of takeUps) byPerson.set(person, [...(byPerson.get(person) ?? []), ms]);
  return Object.fromEntries(
    [...byPerson]
      .filter(([, all]) => all.length >= LEAST_TAKE_UPS)
      .map(([person, all]) => {
        const sorted = all.sort((a, b) => a - b);
        return [person, Math.max(0, sorted[Math.floor(sorted.length / 2)] ?? 0)];
      }),
  );
}

function paceOf(pace: number | undefined): number {
  return pace !== undefined && Number.isFinite(pace) && pace > 0 ? pace : 1;
}

/** Mean of the beta posterior. */
function shareOf({ count, of }: Share, usual: number): number {
  return (count + usual * WORTH_OF_CHANCE) / (of + WORTH_OF_CHANCE);
}

/** Median of the values and of `WORTH` times the usual one: a few long waits do not move it. */
function medianWith(values: readonly number[], usual: number): number {
  const sorted = [...values, ...Array.from({ length: WORTH }, () => usual)].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? usual;
}
