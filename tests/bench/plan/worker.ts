/** What the hub's planner thread costs: memory after many forecasts and searches at the stress size, and how soon a forecast is back. */
import type { Found } from '../../../hub/moveSearch.ts';
import { ForecastThread } from '../../../hub/forecastThread.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { afternoonStart, generateBarn, type Size } from '../../../demo/generate.ts';

const DATE = '2026-05-11';
const TYPICAL = { horses: 14, people: 10, lessons: 4 };
const STRESS = { horses: 60, people: 40, lessons: 12 };
const WARM_UP = 10;
const ROUNDS = 100;
/** Each of these searches for moves until it is told that it is done. */
const SEARCHES = 6;

export type WorkerFigures = {
  /** From asking the thread to its answer, the copies of board and forecast included; ms. */
  readonly p50Ms: number;
  readonly p98Ms: number;
  /** Used by the thread's own heap at its largest seen, and what the process grew by (resident), MB. */
  readonly heapMb: number;
  readonly residentMb: number;
  /** From the changed board to the first moves told, median; ms. */
  readonly firstMovesMs: number | null;
};

export async function benchWorker(): Promise<{ typical: WorkerFigures; stress: WorkerFigures }> {
  return { typical: await measured(TYPICAL), stress: await measured(STRESS) };
}

async function measured(size: Omit<Size, 'seed' | 'date'>): Promise<WorkerFigures> {
  const residentBefore = process.memoryUsage.rss();
  let resident = residentBefore;
  let heap = 0;
  const look = async (): Promise<void> => {
    resident = Math.max(resident, process.memoryUsage.rss());
    heap = Math.max(heap, await thread.heapBytes());
  };
  const thread = new ForecastThread();
  const lengths: number[] = [];
  const at = (i: number): number => afternoonStart(DATE) + (i % 40) * MINUTE_MS;
  const boards = Array.from({ length: 5 }, (_, i) => generateBarn({ ...size, seed: 1 + i, date: DATE }));
  const board = (i: number): (typeof boards)[number] => boards[i % boards.length] ?? boards[0]!;
  for (let i = 0; i < WARM_UP + ROUNDS; i += 1) {
    const began = performance.now();
    await thread.forecast(board(i), at(i));
    if (i >= WARM_UP) lengths.push(performance.now() - began);
    if (i % 10 === 0) await look();
  }
  const firsts: number[] = [];
  for (let i = 0; i < SEARCHES; i += 1) {
    const began = performance.now();
    let first: number | null = null;
    await new Promise<void>((done, failed) => {
      const found = ({ answer, isDone }: Found): void => {
        if (answer.alternatives.length > 0) first ??= performance.now() - began;
        if (isDone) done();
      };
      thread.forecast(board(i), at(10), { found, failed }).catch(failed);
    });
    if (first !== null) firsts.push(first);
    await look();
  }
  await thread.stop();
  const mb = (bytes: number): number => Math.round(bytes / 2 ** 20);
  return {
    p50Ms: quantile(lengths, 0.5),
    p98Ms: quantile(lengths, 0.98),
    heapMb: mb(heap),
    residentMb: mb(resident - residentBefore),
    firstMovesMs: firsts.length > 0 ? quantile(firsts, 0.5) : null,
  };
}

function quantile(values: readonly number[], p: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return Math.round((sorted[Math.min(sorted.length - 1, Math.ceil(p * sorted.length) - 1)] ?? NaN) * 10) / 10;
}
