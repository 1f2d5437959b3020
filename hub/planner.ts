/**
 * Forecasts in the background: the board never waits for one, and an old one stays, with its age, until the next. While a
 * coordinator looks, moves that would help are searched for too.
 */
import type { Board } from '#core/day/board.ts';
import { withHysteresis } from '#core/plan/hysteresis.ts';
import type { Forecast } from '#core/plan/model.ts';
import type { Rebalanced } from '#core/plan/rebalance/model.ts';
import type { Found } from './moveSearch.ts';

/** Who wants to hear of moves. */
export type MoveListener = {
  /** Somebody looks: without anybody nothing is searched for. */
  readonly isWatched: () => boolean;
  /** What helps on `board`, which is the latest one. Better ones may follow. */
  readonly found: (rebalanced: Rebalanced, board: Board) => void;
};

export interface Planner {
  /** `onForecast` hears of each new one until `stop`. */
  start(board: Board, onForecast: (forecast: Forecast) => void, moves?: MoveListener): void;
  /** The board as it is on disk now; a new forecast follows soon. */
  changed(board: Board): void;
  /** One forecast for a board that is not the real one. */
  consider(board: Board): Promise<Forecast>;
  stop(): Promise<void>;
}

/** Hears of a search for moves, while no other has begun since. */
export type SearchListener = {
  readonly found: (found: Found) => void;
  readonly failed: (error: unknown) => void;
};

/** Makes one forecast, wherever that is done. `at` is barn time in ms. With a listener, moves are searched for after it. */
export interface Forecaster {
  forecast(board: Board, at: number, listener?: SearchListener | null): Promise<Forecast>;
  stop(): Promise<void>;
}

/** Least time from one forecast to the beginning of the next: a burst of taps is worth one. */
export const SETTLE_MS = 200;

/** While taps keep coming, each rest is twice the one before, up to this: nobody reads faster, and the hub box is small. */
export const LONGEST_REST_MS = 1600;

/** Moves are for a board that stands still: found for one that is changing, they are too late when they are found. */
export const STILL_MS = 400;

/** A forecast grows old while nothing is tapped, because time itself eats the spare. */
export const AT_LEAST_EVERY_MS = 5000;

/** On an unchanged board a new search finds little that the last one did not: time has passed, no more. */
export const SEARCH_AGAIN_MS = 15_000;

type PacedParts = {
  readonly forecaster: Forecaster;
  /** Barn time in ms. */
  readonly barnNow: () => number;
  readonly failed: (error: unknown) => void;
};

/** One forecast at a time, soon after each change and every few seconds anyway, always of the latest board. */
export class PacedPlanner implements Planner {
  readonly #parts: PacedParts;
  #board: Board | null = null;
  /** The last forecast as it was told, so that nobody's name comes and goes with each new one. */
  #told: Forecast | null = null;
  #onForecast: (forecast: Forecast) => void = () => {};
  #moves: MoveListener | null = null;
  /** The board of the last search, and when it began. */
  #searched: Board | null = null;
  #searchedAt = -Infinity;
  #timer: NodeJS.Timeout | null = null;
  #dueAt = Infinity;
  #endedAt = -Infinity;
  #restMs = SETTLE_MS;
  /** When the board changed last, and whether it had stood still before. */
  #changedAt = -Infinity;
  #wasStill = true;
  #busy = false;
  /** The board has changed since the forecast under way began. */
  #stale = false;

  constructor(parts: PacedParts) {
    this.#parts = parts;
  }

  start(board: Board, onForecast: (forecast: Forecast) => void, moves: MoveListener | null = null): void {
    this.#onForecast = onForecast;
    this.#moves = moves;
    this.changed(board);
  }

  changed(board: Board): void {
    const now = performance.now();
    if (board !== this.#board) {
      this.#wasStill = now - this.#changedAt >= STILL_MS;
      this.#changedAt = now;
    }
    this.#board = board;
    if (this.#busy) this.#stale = true;
    else this.#runBy(Math.max(now, this.#endedAt + this.#restMs));
  }

  consider(board: Board): Promise<Forecast> {
    return this.#parts.forecaster.forecast(board, this.#parts.barnNow());
  }

  async stop(): Promise<void> {
    this.#board = null;
    if (this.#timer) clearTimeout(this.#timer);
    this.#timer = null;
    await this.#parts.forecaster.stop();
  }

  #runBy(at: number): void {
    if (this.#timer && this.#dueAt <= at) return;
    if (this.#timer) clearTimeout(this.#timer);
    this.#dueAt = at;
    this.#timer = setTimeout(() => void this.#run(), Math.max(0, at - performance.now()));
  }

  async #run(): Promise<void> {
    this.#timer = null;
    if (!this.#board) return;
    const { forecaster, barnNow, failed } = this.#parts;
    this.#busy = true;
    this.#stale = false;
    try {
      const made = await forecaster.forecast(this.#board, barnNow(), this.#searchFor(this.#board));
      // Stopped meanwhile: there is nobody left to tell.
      if (this.#board) this.#onForecast((this.#told = withHysteresis(this.#told, made)));
    } catch (error) {
      if (this.#board) failed(error);
    }
    this.#busy = false;
    this.#endedAt = performance.now();
    this.#restMs = this.#wasStill ? SETTLE_MS : Math.min(LONGEST_REST_MS, 2 * this.#restMs);
    if (this.#board) this.#runBy(this.#endedAt + (this.#stale ? this.#restMs : this.#untilNext()));
  }

  /** Time itself asks for a forecast, or moves that waited for the board to stand still. */
  #untilNext(): number {
    const owesMoves = this.#moves?.isWatched() && this.#searched !== this.#board;
    return owesMoves ? Math.max(SETTLE_MS, this.#changedAt + STILL_MS - this.#endedAt) : AT_LEAST_EVERY_MS;
  }

  /** Who is to hear of moves on `board`; null: they are not worth a search now. */
  #searchFor(board: Board): SearchListener | null {
    const moves = this.#moves;
    const now = performance.now();
    const isDue = this.#searched !== board || now - this.#searchedAt >= SEARCH_AGAIN_MS;
    const isStill = this.#wasStill || now - this.#changedAt >= STILL_MS;
    if (!moves?.isWatched() || !isDue || !isStill) return null;
    this.#searched = board;
    this.#searchedAt = now;
    return {
      // Moves for a board that is no more would take work from people who have done it.
      found: ({ answer }) => {
        if (this.#board === board && moves.isWatched()) moves.found(answer, board);
      },
      failed: (error) => this.#parts.failed(error),
    };
  }
}
