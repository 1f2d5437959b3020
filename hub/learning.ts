/** What the barn's last days teach, worked out in a thread of its own and handed to the planner. */
import { Worker } from 'node:worker_threads';
import type { Board } from '#core/day/board.ts';
import type { Learned } from '#core/plan/learned.ts';
import type { KeptDay } from './storage/keptDay.ts';
import type { Storage } from './storage/storage.ts';

export type Lesson = { readonly board: Board; readonly days: readonly KeptDay[] };

/** How far back is looked: a season's habits, without those of the last one. Own choice, no source. */
const DAYS = 30;

/** Thirty busy days are some 20 MB. */
const LIMITS = { maxOldGenerationSizeMb: 192, maxYoungGenerationSizeMb: 16 };

type LearningParts = {
  readonly storage: Pick<Storage, 'days'>;
  readonly board: () => Board;
  readonly learned: (learned: Learned) => void;
  readonly log: (line: string) => void;
};

export class Learning {
  readonly #parts: LearningParts;
  #worker: Worker | null = null;
  #working: Promise<void> = Promise.resolve();
  #stopped = false;

  constructor(parts: LearningParts) {
    this.#parts = parts;
  }

  /** At the start, and whenever a day was put by. Resolves when the planner has it; never rejects. */
  learn(): Promise<void> {
    this.#working = this.#working.then(() =>
      this.#learn().catch((error: unknown) => {
        if (!this.#stopped) this.#parts.log(`Could not learn from past days: ${String(error)}`);
      }),
    );
    return this.#working;
  }

  async stop(): Promise<void> {
    this.#stopped = true;
    await this.#worker?.terminate();
    await this.#working;
  }

  async #learn(): Promise<void> {
    const { storage, board, learned, log } = this.#parts;
    const { days, damaged } = await storage.days(DAYS);
    for (const name of damaged) log(`${name} among the past days is damaged, so nothing is learned from it.`);
    if (days.length > 0 && !this.#stopped) learned(await this.#workOut({ board: board(), days }));
  }

  #workOut(lesson: Lesson): Promise<Learned> {
    return new Promise((done, fail) => {
      const worker = new Worker(new URL('./learningWorker.ts', import.meta.url), {
        workerData: lesson,
        resourceLimits: LIMITS,
      });
      this.#worker = worker;
      worker.once('message', done);
      worker.once('error', fail);
      worker.once('exit', () => fail(new Error('the thread has ended')));
    });
  }
}
