/** Moves on their way to a coordinator: searched for only while one looks, for the latest board only, as data. */
import { describe, expect, it } from 'vitest';
import { evolve } from '#core/day/evolve.ts';
import type { Board } from '#core/day/board.ts';
import type { Fact } from '#core/day/ops.ts';
import { planInput } from '#core/plan/input.ts';
import { rebalance } from '#core/plan/rebalance/rebalance.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { wallTimeAt } from '#core/time/zone.ts';
import { FromHub } from '#core/wire/messages.ts';
import * as english from '#core/words/en/plan.ts';
import { namesOn } from '#core/words/namesOn.ts';
import { ForecastThread } from '../../../hub/forecastThread.ts';
import { MoveSearch, TOLD_EVERY_MS, type Found } from '../../../hub/moveSearch.ts';
import { PacedPlanner } from '../../../hub/planner.ts';
import { isNews, suggestionFrom } from '../../../hub/suggest.ts';
import { entry, NOON, smallBoard } from '../../properties/day-arbitraries.ts';

/** All of two horses is ada's, 36 min before the ramp; cho is here and idle. By hand: one of them to cho. */
const FACTS: Fact[] = [
  { kind: 'volunteerArrived', volunteer: 'cho' },
  { kind: 'volunteerLeft', volunteer: 'ben' },
  { kind: 'workMoved', pieces: ['moss.1:feet', 'moss.1:coat', 'moss.1:tack'], to: 'ada', before: null },
];
const BOARD = FACTS.reduce<Board>((b, fact, i) => evolve(b, entry(50 + i, fact)), smallBoard());
const AT = NOON + 9 * MINUTE_MS;
const INPUT = planInput(BOARD, AT);
const ANSWER = rebalance(INPUT, { budget: { steps: 5000 } });

describe('what a tablet is told', () => {
  const suggestion = suggestionFrom(ANSWER);
  const names = namesOn(BOARD, (instant) => wallTimeAt(instant, BOARD.barn.zone).time, english);

  it('is moves with their gain, before and after, that pass the wire and make a sentence', () => {
    const [first] = suggestion.alternatives;
    expect(suggestion.verdict).toBe('better');
    expect(first && english.sayAlternative(first, names)).toMatch(
      /to cho: the 14:00 lesson is ready \d+ minutes earlier, nobody gets late\.$/,
    );
    expect(first?.moves.map(({ to }) => to)).toEqual(['cho']);
    expect(first?.lessons.map(({ lesson }) => lesson)).toContain('L1');
    expect(FromHub.parse(JSON.parse(JSON.stringify({ say: 'suggested', suggestion })))).toEqual({
      say: 'suggested',
      suggestion,
    });
  });

  it('puts what only gives out last', () => {
    expect(suggestion.alternatives.map(({ onlyGivesOut }) => onlyGivesOut)).toEqual([false, true]);
  });

  it('is no news again because time has passed', () => {
    expect(isNews(suggestion, { ...suggestion, asOf: suggestion.asOf + 1 })).toBe(false);
    expect(isNews(suggestion, { ...suggestion, undone: 1 })).toBe(true);
    expect(isNews(null, suggestion)).toBe(true);
  });
});

describe('a search in slices', () => {
  const run = (): {
    found: Found[];
    slice: () => boolean;
    search: MoveSearch;
    pass: (ms: number) => void;
  } => {
    const waiting: (() => void)[] = [];
    let now = 0;
    const search = new MoveSearch({ now: () => (now += 1), later: (one) => void waiting.push(one) });
    const slice = (): boolean => {
      const next = waiting.shift();
      next?.();
      return next !== undefined;
    };
    return { found: [], slice, search, pass: (ms) => void (now += ms) };
  };

  it('tells at most one answer a while, and the last one when it is done', () => {
    const { found, slice, search, pass } = run();
    const at: number[] = [];
    let slices = 0;
    search.begin(
      INPUT,
      (one) => void (found.push(one), at.push(slices)),
      (error) => expect.fail(String(error)),
    );
    while (slice()) {
      slices += 1;
      pass(TOLD_EVERY_MS / 4);
    }
    expect(found.at(-1)?.isDone).toBe(true);
    expect(found.filter(({ isDone }) => isDone)).toHaveLength(1);
    for (const [i, told] of at.entries())
      if (i > 0 && i < at.length - 1) expect(told - (at[i - 1] ?? 0)).toBeGreaterThanOrEqual(3);
  });

  it('ends when another begins', () => {
    const { slice, search } = run();
    search.begin(
      INPUT,
      () => expect.fail('told after its end'),
      (error) => expect.fail(String(error)),
    );
    slice();
    const second: Found[] = [];
    search.begin(
      INPUT,
      (one) => void second.push(one),
      (error) => expect.fail(String(error)),
    );
    while (slice());
    expect(second.at(-1)?.isDone).toBe(true);
  });
});

describe('the planner', () => {
  const UNASKED_MS = 1500;
  const planned = async (isWatched: boolean, change: boolean): Promise<Board[]> => {
    const thread = new ForecastThread();
    const planner = new PacedPlanner({
      forecaster: thread,
      barnNow: () => AT,
      failed: (error) => expect.fail(String(error)),
    });
    const heard: Board[] = [];
    const other = { ...BOARD };
    await new Promise<void>((done) => {
      planner.start(
        BOARD,
        () => {
          if (change) planner.changed(other);
          // What must not come is given some time; what must come is waited for.
          if (!isWatched) setTimeout(done, UNASKED_MS);
        },
        {
          isWatched: () => isWatched,
          found: (_, board) => {
            heard.push(board);
            if (board === (change ? other : BOARD)) done();
          },
        },
      );
    });
    await planner.stop();
    return heard.map((board) => (board === BOARD ? BOARD : other));
  };

  it('searches while somebody looks', async () => expect(await planned(true, false)).toContain(BOARD));
  it('does not while nobody does', async () => expect(await planned(false, false)).toEqual([]));
  it('tells nothing of a board that is no more', async () => {
    const heard = await planned(true, true);
    expect(heard.every((board) => board !== BOARD)).toBe(true);
  });
});
