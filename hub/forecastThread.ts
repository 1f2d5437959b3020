/** Forecasts and the search for better moves in a thread of their own, so that a tap never waits for either. */
import { Worker } from 'node:worker_threads';
import type { Board } from '#core/day/board.ts';
import type { Learned } from '#core/plan/learned.ts';
import type { Forecast } from '#core/plan/model.ts';
import type { Found } from './moveSearch.ts';
import type { Forecaster, SearchListener } from './planner.ts';

export type Asked = {
  readonly ask: number;
  readonly board: Board;
  readonly at: number;
  readonly alsoMoves: boolean;
};
/** Sent once and kept by the thread: it is the same for every forecast of a day. */
export type Taught = { readonly learned: Learned };
/** `found`: of the moves asked for with it; may come several times, better each time. */
export type Made = { readonly ask: number } & (
  { readonly forecast: Forecast } | { readonly found: Found } | { readonly failure: string }
);

type Searching = { readonly ask: number; readonly listener: SearchListener };

/** A forecast that would need more ends its thread, not the hub. Measured: 42 MB for 60 horses, searching. */
const LIMITS = { maxOldGenerationSizeMb: 72, maxYoungGenerationSizeMb: 12 };

export class ForecastThread implements Forecaster {
  #worker: Worker | null = null;
  #learned: Learned | null = null;
  #lastAsk = 0;
  readonly #waiting = new Map<number, PromiseWithResolvers<Forecast>>();
  /** The last search asked for: it ends those before. */
  #searching: Searching | null = null;

  forecast(board: Board, at: number, listener: SearchListener | null = null): Promise<Forecast> {
    const ask = (this.#lastAsk += 1);
    if (listener) this.#searching = { ask, listener };
    const answer = Promise.withResolvers<Forecast>();
    this.#waiting.set(ask, answer);
    this.#worker ??= this.#begin();
    this.#worker.postMessage({ ask, board, at, alsoMoves: listener !== null } satisfies Asked);
    return answer.promise;
  }

  /** What past days have taught, for every forecast from now on. */
  learn(learned: Learned): void {
    this.#learned = learned;
    this.#worker?.postMessage({ learned } satisfies Taught);
  }

  /** What the thread's heap holds now, in bytes; 0: there is no thread. */
  async heapBytes(): Promise<number> {
    const { total_heap_size: total = 0 } = (await this.#worker?.getHeapStatistics()) ?? {};
    return total;
  }

  async stop(): Promise<void> {
    await this.#worker?.terminate();
  }

  #begin(): Worker {
    const worker = new Worker(new URL('./forecastWorker.ts', import.meta.url), { resourceLimits: LIMITS });
    if (this.#learned) worker.postMessage({ learned: this.#learned } satisfies Taught);
    worker.on('message', (made: Made) => {
      const answer = this.#waiting.get(made.ask);
      const listener = this.#searching?.ask === made.ask ? this.#searching.listener : null;
      this.#waiting.delete(made.ask);
      if ('forecast' in made) answer?.resolve(made.forecast);
      else if ('found' in made) listener?.found(made.found);
      else if (answer) answer.reject(new Error(made.failure));
      else listener?.failed(new Error(made.failure));
    });
    // The next ask begins a new thread.
    const lost = (why: unknown): void => {
      if (this.#worker === worker) this.#worker = null;
      for (const answer of this.#waiting.values()) answer.reject(why);
      this.#waiting.clear();
    };
    worker.on('error', lost);
    worker.on('exit', () => lost(new Error('the forecast thread has ended')));
    return worker;
  }
}
