/** Small parts of the hub: when a day opens, when a forecast is made, what the command line takes. */
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { Board } from '#core/day/board.ts';
import { emptyBoard } from '#core/day/emptyBoard.ts';
import { forecast } from '#core/plan/forecast.ts';
import { planInput } from '#core/plan/input.ts';
import type { Forecast } from '#core/plan/model.ts';
import { barnTimeAt } from '#core/time/barnClock.ts';
import { readArguments } from '../../../hub/arguments.ts';
import { greeting } from '../../../hub/greeting.ts';
import { ForecastThread } from '../../../hub/forecastThread.ts';
import { AT_LEAST_EVERY_MS, LONGEST_REST_MS, PacedPlanner, SETTLE_MS } from '../../../hub/planner.ts';
import type { Link } from '../../../hub/session.ts';
import { linkTo, UNREAD_BYTES } from '../../../hub/sockets.ts';
import { toLine } from '../../../hub/storage/line.ts';
import { appendBatch } from '../../../hub/storage/segment.ts';
import { dayToOpen, keepToday, STEADY_MS } from '../../../hub/today.ts';
import { NOON, smallBoard } from '../../properties/day-arbitraries.ts';

const open = (date: string | null, zone: string, day: Partial<Board['day']> = {}): Board => {
  const board = emptyBoard('Barn', zone);
  return { ...board, day: { ...board.day, ...day, date } };
};

/** The kind of thing that keeps a day: somebody came. */
const CAME = { hands: smallBoard().day.hands };

describe('the day that is opened', () => {
  // 2026-03-28T23:30Z is 2026-03-29 in Berlin (UTC+1, IANA tzdb) and still the 28th in Denver (UTC-6).
  const AT = Date.UTC(2026, 2, 28, 23, 30);
  test.each([
    ['the date in the barn’s zone', null, 'Europe/Berlin', { kind: 'dayOpened', date: '2026-03-29' }],
    ['the date in the barn’s zone', null, 'America/Denver', { kind: 'dayOpened', date: '2026-03-28' }],
    ['none when it is open', '2026-03-29', 'Europe/Berlin', null],
    ['none when the clock lies behind the open day', '2026-03-30', 'Europe/Berlin', null, CAME],
    [
      'today again when a clock that was ahead has opened a day that holds nothing',
      '2037-01-01',
      'Europe/Berlin',
      { kind: 'dayOpened', date: '2026-03-29' },
    ],
    ['the next one', '2026-03-28', 'Europe/Berlin', { kind: 'dayOpened', date: '2026-03-29' }, CAME],
  ])('is %s', (_what, date, zone, fact, day?: Partial<Board['day']>) => {
    expect(dayToOpen(open(date, zone, day), AT)).toEqual(fact);
  });

  test('waits, on a board that has one, until a clock that was just set has been steady for a while', async () => {
    const brought: unknown[] = [];
    const look = async (board: Board, steadyMs: number): Promise<void> => {
      const stop = await keepToday({
        board: () => board,
        barnNow: () => AT,
        steadyForMs: () => steadyMs,
        bring: async (fact) => void brought.push(fact),
      });
      stop();
    };
    await look(open('2026-03-28', 'UTC'), STEADY_MS - 1);
    expect(brought).toEqual([]);
    await look(open('2026-03-27', 'UTC'), STEADY_MS);
    await look(open(null, 'UTC'), 0);
    expect(brought).toEqual([
      { kind: 'dayOpened', date: '2026-03-28' },
      { kind: 'dayOpened', date: '2026-03-28' },
    ]);
  });
});

test('barn time runs at its own rate from its own zero', () => {
  expect(barnTimeAt({ hub: 1000, barn: 50_000, rate: 1 }, 1500)).toBe(50_500);
  expect(barnTimeAt({ hub: 1000, barn: 50_000, rate: 20 }, 1500)).toBe(60_000);
});

describe('the planner', () => {
  beforeEach(() => void vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] }));
  afterEach(() => void vi.useRealTimers());

  const FORECAST: Forecast = {
    asOf: 1_770_000_000_000,
    preps: {},
    after: {},
    lessons: {},
    hands: {},
    leftOut: [],
  };

  /** A planner whose forecasts take as long as is said; `asked` are the boards they were of. */
  const paced = (
    takesMs: number,
  ): { planner: PacedPlanner; asked: Board[]; failures: unknown[]; fail: () => void } => {
    const asked: Board[] = [];
    const failures: unknown[] = [];
    let failing = false;
    const planner = new PacedPlanner({
      barnNow: () => FORECAST.asOf,
      failed: (error) => failures.push(error),
      forecaster: {
        forecast: async (board) => {
          asked.push(board);
          if (failing) throw new Error('a bug');
          if (takesMs > 0) await new Promise((done) => setTimeout(done, takesMs));
          return FORECAST;
        },
        stop: async () => {},
      },
    });
    return { planner, asked, failures, fail: () => (failing = true) };
  };
  const [one, two] = [open('2026-03-29', 'UTC'), open('2026-03-30', 'UTC')];

  test('forecasts at once, then once for a burst, then every few seconds, and not after its stop', async () => {
    const { planner, asked } = paced(0);
    let made = 0;
    planner.start(one, () => (made += 1));
    await vi.advanceTimersByTimeAsync(0);
    expect(made).toBe(1);
    for (let i = 0; i < 50; i += 1) planner.changed(i < 49 ? one : two);
    await vi.advanceTimersByTimeAsync(SETTLE_MS - 1);
    expect(made).toBe(1);
    await vi.advanceTimersByTimeAsync(1);
    expect(made).toBe(2);
    expect(asked.at(-1)).toBe(two);
    await vi.advanceTimersByTimeAsync(3 * AT_LEAST_EVERY_MS);
    expect(made).toBe(5);
    await planner.stop();
    await vi.advanceTimersByTimeAsync(10 * AT_LEAST_EVERY_MS);
    expect(made).toBe(5);
    expect(vi.getTimerCount()).toBe(0);
  });

  test('makes one at a time, and another soon when the board changed meanwhile', async () => {
    const { planner, asked } = paced(1000);
    planner.start(one, () => {});
    await vi.advanceTimersByTimeAsync(500);
    planner.changed(two);
    await vi.advanceTimersByTimeAsync(499);
    expect(asked).toEqual([one]);
    await vi.advanceTimersByTimeAsync(1 + SETTLE_MS);
    expect(asked).toEqual([one, two]);
    await planner.stop();
  });

  test('taps without end make its rests longer, up to a limit, and a still board makes them short again', async () => {
    const { planner, asked } = paced(0);
    planner.start(one, () => {});
    await vi.advanceTimersByTimeAsync(0);
    const tapFor = async (ms: number): Promise<number> => {
      const before = asked.length;
      for (let t = 0; t < ms; t += 5) {
        planner.changed(open(null, 'UTC'));
        await vi.advanceTimersByTimeAsync(5);
      }
      return asked.length - before;
    };
    expect(await tapFor(10_000)).toBeLessThanOrEqual(10_000 / LONGEST_REST_MS + 4);
    await vi.advanceTimersByTimeAsync(2 * AT_LEAST_EVERY_MS);
    expect(await tapFor(2 * SETTLE_MS)).toBeGreaterThanOrEqual(1);
    await planner.stop();
  });

  test('looks for moves on a board that stands still, and at once after a tap by itself', async () => {
    const searched: Board[] = [];
    const planner = new PacedPlanner({
      barnNow: () => FORECAST.asOf,
      failed: () => {},
      forecaster: {
        forecast: async (board, _at, listener) => {
          if (listener) searched.push(board);
          return FORECAST;
        },
        stop: async () => {},
      },
    });
    planner.start(one, () => {}, { isWatched: () => true, found: () => {} });
    await vi.advanceTimersByTimeAsync(AT_LEAST_EVERY_MS / 2);
    expect(searched).toEqual([one]);
    let last = two;
    for (let t = 0; t < 3000; t += 50) {
      planner.changed((last = open(null, 'UTC')));
      await vi.advanceTimersByTimeAsync(50);
    }
    // The first of them came after a still time.
    expect(searched).toHaveLength(2);
    await vi.advanceTimersByTimeAsync(LONGEST_REST_MS + SETTLE_MS);
    expect(searched.at(-1)).toBe(last);
    await planner.stop();
  });

  test('a failure is told, and the next one is tried later', async () => {
    const { planner, asked, failures, fail } = paced(0);
    fail();
    planner.start(one, () => expect.fail('no forecast was made'));
    await vi.advanceTimersByTimeAsync(AT_LEAST_EVERY_MS);
    expect(asked).toHaveLength(2);
    expect(failures).toHaveLength(2);
    await planner.stop();
  });
});

test('the forecast thread makes the same forecast as this one, and starts again after its stop', async () => {
  const thread = new ForecastThread();
  const board = smallBoard();
  expect(await thread.forecast(board, NOON)).toEqual(forecast(planInput(board, NOON)));
  await thread.stop();
  expect((await thread.forecast(board, NOON)).asOf).toBe(NOON);
  const lost = thread.forecast(board, NOON);
  await Promise.all([thread.stop(), expect(lost).rejects.toThrow('ended')]);
});

describe('a link', () => {
  /** A socket that has sent nothing on: everything given to it waits. */
  const stuck = (): {
    link: Link;
    sent: string[];
    socket: { bufferedAmount: number; readyState: 0 | 1 | 2 | 3 };
    ended: () => boolean;
  } => {
    const sent: string[] = [];
    let ended = false;
    const socket = {
      OPEN: 1 as const,
      readyState: 1 as 0 | 1 | 2 | 3,
      bufferedAmount: 0,
      send: (text: unknown) => {
        sent.push(String(text));
        socket.bufferedAmount += String(text).length;
      },
      terminate: () => (ended = true),
      close: () => {},
    };
    return { link: linkTo(socket), sent, socket, ended: () => ended };
  };

  test('ends with more unread than one message and a megabyte', () => {
    const { link, sent, ended } = stuck();
    const chunk = 'x'.repeat(UNREAD_BYTES / 8);
    for (let i = 0; i < 10; i += 1) link.send(chunk);
    expect(ended()).toBe(false);
    link.send(chunk);
    expect(ended()).toBe(true);
    expect(sent).toHaveLength(10);
  });

  test('does not end over one message, however long', () => {
    const { link, sent, ended } = stuck();
    link.send('x'.repeat(8 * UNREAD_BYTES));
    link.send('x');
    link.send('x');
    expect(ended()).toBe(false);
    expect(sent).toHaveLength(3);
  });

  test('says nothing into a socket that is closing', () => {
    const { link, sent, socket } = stuck();
    socket.readyState = 2;
    link.send('x');
    expect(sent).toEqual([]);
  });
});

test('a batch is not written before the disk has it', async () => {
  const steps: string[] = [];
  const synced = Promise.withResolvers<void>();
  const file = {
    appendFile: async (bytes: unknown) => void steps.push(String(bytes)),
    datasync: () => {
      steps.push('datasync');
      return synced.promise;
    },
  };
  const written = appendBatch(file, []).then(() => steps.push('done'));
  await new Promise((turn) => setImmediate(turn));
  expect(steps).toEqual([toLine([]).toString(), 'datasync']);
  synced.resolve();
  await written;
  expect(steps.at(-1)).toBe('done');
});

describe('the command line', () => {
  test('has defaults', () => {
    const usual = { tls: null, metrics: false };
    expect(readArguments([])).toEqual({ port: 4610, data: 'data', host: '0.0.0.0', names: [], ...usual });
    const given = ['--port', '0', '--data', '/x', '--host', '::1', '--name', 'barn.example', '--name', 'b'];
    expect(readArguments(given)).toEqual({
      port: 0,
      data: '/x',
      host: '::1',
      names: ['barn.example', 'b'],
      ...usual,
    });
    expect(readArguments(['--tls', '--metrics'])).toMatchObject({ tls: 'own', metrics: true });
    const own = readArguments(['--tls-cert', 'c.pem', '--tls-key', 'k.pem']);
    expect(own.tls).toEqual({ cert: 'c.pem', key: 'k.pem' });
    expect(() => readArguments(['--tls-cert', 'c.pem'])).toThrow(/belong together/);
  });

  test.each([[['--prot', '1']], [['--port', 'x']], [['--port', '65536']], [['--port', '1.5']], [['extra']]])(
    'refuses %j in one sentence',
    (args) => {
      expect(() => readArguments(args)).toThrow(/^[^\n]+$/);
    },
  );
});

test('the greeting has every address, and a code only for a person at a terminal', () => {
  const lan = ['http://192.0.2.7:4610', 'http://hub.local:4610'];
  const plain = greeting('Our barn', 'http://localhost:4610', lan, false);
  for (const address of ['http://localhost:4610', ...lan]) expect(plain).toContain(address);
  expect(plain.split('\n')).toHaveLength(4);
  expect(greeting('Our barn', 'http://localhost:4610', lan, true)).toMatch(/[▀▄█]/);
});
