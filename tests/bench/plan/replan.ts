/** How soon after a change there is an answer about which work to move, and how good it is by then. */
import { planInput } from '#core/plan/input.ts';
import type { Rebalanced } from '#core/plan/rebalance/model.ts';
import { rebalance } from '#core/plan/rebalance/rebalance.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { afternoonStart, generateBarn, type Size } from '../../../demo/generate.ts';

const DATE = '2026-05-11';
const TYPICAL = { horses: 14, people: 10, lessons: 4 };
const STRESS = { horses: 60, people: 40, lessons: 12 };
/** The planner is asked to stop after this; what it does beyond is its longest step. */
const DEADLINE_MS = 150;
/** With this long it has found what it will find. */
const PATIENT_MS = 2_000;
const SEEDS = 25;
/** Minutes into the afternoon at which it is asked. */
const ASKED_AT = [0, 25] as const;
const WARM_UP = 6;

export interface ReplanFigures {
  /** From the changed board to the answer, elapsed; ms. */
  readonly p50Ms: number;
  readonly p98Ms: number;
  /** The same in processor time of the thread: what it would be on a machine with nothing else to do. */
  readonly cpuP50Ms: number;
  readonly cpuP98Ms: number;
  readonly answers: number;
  /** Answers that offer something. */
  readonly offers: number;
  /** Median lateness of the latest horse, minutes: as it is, by the best offer in time, and by that of a patient planner. */
  readonly lateMinutes: { readonly now: number; readonly offered: number; readonly patient: number };
}

export function benchReplan(): { typical: ReplanFigures; stress: ReplanFigures } {
  return { typical: measured(TYPICAL), stress: measured(STRESS) };
}

function measured(size: Omit<Size, 'seed' | 'date'>): ReplanFigures {
  const wall: number[] = [];
  const cpu: number[] = [];
  const now: number[] = [];
  const offered: number[] = [];
  const patient: number[] = [];
  let offers = 0;
  for (let i = -WARM_UP; i < SEEDS * ASKED_AT.length; i++) {
    const seed = 1 + (Math.abs(i) % SEEDS);
    const asked = ASKED_AT[Math.floor(Math.max(0, i) / SEEDS)] ?? 0;
    const board = generateBarn({ ...size, seed, date: DATE });
    const at = afternoonStart(DATE) + asked * MINUTE_MS;
    const ask = (ms: number): Rebalanced => {
      const until = performance.now() + ms;
      return rebalance(planInput(board, at), { budget: { deadline: () => performance.now() >= until } });
    };
    const cpuBefore = cpuMs();
    const before = performance.now();
    const answer = ask(DEADLINE_MS);
    const elapsed = performance.now() - before;
    const used = cpuMs() - cpuBefore;
    if (i < 0) continue;
    wall.push(elapsed);
    cpu.push(used);
    if (answer.alternatives.length > 0) offers++;
    now.push((answer.now.latenessMs ?? 0) / MINUTE_MS);
    offered.push(lateness(answer));
    if (asked === 0 && seed <= 8) patient.push(lateness(ask(PATIENT_MS)) - lateness(answer));
  }
  const behind = quantile(patient, 0.5);
  return {
    p50Ms: tenth(quantile(wall, 0.5)),
    p98Ms: tenth(quantile(wall, 0.98)),
    cpuP50Ms: tenth(quantile(cpu, 0.5)),
    cpuP98Ms: tenth(quantile(cpu, 0.98)),
    answers: wall.length,
    offers,
    lateMinutes: {
      now: tenth(quantile(now, 0.5)),
      offered: tenth(quantile(offered, 0.5)),
      patient: tenth(quantile(offered, 0.5) + behind),
    },
  };
}

/** Of the best offer, minutes. */
function lateness(answer: Rebalanced): number {
  return ((answer.alternatives.at(-1)?.worth ?? answer.now).latenessMs ?? 0) / MINUTE_MS;
}

function cpuMs(): number {
  const { user, system } = process.threadCpuUsage();
  return (user + system) / 1_000;
}

function quantile(values: readonly number[], p: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(p * sorted.length) - 1)] ?? NaN;
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
