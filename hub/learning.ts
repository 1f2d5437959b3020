/** What the barn's last days and the day under way teach, worked out in a thread of its own and handed to the planner. */
import { Worker } from 'node:worker_threads';
import type { Board } from '#core/day/board.ts';
import type { Entry } from '#core/day/ops.ts';
import type { History, Learned } from '#core/plan/learned.ts';
import type { KeptDay } from './storage/keptDay.ts';
import type { Storage } from './storage/storage.ts';

/** `past`: what earlier days were found to teach; null: `days` are to be looked at. `today`: entries of the open day. */
export type Lesson = {
  readonly board: Board;
  readonly past: History | null;
  readonly days: readonly KeptDay[];
  readonly today: readonly Entry[];
};

export type Taught = { readonly past: History; readonly learned: Learned };

/** The day under way is looked at again this often, and only when so many more entries have come. Own choice, no source. */
export const TODAY_EVERY_MS = 5 * 60_000;
export const TODAY_LEAST_ENTRIES = 15;

/** How far back is looked: a season's habits, without those of the last one. Own choice, no source. */
const DAYS = 30;

/** Thirty busy days are some 20 MB. */
const LIMITS = { maxOldGenerationSizeMb: 192, maxYoungGenerationSizeMb: 16 };

type LearningParts = {
  readonly storage: Pick<Storage, 'days'>;
  readonly board: () => Board;
  /** Entries of today, oldest first; older ones before them do no harm. */
  readonly today: () => readonly Entry[];
  readonly learned: (learned: Learned) => void;
  readonly log: (line: string) => void;
};

export class Learning {
  readonly #parts: LearningParts;
  #worker: Worker | null = null;
  #working: Promise<void> = Promise.resolve();
  #stopped = false;
  #past: History | null = null;
  /** Number of the last entry that was learned from. */
  #seq = 0;
  #timer: NodeJS.Timeout | null = null;

  constructor(parts: LearningParts) {
    this.#parts = parts;
  }

  /** Learns now, and from today as it goes on. */
  start(): void {
    void this.learn();
    this.#timer ??= setInterval(() => void this.learnToday(), TODAY_EVERY_MS);
  }

  /** At the start, and whenever a day was put by. Resolves when the planner has it; never rejects. */
  learn(): Promise<void> {
    return this.#next(() => this.#learn());
  }

  /** From today's entries too, when there are enough that were not looked at. Never rejects. */
  learnToday(): Promise<void> {
    return this.#next(async () => {
      const fresh = this.#parts.today().filter(({ seq }) => seq > this.#seq).length;
      if (fresh >= TODAY_LEAST_ENTRIES) await this.#teach([], this.#past);
    });
  }

  #next(work: () => Promise<void>): Promise<void> {
    this.#working = this.#working.then(() =>
      work().catch((error: unknown) => {
        if (!this.#stopped) this.#parts.log(`Could not learn from past days: ${String(error)}`);
      }),
    );
    return this.#working;
  }

  async stop(): Promise<void> {
    this.#stopped = true;
    if (this.#timer) clearInterval(this.#timer);
    await this.#worker?.terminate();
    await this.#working;
  }

  async #learn(): Promise<void> {
    const { storage, today, log } = this.#parts;
    const { days, damaged } = await storage.days(DAYS);
    for (const name of damaged) log(`${name} among the past days is damaged, so nothing is learned from it.`);
    if (days.length > 0 || today().length >= TODAY_LEAST_ENTRIES) await this.#teach(days, null);
  }

  async #teach(days: readonly KeptDay[], past: History | null): Promise<void> {
    const { board, today, learned } = this.#parts;
    if (this.#stopped) return;
    const entries = today();
    const taught = await this.#workOut({ board: board(), past, days, today: entries });
    this.#past = taught.past;
    this.#seq = entries.at(-1)?.seq ?? this.#seq;
    learned(taught.learned);
  }

  #workOut(lesson: Lesson): Promise<Taught> {
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
