/** A planner's input written down in minutes, for tests that reckon by hand: no moments between stages, no walks. */
import { DEFAULT_RULES } from '#core/barn/rules.ts';
import { asks, STAGES, type Clearance, type Stage } from '#core/barn/stage.ts';
import { learnedNothing } from '#core/plan/learned.ts';
import type { PlanInput, Work, Worker } from '#core/plan/model.ts';
import { MINUTE_MS } from '#core/time/units.ts';

/** 2026-05-11 13:00 in Denver. */
export const NOW = Date.UTC(2026, 4, 11, 19, 0);

export const minutes = (n: number): number => n * MINUTE_MS;
export const at = (n: number): number => NOW + minutes(n);

export type HorseSpec = {
  readonly id: string;
  /** Ramp time; all times in minutes after NOW. */
  readonly ramp: number;
  readonly open?: readonly Stage[];
  /** False: when the feet are checked makes no difference. */
  readonly feetBy?: number | false;
  readonly freeFrom?: number;
  readonly notBefore?: number;
  readonly metres?: number;
  readonly experiencedFor?: readonly Stage[];
  readonly underWay?: { readonly by: string; readonly since: number };
};

export type PersonSpec = {
  readonly id: string;
  readonly clearances?: readonly Clearance[];
  readonly pace?: number;
  readonly from?: number;
  readonly until?: number;
  readonly busy?: readonly { readonly from: number; readonly until: number; readonly horse?: string }[];
  /** Pieces as `fern:coat`, or all open pieces of `fern`. */
  readonly queue?: readonly string[];
};

/** What the stages take unless a test says otherwise: 4, 11 and 8 minutes. */
const LENGTHS = DEFAULT_RULES.stageMinutes;

const idOf = (horse: string, stage: Stage): string => `${horse}.1:${stage}`;

export function barn(
  horses: readonly HorseSpec[],
  people: readonly PersonSpec[],
  stageMinutes: Readonly<Record<Stage, number>> = LENGTHS,
): PlanInput {
  const works = horses.map((horse) => work(horse, stageMinutes));
  return {
    now: NOW,
    works,
    afterWorks: [],
    workers: people.map((person, seat) => worker(person, seat, works)),
    lessons: horses.map((horse) => ({
      id: `lesson-${horse.id}`,
      rampTime: at(horse.ramp),
      horses: [{ prep: `${horse.id}.1`, rampTime: at(horse.ramp), freeFrom: null }],
      missing: null,
    })),
    learned: {
      ...learnedNothing({ ...DEFAULT_RULES, stageMinutes }),
      sameHorseMs: 0,
      otherHorseMs: 0,
      unseenStart: 0,
      noShow: 0,
    },
    certainty: 0.8,
    extrasMs: minutes(10),
    leftOut: [],
  };
}

function work(horse: HorseSpec, stageMinutes: Readonly<Record<Stage, number>>): Work {
  const open = horse.open ?? STAGES;
  const feetBy = horse.feetBy ?? horse.ramp - stageMinutes.feet - stageMinutes.coat - stageMinutes.tack;
  return {
    prep: `${horse.id}.1`,
    horse: horse.id,
    metres: horse.metres ?? 0,
    rampTime: at(horse.ramp),
    feetBy: open.includes('feet') && feetBy !== false ? at(feetBy) : null,
    freeFrom: horse.freeFrom === undefined ? null : at(horse.freeFrom),
    freeAfter: horse.freeFrom === undefined ? null : 'earlier',
    notBefore: horse.notBefore === undefined ? null : at(horse.notBefore),
    markedAt: null,
    pieces: open.map((stage, i) => ({
      id: idOf(horse.id, stage),
      prep: `${horse.id}.1`,
      stage,
      horse: horse.id,
      asks: asks(horse.experiencedFor ?? [], stage),
      lengthMs: minutes(stageMinutes[stage]),
      underWay: i === 0 && horse.underWay ? { by: horse.underWay.by, since: at(horse.underWay.since) } : null,
    })),
  };
}

function worker(person: PersonSpec, seat: number, works: readonly Work[]): Worker {
  return {
    id: person.id,
    seat,
    clearances: person.clearances ?? ['feet', 'coat', 'tack', 'experienced'],
    pace: person.pace ?? 1,
    from: at(person.from ?? 0),
    until: person.until === undefined ? null : at(person.until),
    expectedFrom: null,
    idleSince: null,
    busy: (person.busy ?? []).map(({ from, until, horse }) => ({
      from: at(from),
      until: at(until),
      horse: horse ?? null,
    })),
    queue: (person.queue ?? []).flatMap((entry) => {
      const [horse = '', stage] = entry.split(':');
      const pieces = works.find((one) => one.horse === horse)?.pieces ?? [];
      return pieces.filter((piece) => !stage || piece.stage === stage).map((piece) => piece.id);
    }),
  };
}
