/** Small parts of the hub: when a day opens, when a forecast is made, what the command line takes. */
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { emptyBoard, type Board } from '#core/day/board.ts';
import { barnTimeAt } from '#core/time/barnClock.ts';
import { readArguments } from '../../../hub/arguments.ts';
import { greeting } from '../../../hub/greeting.ts';
import { AT_LEAST_EVERY_MS, InThreadPlanner, SETTLE_MS } from '../../../hub/planner.ts';
import { dayToOpen } from '../../../hub/today.ts';

const open = (date: string | null, zone: string): Board => {
  const board = emptyBoard('Barn', zone);
  return { ...board, day: { ...board.day, date } };
};

describe('the day that is opened', () => {
  // 2026-03-28T23:30Z is 2026-03-29 in Berlin (UTC+1, IANA tzdb) and still the 28th in Denver (UTC-6).
  const AT = Date.UTC(2026, 2, 28, 23, 30);
  test.each([
    ['the date in the barn’s zone', null, 'Europe/Berlin', { kind: 'dayOpened', date: '2026-03-29' }],
    ['the date in the barn’s zone', null, 'America/Denver', { kind: 'dayOpened', date: '2026-03-28' }],
    ['none when it is open', '2026-03-29', 'Europe/Berlin', null],
    ['none when the clock lies behind the open day', '2026-03-30', 'Europe/Berlin', null],
    ['the next one', '2026-03-28', 'Europe/Berlin', { kind: 'dayOpened', date: '2026-03-29' }],
  ])('is %s', (_what, date, zone, fact) => {
    expect(dayToOpen(open(date, zone), AT)).toEqual(fact);
  });
});

test('barn time runs at its own rate from its own zero', () => {
  expect(barnTimeAt({ hub: 1000, barn: 50_000, rate: 1 }, 1500)).toBe(50_500);
  expect(barnTimeAt({ hub: 1000, barn: 50_000, rate: 20 }, 1500)).toBe(60_000);
});

describe('the planner', () => {
  beforeEach(() => void vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] }));
  afterEach(() => void vi.useRealTimers());

  test('forecasts at once, then once for a burst, then at least every few seconds, and not after its stop', async () => {
    const planner = new InThreadPlanner(
      () => 1_770_000_000_000,
      (error) => expect.fail(String(error)),
    );
    const board = open('2026-03-29', 'UTC');
    let made = 0;
    planner.start(board, () => (made += 1));
    vi.advanceTimersByTime(0);
    expect(made).toBe(1);
    for (let i = 0; i < 50; i += 1) planner.changed(board);
    vi.advanceTimersByTime(SETTLE_MS - 1);
    expect(made).toBe(1);
    vi.advanceTimersByTime(1);
    expect(made).toBe(2);
    vi.advanceTimersByTime(3 * AT_LEAST_EVERY_MS);
    expect(made).toBe(5);
    await planner.stop();
    vi.advanceTimersByTime(10 * AT_LEAST_EVERY_MS);
    expect(made).toBe(5);
    expect(vi.getTimerCount()).toBe(0);
  });
});

describe('the command line', () => {
  test('has defaults', () => {
    expect(readArguments([])).toEqual({ port: 4610, data: 'data', host: '0.0.0.0' });
    expect(readArguments(['--port', '0', '--data', '/x', '--host', '::1'])).toEqual({
      port: 0,
      data: '/x',
      host: '::1',
    });
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
