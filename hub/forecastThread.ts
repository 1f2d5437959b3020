/** Forecasts in a thread of their own, so that a tap never waits for one. */
import { Worker } from 'node:worker_threads';
import type { Board } from '#core/day/board.ts';
import type { Learned } from '#core/plan/learned.ts';
import type { Forecast } from '#core/plan/model.ts';
import type { Forecaster } from './planner.ts';

export type Asked = { readonly ask: number; readonly board: Board; readonly at: number };
/** Sent once and kept by the thread: it is the same for every forecast of a day. */
export type Taught = { readonly learned: Learned };
export type Made = { readonly ask: number } & (
  { readonly forecast: Forecast } | { readonly failure: string }
);

/** A forecast that would need more ends its thread, not the hub. */
const LIMITS = { maxOldGenerationSizeMb: 96, maxYoungGenerationSizeMb: 16 };

export class ForecastThread implements Forecaster {
  #worker: Worker | null = null;
  #learned: Learned | null = null;
  #lastAsk = 0;
  readonly #waiting = new Map<number, PromiseWithResolvers<Forecast>>();

  forecast(board: Board, at: number): Promise<Forecast> {
    const ask = (this.#lastAsk += 1);
    const answer = Promise.withResolvers<Forecast>();
    this.#waiting.set(ask, answer);
    this.#worker ??= this.#begin();
    this.#worker.postMessage({ ask, board, at } satisfies Asked);
    return answer.promise;
  }

  /** What past days have taught, for every forecast from now on. */
  learn(learned: Learned): void {
    this.#learned = learned;
    this.#worker?.postMessage({ learned } satisfies Taught);
  }

  async stop(): Promise<void> {
    await this.#worker?.terminate();
  }

  #begin(): Worker {
    const worker = new Worker(new URL('./forecastWorker.ts', import.meta.url), { resourceLimits: LIMITS });
    if (this.#learned) worker.postMessage({ learned: this.#learned } satisfies Taught);
    worker.on('message', (made: Made) => {
      const answer = this.#waiting.get(made.ask);
      this.#waiting.delete(made.ask);
      if ('forecast' in made) answer?.resolve(made.forecast);
      else answer?.reject(new Error(made.failure));
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
