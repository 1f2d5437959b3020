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
        // What is still being worked in, at most 125 ms, is in after 12.5 s at 10 ms a second.
        now.mono += 12_500;
        expect(Math.abs(clock.hubNow() - (HUB + now.mono))).toBeLessThanOrEqual(best / 2);
      }),
    );
  });

  it('knows no time before the hub has answered, or an earlier visit had asked it', () => {
    const fresh = new HubClock({ mono: () => 0, wall: () => 5 });
    expect(fresh.isKnown).toBe(false);
    exchange(fresh, { mono: 0 }, 0, 0);
    expect(fresh.isKnown).toBe(true);
    const again = new HubClock({ mono: () => 0, wall: () => 5 });
    again.remember(0, null);
    expect(again.isKnown).toBe(true);
  });

  it('leaves out the answer to a ping from before a sleep in which the monotonic clock stood', () => {
    const now = { mono: 0 };
    const clock = new HubClock({ mono: () => now.mono, wall: () => 0 });
    for (let i = 0; i < 8; i += 1) exchange(clock, now, 5, 5);
    const t1 = now.mono;
    const t2 = HUB + t1;
    const slept = 3_600_000;
    now.mono += 10;
    clock.doubt('slept');
    clock.takePong({ t1, t2, t3: t2 });
    exchange(clock, now, 20, 20, slept);
    expect(clock.hubNow()).toBe(HUB + now.mono + slept);
    expect(clock.lastStep).toEqual({ byMs: slept, why: 'slept' });
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

  it('works a small correction in without ever running back, a large one at once and with its reason', () => {
    const now = { mono: 0 };
    const clock = new HubClock({ mono: () => now.mono, wall: () => 0 });
    for (let i = 0; i < 8; i += 1) exchange(clock, now, 40, 40);
    // Better exchanges, the hub 60 ms back: within what the first ones could tell (40 ms + 50 ms).
    exchange(clock, now, 10, 10, -60);
    let shown = clock.hubNow();
    expect(shown).toBe(HUB + now.mono);
    for (let i = 0; i < 600; i += 1) {
      now.mono += 10;
      expect(clock.hubNow()).toBeGreaterThan(shown);
      shown = clock.hubNow();
    }
    expect(shown).toBe(HUB + now.mono - 60);
    expect(clock.lastStep).toBeNull();

    exchange(clock, now, 10, 10, 3_600_000);
    expect(clock.hubNow()).toBe(HUB + now.mono + 3_600_000);
    expect(clock.lastStep).toEqual({ byMs: 3_600_060, why: 'hubSet' });
  });

  it('after sleep believes the first exchange alone', () => {
    const now = { mono: 0 };
    const clock = new HubClock({ mono: () => now.mono, wall: () => 0 });
    for (let i = 0; i < 8; i += 1) exchange(clock, now, 1, 1);
    clock.doubt('slept');
    exchange(clock, now, 30, 30, 40);
    expect(clock.hubNow()).toBe(HUB + now.mono + 40);
    expect(clock.lastStep).toEqual({ byMs: 40, why: 'slept' });
  });

  it('keeps the better of two exchanges that agree', () => {
    const good = { offsetMs: 1000, roundTripMs: 10 };
    const bad = { offsetMs: 1060, roundTripMs: 130 };
    expect(withSampleOrStep([good], bad)).toEqual([good, bad]);
    expect(withSampleOrStep([good], { offsetMs: 5000, roundTripMs: 10 })).toEqual([
      { offsetMs: 5000, roundTripMs: 10 },
    ]);
  });

  it('countdowns agree within 100 ms (our own demand), clocks off by up to 12 h, drifting 200 ppm, the network uneven', () => {
    const delay = fc.integer({ min: 1, max: 40 });
    const tablet = fc.record({
      off: fc.integer({ min: -43_200_000, max: 43_200_000 }),
      ppm: fc.integer({ min: -200, max: 200 }),
      delays: fc.array(fc.tuple(delay, delay), { minLength: 100, maxLength: 100 }),
    });
    fc.assert(
      fc.property(fc.array(tablet, { minLength: 2, maxLength: 4 }), (tablets) => {
        const time = { true: 0 };
        const clocks = tablets.map(({ off, ppm }) => {
          const mono = (): number => off + time.true * (1 + ppm / 1e6);
          return { mono, clock: new HubClock({ mono, wall: () => 0 }) };
        });
        for (let n = 0; n < 100; n += 1) {
          for (const [i, { mono, clock }] of clocks.entries()) {
            const [there, back] = tablets[i]!.delays[n]!;
            const t1 = mono();
            time.true += there;
            const t2 = HUB + time.true;
            time.true += back;
            clock.takePong({ t1, t2, t3: t2 });
          }
          for (const pause of [1, 500, 3500]) {
            time.true += pause;
            const shown = clocks.map(({ clock }) => clock.hubNow());
            expect(Math.max(...shown) - Math.min(...shown)).toBeLessThanOrEqual(100);
          }
        }
      }),
      { numRuns: 30 },
    );
  });

  it('before the hub has answered goes by what an earlier visit knew of the wall clock', () => {
    const clock = new HubClock({ mono: () => 0, wall: () => 5_000_000 });
    clock.remember(HUB, { hub: HUB + 5_000_000, barn: 1_000_000_000_000, rate: 6 });
    expect(clock.isSynced).toBe(false);
    expect(clock.hubNow()).toBe(HUB + 5_000_000);
    expect(clock.barnNow()).toBe(1_000_000_000_000);
  });
});
