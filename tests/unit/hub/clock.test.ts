/** The hub's time over a system clock that is set while it runs. Expected values worked out by hand from its constants. */
import { beforeEach, describe, expect, test } from 'vitest';
import fc from 'fast-check';
import { JUMP_MS, SAID_FOR_MS, SteadyClock } from '../../../hub/clock.ts';

const START = 1_778_500_000_000;

let wall: number;
let mono: number;
let changes: number;
let clock: SteadyClock;

beforeEach(() => {
  wall = START;
  mono = 5_000.25;
  changes = 0;
  clock = new SteadyClock({
    wall: () => wall,
    mono: () => mono,
    changed: () => (changes += 1),
    log: () => {},
  });
});

/** Both clocks run on; the hub looks at them every second. */
function run(seconds: number): void {
  for (let i = 0; i < seconds; i += 1) {
    wall += 1000;
    mono += 1000;
    clock.look();
  }
}

test('without a jump it is the system’s clock', () => {
  run(3600);
  expect(clock.now()).toBe(START + 3_600_000);
  mono += 400;
  expect(clock.now()).toBe(START + 3_600_400);
  expect(clock.jump).toBeNull();
  expect(clock.steadyForMs).toBe(Infinity);
  expect(changes).toBe(0);
});

describe('a clock that is set', () => {
  test.each([[3 * 3_600_000], [-3 * 3_600_000], [JUMP_MS + 1], [-JUMP_MS - 1]])(
    'by %d ms is taken over at the next look, not before, and said for a while',
    (byMs) => {
      run(10);
      wall += byMs;
      expect(clock.now()).toBe(START + 10_000);
      expect(clock.jump).toBeNull();
      clock.look();
      expect(clock.now()).toBe(wall);
      expect(clock.jump).toEqual({ at: wall, byMs });
      expect(clock.steadyForMs).toBe(0);
      expect(changes).toBe(1);
      run(SAID_FOR_MS / 1000);
      expect(clock.jump).not.toBeNull();
      expect(changes).toBe(1);
      run(1);
      expect(clock.jump).toBeNull();
      expect(changes).toBe(2);
      expect(clock.now()).toBe(wall);
    },
  );

  test('by little is made up slowly and without a word', () => {
    wall += 1500;
    clock.look();
    expect(clock.now()).toBe(START);
    run(10);
    // 20 ms a second.
    expect(clock.now()).toBe(START + 10_000 + 200);
    run(65);
    expect(clock.now()).toBe(wall);
    expect(clock.jump).toBeNull();
    expect(changes).toBe(0);
  });

  test('twice is said anew', () => {
    wall += 60_000;
    clock.look();
    run(300);
    wall -= 60_000;
    clock.look();
    expect(clock.jump).toEqual({ at: wall, byMs: -60_000 });
    run(SAID_FOR_MS / 1000);
    expect(clock.jump).not.toBeNull();
  });
});

test('between jumps it never goes back, and is never further from the system’s clock than a jump', () => {
  fc.assert(
    fc.property(
      fc.array(
        fc.record({ passed: fc.integer({ min: 0, max: 5000 }), drift: fc.integer({ min: -400, max: 400 }) }),
        {
          maxLength: 60,
        },
      ),
      (steps) => {
        let [w, m] = [START, 0];
        const steady = new SteadyClock({ wall: () => w, mono: () => m, changed: () => {}, log: () => {} });
        let before = steady.now();
        let jump = steady.jump;
        for (const { passed, drift } of steps) {
          m += passed;
          w += passed + drift;
          expect(steady.now()).toBeGreaterThanOrEqual(before);
          steady.look();
          if (steady.jump === jump) expect(steady.now()).toBeGreaterThanOrEqual(before);
          expect(Math.abs(steady.now() - w)).toBeLessThanOrEqual(JUMP_MS + 1);
          before = steady.now();
          jump = steady.jump;
        }
      },
    ),
  );
});
