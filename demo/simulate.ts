/** A whole afternoon in a moment: the same people and script as in the demo, without sockets and in virtual time. */
import type { Board } from '#core/day/board.ts';
import type { Entry } from '#core/day/ops.ts';
import { Sequence } from '#core/day/sequence.ts';
import { instantAt } from '#core/time/zone.ts';
import { Afternoon, AFTER_MS, lastLessonEnd, ROLE_OF, type AfternoonOptions } from './afternoon.ts';
import { DEMO_ZONE } from './barn.ts';
import { DEMO_START, demoBoard } from './day.ts';
import { demoArrivals, demoScript } from './script.ts';
import type { Worked } from './volunteers.ts';

export type SimulatedDay = {
  /** As it stood when the day began. */
  readonly start: Board;
  readonly startAt: number;
  /** As it stands at the end: `start` with all entries. */
  readonly board: Board;
  readonly endAt: number;
  readonly entries: readonly Entry[];
  /** Every stage as it was really worked on, tapped or not. */
  readonly worked: readonly Worked[];
};

/** One day of any board, from `options.from` on. The same options give the same entries. */
export function simulate(options: AfternoonOptions): SimulatedDay {
  const afternoon = new Afternoon(options);
  const sequence = new Sequence({ board: options.board, seq: 0, at: options.from, seen: [] });
  const entries: Entry[] = [];
  const boardOf = (): Board => sequence.board;
  let now = options.from;
  for (;;) {
    const due = afternoon.dueAt;
    const end = (lastLessonEnd(sequence.board) ?? options.from) + AFTER_MS;
    if (due > end) {
      const { board, from: startAt } = options;
      return { start: board, startAt, board: sequence.board, endAt: end, entries, worked: afternoon.worked };
    }
    now = Math.max(now, Math.round(due));
    for (const { tablet, op } of afternoon.act(now, boardOf)) {
      const { entry } = sequence.accept(op, ROLE_OF[tablet], now);
      if (entry) entries.push(entry);
    }
  }
}

export type DayOptions = { readonly seed: number; readonly date?: string } & Partial<AfternoonOptions>;

const USUAL_DATE = '2026-05-12';

/** The demo's afternoon with this seed; anything of it can be put otherwise. */
export function simulateDay({ date = USUAL_DATE, ...options }: DayOptions): SimulatedDay {
  return simulate({ ...demoDay(date), ...options });
}

const days = new Map<string, Omit<AfternoonOptions, 'seed'>>();

/** The demo's board, script and arrivals of one date. Kept, since setting up the board takes longer than the day. */
export function demoDay(date: string): Omit<AfternoonOptions, 'seed'> {
  let day = days.get(date);
  if (!day) {
    day = {
      board: demoBoard(date),
      from: instantAt({ date, time: DEMO_START }, DEMO_ZONE),
      script: demoScript(date),
      arrivals: demoArrivals(date),
    };
    days.clear();
    days.set(date, day);
  }
  return day;
}
