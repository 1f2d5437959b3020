/**
 * The steady clock against its promise: bounded speed (own choice, 10 ms a second), a step above RFC 5905 §11.3's 0.125 s,
 * and the project's own demand that boards agree within 100 ms whatever their clocks do.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { aimedAt, SLEW_RATE, STEP_MS, steadyOffset, type SteadyClock } from '#core/time/steadyClock.ts';

describe('the steady clock', () => {
  it('steps by what RFC 5905 says', () => {
    expect(STEP_MS).toBe(125);
    const clock: SteadyClock = { mono: 0, offset: 0, target: 0 };
    expect(aimedAt(clock, 0, 125, false).steppedMs).toBeNull();
    expect(aimedAt(clock, 0, 126, false).steppedMs).toBe(126);
    expect(aimedAt(clock, 0, -3, true)).toEqual({
      clock: { mono: 0, offset: -3, target: -3 },
      steppedMs: -3,
    });
    expect(aimedAt(null, 7, 40, false)).toEqual({
      clock: { mono: 7, offset: 40, target: 40 },
      steppedMs: null,
    });
  });

  it('is 50 ms nearer after five seconds, worked by hand', () => {
    const { clock } = aimedAt({ mono: 0, offset: 0, target: 0 }, 1000, 80, false);
    expect(steadyOffset(clock, 1000)).toBe(0);
    expect(steadyOffset(clock, 6000)).toBeCloseTo(50, 9);
    expect(steadyOffset(clock, 9000)).toBe(80);
    expect(steadyOffset(clock, 90_000)).toBe(80);
  });

  it('never overshoots, never runs back and never faster than its rate, however it is aimed', () => {
    const aims = fc.array(
      fc.tuple(fc.integer({ min: 0, max: 30_000 }), fc.integer({ min: -125, max: 125 })),
      {
        maxLength: 30,
      },
    );
    fc.assert(
      fc.property(aims, (list) => {
        let clock: SteadyClock = { mono: 0, offset: 0, target: 0 };
        let mono = 0;
        for (const [pause, change] of list) {
          const before = mono + steadyOffset(clock, mono);
          const offsetBefore = steadyOffset(clock, mono);
          mono += pause;
          const after = mono + steadyOffset(clock, mono);
          expect(after).toBeGreaterThanOrEqual(before);
          expect(Math.abs(steadyOffset(clock, mono) - offsetBefore)).toBeLessThanOrEqual(
            pause * SLEW_RATE + 1e-9,
          );
          expect(Math.abs(clock.target - steadyOffset(clock, mono))).toBeLessThanOrEqual(
            Math.abs(clock.target - offsetBefore),
          );
          clock = aimedAt(clock, mono, steadyOffset(clock, mono) + change, false).clock;
        }
      }),
    );
  });
});
