/** The tablet's view of the hub's clock: arithmetic of RFC 5905 §8 (offset theta, round trip delta). */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { minutesUntil } from '#core/time/countdown.ts';
import { bestOffset, sampleOf, SAMPLE_WINDOW, withSample, type Sample } from '#core/time/offset.ts';
import { sourceOfAll } from './source.ts';

sourceOfAll('RFC 5905, section 8');

describe('one exchange', () => {
  test('theta and delta of worked figures', () => {
    // By RFC 5905 §8: theta = [(T2-T1) + (T3-T4)] / 2, delta = (T4-T1) - (T3-T2). Figures made up, worked by hand:
    // hub 5,000 ms ahead, 40 ms there, 2 ms in the hub, 60 ms back.
    const sample = sampleOf({ t1: 1000, t2: 6040, t3: 6042, t4: 1102 });
    expect(sample).toEqual({ offsetMs: 4990, roundTripMs: 100 });
  });

  test('the error is at most half the round trip', () => {
    const ms = fc.integer({ min: 0, max: 5000 });
    fc.assert(
      fc.property(
        fc.integer({ min: -43_200_000, max: 43_200_000 }),
        ms,
        ms,
        ms,
        (offset, out, inHub, back) => {
          const t1 = 10_000;
          const t2 = t1 + out + offset;
          const sample = sampleOf({ t1, t2, t3: t2 + inHub, t4: t1 + out + inHub + back });
          expect(sample.roundTripMs).toBe(out + back);
          expect(Math.abs(sample.offsetMs - offset)).toBeLessThanOrEqual(sample.roundTripMs / 2);
        },
      ),
    );
  });
});

describe('a window of exchanges', () => {
  const sample = (offsetMs: number, roundTripMs: number): Sample => ({ offsetMs, roundTripMs });

  test('the least round trip is believed', () => {
    const window = [sample(90, 200), sample(12, 8), sample(-40, 120)].reduce<readonly Sample[]>(
      withSample,
      [],
    );
    expect(bestOffset(window)).toBe(12);
  });

  test('is bounded, forgets the oldest, and takes no impossible exchange', () => {
    const many = Array.from({ length: 30 }, (_, i) => sample(i, 30 - i));
    const window = many.reduce<readonly Sample[]>(withSample, []);
    expect(window).toHaveLength(SAMPLE_WINDOW);
    expect(withSample(window, sample(5, -1))).toBe(window);
    expect(withSample(window, sample(NaN, 1))).toBe(window);
    expect(bestOffset([])).toBeNull();
  });
});

test('a countdown never promises more time than there is', () => {
  expect(minutesUntil(299_000, 0)).toBe(4);
  expect(minutesUntil(300_000, 0)).toBe(5);
  expect(minutesUntil(59_999, 0)).toBe(0);
  expect(minutesUntil(0, 1000)).toBe(-1);
});
