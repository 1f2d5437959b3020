/** `GET /account?from=2026-05-11&until=2026-05-17`: what these days came to, worked out in a thread of its own. */
import { Worker } from 'node:worker_threads';
import type { ServerResponse } from 'node:http';
import type { Board } from '#core/day/board.ts';
import type { Entry } from '#core/day/ops.ts';
import { MOST_DATES, rangeFrom, type DateRange } from '#core/ledger/range.ts';
import type { Endpoint } from './endpoints.ts';
import type { DaysAt } from './pastDays.ts';
import type { Storage } from './storage/storage.ts';

/** `now` is barn time in ms; `today`: the open day's entries. */
export type AccountAsk = {
  readonly range: DateRange;
  readonly board: Board;
  readonly today: readonly Entry[];
  readonly now: number;
  readonly at: DaysAt;
};
export type AccountAnswer = { readonly text: string } | { readonly failure: string };

type AccountsParts = {
  readonly storage: Pick<Storage, 'days' | 'daysFolder'>;
  /** As it is on disk. */
  readonly board: () => Board;
  readonly dayEntries: () => Promise<readonly Entry[]>;
  readonly barnNow: () => number;
  readonly log: (line: string) => void;
};

/** 400 days put by, as the ledger sees them, are some 40 MB; one that would need more ends its thread, not the hub. */
const LIMITS = { maxOldGenerationSizeMb: 256, maxYoungGenerationSizeMb: 16 };

export class Accounts {
  readonly #parts: AccountsParts;
  #worker: Worker | null = null;
  /** One at a time: a second coordinator waits for the first. */
  #last: Promise<unknown> = Promise.resolve();

  constructor(parts: AccountsParts) {
    this.#parts = parts;
  }

  get endpoint(): Endpoint {
    return {
      method: 'GET',
      path: '/account',
      may: 'coordinator',
      answer: (request, response) => this.#answer(new URLSearchParams(request.url?.split('?')[1]), response),
    };
  }

  async stop(): Promise<void> {
    await this.#worker?.terminate();
  }

  async #answer(query: URLSearchParams, response: ServerResponse): Promise<void> {
    const range = rangeFrom(query.get('from') ?? '', query.get('until') ?? '');
    response.setHeader('Cache-Control', 'no-store');
    if (!range) return void response.writeHead(400).end();
    try {
      const text = await this.text(range);
      response.writeHead(200, { 'Content-Type': 'application/json' }).end(text);
    } catch (error) {
      this.#parts.log(`Could not work out the days' account: ${String(error)}`);
      response.writeHead(503).end();
    }
  }

  /** The answer's JSON. Rejects when it cannot be worked out. */
  text(range: DateRange): Promise<string> {
    const text = this.#last.then(() => this.#workOut(range));
    this.#last = text.catch(() => {});
    return text;
  }

  async #workOut(range: DateRange): Promise<string> {
    const { storage, board, dayEntries, barnNow } = this.#parts;
    const { daysFolder } = storage;
    const at = daysFolder === null ? { days: (await storage.days(MOST_DATES)).days } : { folder: daysFolder };
    const today = await dayEntries();
    return this.#ask({ range, board: board(), today, now: barnNow(), at });
  }

  #ask(ask: AccountAsk): Promise<string> {
    this.#worker ??= new Worker(new URL('./accountsWorker.ts', import.meta.url), { resourceLimits: LIMITS });
    const worker = this.#worker;
    return new Promise((done, fail) => {
      const lost = (why: unknown): void => {
        this.#worker = null;
        fail(why);
      };
      const ended = (): void => lost(new Error('the thread has ended'));
      worker.once('error', lost).once('exit', ended);
      worker.once('message', (answer: AccountAnswer) => {
        worker.off('error', lost).off('exit', ended);
        if ('text' in answer) done(answer.text);
        else fail(new Error(answer.failure));
      });
      worker.postMessage(ask);
    });
  }
}
