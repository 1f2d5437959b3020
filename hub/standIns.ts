/** Stand-ins looked for in a thread of their own: a search of some seconds, that neither a tap nor a forecast waits for. */
import { Worker } from 'node:worker_threads';
import { own } from '#core/barn/basics.ts';
import type { Board, PlaceRef } from '#core/day/board.ts';
import type { Reason } from '#core/day/ops.ts';
import type { Learned } from '#core/plan/learned.ts';
import { placesToCome } from '#core/plan/standIns/placesToCome.ts';
import type { SaidStandIns, StandInsFor } from '#core/wire/standIns.ts';

/** `at` is barn time in ms. */
export type Search = {
  readonly board: Board;
  readonly at: number;
  readonly places: readonly PlaceRef[];
  readonly learned: Learned | null;
  /** BCP 47; what the answer is worded in. */
  readonly language: string;
};
export type Found = { readonly found: SaidStandIns } | { readonly failure: string };

export type StandInsAnswered =
  { readonly why: Reason; readonly found: null } | { readonly why: null; readonly found: SaidStandIns };

export interface StandInFinder {
  /** Rejects when the search breaks down. */
  find(board: Board, at: number, about: StandInsFor, language: string): Promise<StandInsAnswered>;
  stop(): Promise<void>;
}

/** A search that would need more ends its thread, not the hub. */
const LIMITS = { maxOldGenerationSizeMb: 128, maxYoungGenerationSizeMb: 16 };

/** The next search is likely soon or not today; a thread that waits holds some 30 MB. */
const IDLE_MS = 60_000;

export class StandInThread implements StandInFinder {
  #worker: Worker | null = null;
  #idle: NodeJS.Timeout | null = null;
  #learned: Learned | null = null;
  /** One search at a time: a second coordinator waits for the first. */
  #last: Promise<unknown> = Promise.resolve();

  /** What past days have taught, for every search from now on. */
  learn(learned: Learned): void {
    this.#learned = learned;
  }

  async find(board: Board, at: number, about: StandInsFor, language: string): Promise<StandInsAnswered> {
    const places = placesAbout(board, at, about);
    if ('code' in places) return { why: places, found: null };
    const search = { board, at, places, learned: this.#learned, language };
    const found = this.#last.then(() => this.#search(search));
    this.#last = found.catch(() => {});
    return { why: null, found: await found };
  }

  async stop(): Promise<void> {
    if (this.#idle) clearTimeout(this.#idle);
    const worker = this.#worker;
    this.#worker = null;
    await worker?.terminate();
  }

  #search(search: Search): Promise<SaidStandIns> {
    if (this.#idle) clearTimeout(this.#idle);
    this.#worker ??= new Worker(new URL('./standInsWorker.ts', import.meta.url), { resourceLimits: LIMITS });
    const worker = this.#worker;
    return new Promise((done, fail) => {
      const lost = (why: unknown): void => {
        this.#worker = null;
        fail(why);
      };
      const ended = (): void => lost(new Error('the thread that looks for stand-ins has ended'));
      worker.once('error', lost).once('exit', ended);
      worker.once('message', (answer: Found) => {
        worker.off('error', lost).off('exit', ended);
        this.#idle = setTimeout(() => void this.stop(), IDLE_MS).unref();
        if ('found' in answer) done(answer.found);
        else fail(new Error(answer.failure));
      });
      worker.postMessage(search);
    });
  }
}

/** The places that ask for a stand-in; or why there is nothing to ask for. */
function placesAbout(board: Board, at: number, about: StandInsFor): readonly PlaceRef[] | Reason {
  if ('horse' in about) {
    return own(board.barn.horses, about.horse)
      ? placesToCome(board, about.horse, at)
      : { code: 'unknownHorse' };
  }
  const lesson = own(board.day.lessons, about.lesson);
  if (!lesson) return { code: 'unknownLesson' };
  return lesson.places.some(({ id }) => id === about.place) ? [about] : { code: 'unknownPlace' };
}
