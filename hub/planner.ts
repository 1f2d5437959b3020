/** Forecasts in the background: the board never waits for one, and an old one stays, with its age, until the next. */
import type { Board } from '#core/day/board.ts';
import { forecast } from '#core/plan/forecast.ts';
import { planInput } from '#core/plan/input.ts';
import type { Forecast } from '#core/plan/model.ts';

export interface Planner {
  /** `onForecast` hears of each new one until `stop`. */
  start(board: Board, onForecast: (forecast: Forecast) => void): void;
  /** The board as it is on disk now; a new forecast follows soon. */
  changed(board: Board): void;
  /** One forecast for a board that is not the real one. */
  consider(board: Board): Promise<Forecast>;
  stop(): Promise<void>;
}

/** Least time between two forecasts: a burst of taps is worth one. */
export const SETTLE_MS = 200;

/** A forecast grows old while nothing is tapped, because time itself eats the spare. */
export const AT_LEAST_EVERY_MS = 5000;

/** Forecasts in this very thread. `barnNow` is barn time in ms; calls of `failed` are bugs in the planner. */
export class InThreadPlanner implements Planner {
  readonly #barnNow: () => number;
  readonly #failed: (error: unknown) => void;
  #board: Board | null = null;
  #onForecast: (forecast: Forecast) => void = () => {};
  #timer: NodeJS.Timeout | null = null;
  #dueAt = Infinity;
  #ranAt = -Infinity;

  constructor(barnNow: () => number, failed: (error: unknown) => void) {
    this.#barnNow = barnNow;
    this.#failed = failed;
  }

  start(board: Board, onForecast: (forecast: Forecast) => void): void {
    this.#onForecast = onForecast;
    this.changed(board);
  }

  changed(board: Board): void {
    this.#board = board;
    this.#runBy(Math.max(performance.now(), this.#ranAt + SETTLE_MS));
  }

  async consider(board: Board): Promise<Forecast> {
    return forecast(planInput(board, this.#barnNow()));
  }

  async stop(): Promise<void> {
    if (this.#timer) clearTimeout(this.#timer);
    this.#timer = null;
    this.#board = null;
  }

  #runBy(at: number): void {
    if (this.#timer && this.#dueAt <= at) return;
    if (this.#timer) clearTimeout(this.#timer);
    this.#dueAt = at;
    this.#timer = setTimeout(() => this.#run(), Math.max(0, at - performance.now()));
  }

  #run(): void {
    this.#timer = null;
    if (!this.#board) return;
    this.#ranAt = performance.now();
    try {
      this.#onForecast(forecast(planInput(this.#board, this.#barnNow())));
    } catch (error) {
      this.#failed(error);
    }
    this.#runBy(this.#ranAt + AT_LEAST_EVERY_MS);
  }
}
