/** The barn's time on a tablet. Oracle: the time a simulated hub really has, and RFC 5905 §8's bound on the error. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HubClock, withSampleOrStep } from '../../../kiosk/src/lib/link/clock.ts';

const HUB = 1_790_000_000_000;

/** One exchange with a hub whose clock stands at `HUB + mono + drift`; delays in ms. */
function exchange(clock: HubClock, now: { mono: number }, there: number, back: number, drift = 0): void {
  const t1 = now.mono;
  now.mono += there;
  const t2 = HUB + now.mono + drift;
  now.mono += back;
  clock.takePong({ t1, t2, t3: t2 });
}

describe('HubClock', () => {
  it('is off by half the best round trip at most (RFC 5905 §8)', () => {
    const delay = fc.nat({ max: 400 });
    fc.assert(
      fc.property(fc.array(fc.tuple(delay, delay), { minLength: 1, maxLength: 8 }), (delays) => {
        const now = { mono: 1000 };
        const clock = new HubClock({ mono: () => now.mono, wall: () => 0 });
        for (const [there, back] of delays) exchange(clock, now, there, back);
        const best = Math.min(...delays.map(([there, back]) => there + back));
        expect(Math.abs(clock.hubNow() - (HUB + now.mono))).toBeLessThanOrEqual(best / 2);
      }),
    );
  });

  it('takes the symmetric exchange exactly', () => {
    const now = { mono: 0 };
    const clock = new HubClock({ mono: () => now.mono, wall: () => 0 });
    exchange(clock, now, 30, 30);
    expect(clock.hubNow()).toBe(HUB + 60);
    expect(clock.isSynced).toBe(true);
  });

  it('follows at once when the tablet slept while its monotonic clock stood', () => {
    const now = { mono: 0 };
    const clock = new HubClock({ mono: () => now.mono, wall: () => 0 });
    exchange(clock, now, 5, 5);
    const slept = 600_000;
    exchange(clock, now, 20, 20, slept);
    expect(clock.hubNow()).toBe(HUB + now.mono + slept);
  });

  it('keeps the better of two exchanges that agree', () => {
    const good = { offsetMs: 1000, roundTripMs: 10 };
    const bad = { offsetMs: 1060, roundTripMs: 130 };
    expect(withSampleOrStep([good], bad)).toEqual([good, bad]);
    expect(withSampleOrStep([good], { offsetMs: 5000, roundTripMs: 10 })).toEqual([
      { offsetMs: 5000, roundTripMs: 10 },
    ]);
  });

  it('before the hub has answered goes by what an earlier visit knew of the wall clock', () => {
    const clock = new HubClock({ mono: () => 0, wall: () => 5_000_000 });
    clock.remember(HUB, { hub: HUB + 5_000_000, barn: 1_000_000_000_000, rate: 6 });
    expect(clock.isSynced).toBe(false);
    expect(clock.hubNow()).toBe(HUB + 5_000_000);
    expect(clock.barnNow()).toBe(1_000_000_000_000);
  });
});
