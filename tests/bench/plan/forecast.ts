/** Figures of the forecast: how well its chances come true on simulated days, and how long one takes. */
import { DEFAULT_RULES } from '#core/barn/rules.ts';
import { forecast } from '#core/plan/forecast.ts';
import { planInput } from '#core/plan/input.ts';
import { learnedNothing } from '#core/plan/learned.ts';
import type { PlanInput, Work, Worker } from '#core/plan/model.ts';
import { simpleForecast } from '#core/plan/simpleForecast.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import {
  calibration,
  casesOf,
  learnedFrom,
  simulatedDay,
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
  const learned = learnedFrom(Array.from({ length: LEARNED_DAYS }, (_, i) => simulatedDay(1 + i, world)));
  return Array.from({ length: HELD_OUT_DAYS }, (_, i) => simulatedDay(1001 + i, world)).flatMap((day) =>
    casesOf(day, learned, EVERY_MINUTES),
  );
}

type Timing = {
  readonly horses: number;
  readonly people: number;
  readonly lessons: number;
  readonly pieces: number;
  /** Wall time of one forecast from a board or an input, ms. */
  readonly p50Ms: number;
  readonly p98Ms: number;
  readonly simpleP50Ms: number;
  /** Processor time of this process for one, ms: what is left when others use the machine too. */
  readonly cpuMs: number;
  readonly wireBytes: number;
};

const REFRESHES = 200;
const WARM_UP = 20;

/** One refresh of the forecast, warm: the demo's first minutes, and a barn four times as large. */
export function benchRefresh(): { typical: Timing; stress: Timing } {
  const day = simulatedDay(1001, { earliestMinutes: 60 });
  const typical = (i: number): PlanInput => planInput(day.start, day.startAt + i * 1000);
  return { typical: timed(typical), stress: timed(stressInput) };
}

function timed(inputAt: (i: number) => PlanInput): Timing {
  const lengths: number[] = [];
  let cpuUs = 0;
  for (let i = 0; i < WARM_UP + REFRESHES; i += 1) {
    const cpu = process.cpuUsage();
    const started = performance.now();
    forecast(inputAt(i));
    if (i < WARM_UP) continue;
    lengths.push(performance.now() - started);
    const used = process.cpuUsage(cpu);
    cpuUs += used.user + used.system;
  }
  const simple = Array.from({ length: 20 }, (_, i) => {
    const started = performance.now();
    simpleForecast(inputAt(i));
    return performance.now() - started;
  });
  const input = inputAt(0);
  return {
    horses: new Set(input.works.map((work) => work.horse)).size,
    people: input.workers.length,
    lessons: input.lessons.length,
    pieces: input.works.reduce((sum, work) => sum + work.pieces.length, 0),
    p50Ms: quantile(lengths, 0.5),
    p98Ms: quantile(lengths, 0.98),
    simpleP50Ms: quantile(simple, 0.5),
    cpuMs: cpuUs / 1000 / REFRESHES,
    wireBytes: JSON.stringify(forecast(input)).length,
  };
}

function quantile(values: readonly number[], p: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(p * sorted.length))] ?? NaN;
}

const NOON = Date.UTC(2026, 4, 12, 19, 0);

/** 60 horses, 40 people and 12 lessons, a quarter of the work nobody's, everybody with a part in a lesson. */
function stressInput(second: number): PlanInput {
  const now = NOON + second * 1000;
  const ramp = (lesson: number): number => NOON + (40 + lesson * 20) * MINUTE_MS;
  const works = Array.from({ length: 60 }, (_, h): Work => {
    const rampTime = ramp(h % 12);
    return {
      prep: `h${h}.1`,
      horse: `h${h}`,
      metres: h * 2,
      rampTime,
      feetBy: rampTime - 23 * MINUTE_MS,
      freeFrom: null,
      freeAfter: null,
      notBefore: rampTime - 60 * MINUTE_MS,
      markedAt: null,
      pieces: (['feet', 'coat', 'tack'] as const).map((stage) => ({
        id: `h${h}.1:${stage}`,
        prep: `h${h}.1`,
        stage,
        horse: `h${h}`,
        asks: [stage],
        lengthMs: DEFAULT_RULES.stageMinutes[stage] * MINUTE_MS,
        underWay: null,
      })),
    };
  });
  const workers = Array.from({ length: 40 }, (_, w): Worker => {
    const start = ramp(w % 12) + 15 * MINUTE_MS;
    const mine = works.flatMap(({ pieces }, h) =>
      h % 4 === 3 ? [] : pieces.filter((_, i) => (h + (i === 1 ? 1 : 0)) % 40 === w),
    );
    return {
      id: `p${w}`,
      seat: w,
      clearances: ['feet', 'coat', 'tack', 'lead'],
      pace: 0.8 + 0.01 * w,
      from: now,
      until: NOON + 300 * MINUTE_MS,
      expectedFrom: null,
      idleSince: now - MINUTE_MS,
      busy: [{ from: start - 5 * MINUTE_MS, until: start + 40 * MINUTE_MS, horse: `h${(w * 3) % 60}` }],
      queue: mine.map((piece) => piece.id),
    };
  });
  return {
    now,
    works,
    workers,
    lessons: Array.from({ length: 12 }, (_, lesson) => ({
      id: `l${lesson}`,
      rampTime: ramp(lesson),
      horses: works
        .filter((_, h) => h % 12 === lesson)
        .map(({ prep, rampTime }) => ({ prep, rampTime, freeFrom: null })),
      missing: null,
    })),
    learned: learnedNothing(DEFAULT_RULES),
    certainty: DEFAULT_RULES.certainty,
    extrasMs: DEFAULT_RULES.extrasMinutes * MINUTE_MS,
    leftOut: [],
  };
}
