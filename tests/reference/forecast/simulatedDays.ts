/**
 * The forecast held against days that run by other rules than its own: people who walk, look at the board now and then,
 * forget taps and draw stage times from a gamma distribution.
 */
import { isWanted, markOf, nextStage } from '#core/day/preps.ts';
import type { Board, Prep } from '#core/day/board.ts';
import { stagesOf } from '#core/day/pieces.ts';
import { evolve } from '#core/day/evolve.ts';
import { forecast } from '#core/plan/forecast.ts';
import { learnFromDays } from '#core/plan/history.ts';
import { planInput } from '#core/plan/input.ts';
import type { Learned } from '#core/plan/learned.ts';
import { simpleForecast } from '#core/plan/simpleForecast.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import type { AfternoonOptions } from '../../../demo/afternoon.ts';
import { demoDay, simulate, type SimulatedDay } from '../../../demo/simulate.ts';
import {
  baseRateScore,
  brierScore,
  mean,
  reliability,
  reliabilityTerm,
  type ReliabilityRow,
  type Verified,
} from './verification.ts';

export type World = {
  /** The barn's rule for how early a horse is taken up: at 60 min most horses are ready, at 42 one in five is not. */
  readonly earliestMinutes: number;
  readonly options?: Partial<AfternoonOptions>;
};

const DATE = '2026-05-12';

/** The demo's afternoon without its cues: everybody comes about when they said and goes home when they said. */
export function simulatedDay(seed: number, { earliestMinutes, options = {} }: World): SimulatedDay {
  const usual = demoDay(DATE);
  const barn = { ...usual.board.barn, rules: { ...usual.board.barn.rules, earliestMinutes } };
  const board = { ...usual.board, barn };
  const script = Object.entries(board.day.hands).flatMap(([volunteer, { presence }]) =>
    presence.until === null
      ? []
      : [
          {
            id: `left-${volunteer}`,
            at: presence.until + MINUTE_MS,
            from: 'coordinator' as const,
            by: 'c1',
            facts: (now: Board) =>
              now.day.hands[volunteer]?.presence.state === 'here'
                ? [{ kind: 'volunteerLeft' as const, volunteer }]
                : [],
          },
        ],
  );
  return simulate({ ...usual, board, script, arrivals: {}, coordinated: false, seed, ...options });
}

function learnedFrom(days: readonly SimulatedDay[]): Learned {
  const [first] = days;
  if (!first) throw new Error('no days to learn from');
  return learnFromDays(
    first.start.barn,
    days.map(({ board, entries }) => ({ day: board.day, entries })),
  );
}

/** One forecast for one horse that was not tacked yet and not past its ramp time. */
export type Case = Verified & {
  readonly simpleChance: number;
  readonly inside80: boolean;
  readonly minutesAhead: number;
};

/** Every `everyMinutes` of the day, a forecast for every horse with work open, against what came. */
function casesOf(day: SimulatedDay, learned: Learned | null, everyMinutes: number): Case[] {
  const cases: Case[] = [];
  let board = day.start;
  let next = 0;
  for (let now = day.startAt; now < day.endAt; now += everyMinutes * MINUTE_MS) {
    for (; next < day.entries.length; next += 1) {
      const entry = day.entries[next];
      if (!entry || entry.at > now) break;
      board = evolve(board, entry);
    }
    const input = planInput(board, now, learned);
    const simple = simpleForecast(input);
    for (const known of Object.values(forecast(input).preps)) {
      const prep = board.day.preps[known.prep];
      const atEnd = day.board.day.preps[known.prep];
      if (!prep || !atEnd || nextStage(prep) === null || known.rampTime < now) continue;
      if (!isWanted(day.board.barn, atEnd)) continue;
      const ready = readyAt(atEnd);
      cases.push({
        chance: known.chance,
        came: ready <= known.rampTime,
        simpleChance: simple.preps[known.prep]?.chance ?? 0,
        inside80: ready >= (known.p10 ?? Infinity) && ready <= (known.p90 ?? Infinity),
        minutesAhead: (known.rampTime - now) / MINUTE_MS,
      });
    }
  }
  return cases;
}

function readyAt(prep: Prep): number {
  return Math.max(...stagesOf(prep).map((stage) => markOf(prep, stage)?.at ?? Infinity));
}

export type Calibration = {
  readonly days: number;
  readonly forecasts: number;
  readonly readyInTime: number;
  readonly coverage80: number;
  readonly brier: number;
  readonly brierBaseRate: number;
  readonly brierSimple: number;
  readonly reliability: number;
  readonly reliabilityRows: readonly ReliabilityRow[];
};

export function calibration(days: number, cases: readonly Case[]): Calibration {
  const rows = reliability(cases);
  return {
    days,
    forecasts: cases.length,
    readyInTime: mean(cases.map(({ came }) => (came ? 1 : 0))),
    coverage80: mean(cases.map(({ inside80 }) => (inside80 ? 1 : 0))),
    brier: brierScore(cases),
    brierBaseRate: baseRateScore(cases),
    brierSimple: brierScore(cases.map(({ simpleChance, came }) => ({ chance: simpleChance, came }))),
    reliability: reliabilityTerm(rows),
    reliabilityRows: rows,
  };
}

/** Forecasts on `held` days by what `train` others have taught. Seeds are fixed, so the figures are. */
export function heldOut(world: World, train: number, held: number, everyMinutes: number): Case[] {
  const learned = learnedFrom(Array.from({ length: train }, (_, i) => simulatedDay(1 + i, world)));
  return Array.from({ length: held }, (_, i) => simulatedDay(1001 + i, world)).flatMap((day) =>
    casesOf(day, learned, everyMinutes),
  );
}
