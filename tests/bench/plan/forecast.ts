/** Figures of the forecast: how well its chances come true on simulated days, and how long one takes. */
import type { Board, Hands } from '#core/day/board.ts';
import { forecast } from '#core/plan/forecast.ts';
import { planInput } from '#core/plan/input.ts';
import type { PlanInput } from '#core/plan/model.ts';
import { simpleForecast } from '#core/plan/simpleForecast.ts';
import { afternoonStart, generateBarn, type Size } from '../../../demo/generate.ts';
import {
  calibration,
  heldOut,
  type Calibration,
  type Case,
  type World,
} from '../../reference/forecast/simulatedDays.ts';

const LEARNED_DAYS = 12;
const HELD_OUT_DAYS = 40;
const EVERY_MINUTES = 15;

/** The worlds of the calibration test and others: with a coordinator who moves work, and with people who do not come. */
const WORLDS: Readonly<Record<string, World>> = {
  usual: { earliestMinutes: 60 },
  tight: { earliestMinutes: 42 },
  tooLate: { earliestMinutes: 36 },
  coordinated: { earliestMinutes: 60, options: { coordinated: true } },
  coordinatedTight: { earliestMinutes: 42, options: { coordinated: true } },
  absences: { earliestMinutes: 60, options: { absence: 0.1 } },
};
/** Those in which the board knows as much as its people do. */
const POOLED = ['usual', 'tight', 'tooLate'];

/** `coverage80` and the scores are of the pooled worlds; each world's own stand beside them. */
export function benchForecast(): Calibration & { worlds: Record<string, Calibration> } {
  const cases = Object.fromEntries(Object.entries(WORLDS).map(([name, world]) => [name, casesIn(world)]));
  return {
    ...calibration(
      HELD_OUT_DAYS * POOLED.length,
      POOLED.flatMap((name) => cases[name] ?? []),
    ),
    worlds: Object.fromEntries(
      Object.entries(cases).map(([name, some]) => [name, calibration(HELD_OUT_DAYS, some)]),
    ),
  };
}

function casesIn(world: World): Case[] {
  return heldOut(world, LEARNED_DAYS, HELD_OUT_DAYS, EVERY_MINUTES);
}

type Timing = {
  readonly horses: number;
  readonly people: number;
  readonly lessons: number;
  readonly pieces: number;
  /** Wall time of one, ms. */
  readonly p50Ms: number;
  readonly p98Ms: number;
  readonly simpleP50Ms: number;
  /** The same in processor time of the thread: what it would be on a machine with nothing else to do. */
  readonly cpuP50Ms: number;
  readonly cpuP98Ms: number;
  readonly wireBytes: number;
};

const REFRESHES = 200;
const WARM_UP = 20;
const BOARDS = 10;
const DATE = '2026-05-11';
const TYPICAL = { horses: 14, people: 10, lessons: 4 };
const STRESS = { horses: 60, people: 40, lessons: 12 };

/** One refresh of the forecast, warm, from the board on: before anybody has come, and once everybody is here. */
export function benchRefresh(): { typical: Timing; stress: Timing } {
  return { typical: timed(TYPICAL), stress: timed(STRESS) };
}

function timed(size: Omit<Size, 'seed' | 'date'>): Timing {
  const boards = Array.from({ length: BOARDS }, (_, i) => {
    const board = generateBarn({ ...size, seed: 1 + Math.floor(i / 2), date: DATE });
    return i % 2 === 0 ? board : withEverybodyHere(board);
  });
  const inputAt = (i: number): PlanInput => {
    const board = boards[i % BOARDS];
    if (!board) throw new Error('no board');
    return planInput(board, afternoonStart(DATE) + i * 1000);
  };
  const lengths: number[] = [];
  const cpu: number[] = [];
  for (let i = 0; i < WARM_UP + REFRESHES; i += 1) {
    const before = process.threadCpuUsage();
    const started = performance.now();
    forecast(inputAt(i));
    if (i < WARM_UP) continue;
    lengths.push(performance.now() - started);
    const used = process.threadCpuUsage(before);
    cpu.push((used.user + used.system) / 1000);
  }
  const simple = Array.from({ length: 20 }, (_, i) => {
    const started = performance.now();
    simpleForecast(inputAt(i));
    return performance.now() - started;
  });
  const input = inputAt(0);
  return {
    ...size,
    pieces: input.works.reduce((sum, work) => sum + work.pieces.length, 0),
    p50Ms: quantile(lengths, 0.5),
    p98Ms: quantile(lengths, 0.98),
    simpleP50Ms: quantile(simple, 0.5),
    cpuP50Ms: quantile(cpu, 0.5),
    cpuP98Ms: quantile(cpu, 0.98),
    wireBytes: JSON.stringify(forecast(input)).length,
  };
}

function withEverybodyHere(board: Board): Board {
  const since = afternoonStart(DATE);
  const hands = Object.entries(board.day.hands).map(([id, one]): [string, Hands] => [
    id,
    { ...one, presence: { ...one.presence, state: 'here', since } },
  ]);
  return { ...board, day: { ...board.day, hands: Object.fromEntries(hands) } };
}

function quantile(values: readonly number[], p: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(p * sorted.length))] ?? NaN;
}
