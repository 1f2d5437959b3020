/** When a page that has broken starts again; the figures are the project's own. */
import { beforeEach, expect, test } from 'vitest';
import { Mender } from '../../../kiosk/src/lib/state/mender.ts';

const kept = new Map<string, string>();
let now = 1_000_000_000;
let waits: number[] = [];
let next: (() => void) | null = null;
let reloads = 0;
let isSafe = true;
let isThere = true;

const open = (): Mender =>
  new Mender({
    isSafe: () => isSafe,
    reload: async () => {
      if (isThere) reloads += 1;
      return isThere;
    },
    shelf: { getItem: (key) => kept.get(key) ?? null, setItem: (key, value) => void kept.set(key, value) },
    wall: () => now,
    after: (ms, run) => {
      waits.push(ms);
      next = run;
    },
  });

const settle = () => new Promise((done) => setImmediate(done));
const pass = async (): Promise<void> => {
  now += waits.at(-1) ?? 0;
  next?.();
  await settle();
};

beforeEach(() => {
  kept.clear();
  [now, waits, next, reloads, isSafe, isThere] = [1_000_000_000, [], null, 0, true, true];
});

test('each start in a row waits longer, and after half an hour without a fault it is as at first', async () => {
  for (let i = 0; i < 5; i += 1) {
    expect(open().broke()).toBe(true);
    await pass();
  }
  expect(waits).toEqual([2000, 30_000, 120_000, 600_000, 600_000]);
  expect(reloads).toBe(5);
  now += 31 * 60_000;
  open().broke();
  expect(waits.at(-1)).toBe(2000);
});

test('many faults are one', () => {
  const mender = open();
  expect([mender.broke(), mender.broke(), mender.broke()]).toEqual([true, false, false]);
  expect(waits).toHaveLength(1);
});

test('it waits for a tap that would be lost, and for a hub to load from', async () => {
  [isSafe, isThere] = [false, false];
  open().broke();
  await pass();
  isSafe = true;
  await pass();
  expect([reloads, kept.size]).toEqual([0, 1]);
  isThere = true;
  await pass();
  expect(reloads).toBe(1);
  expect(waits).toEqual([2000, 10_000, 10_000]);
});

test('the start after a fault tells of it, once', async () => {
  expect(open().mendedAt()).toBeNull();
  open().broke();
  await pass();
  expect(open().mendedAt()).toBe(now);
  expect(open().mendedAt()).toBeNull();
});

test('a picture that stands for half a minute is a fault; one drawn again or not seen is none', () => {
  const mender = open();
  for (let second = 0; second < 300; second += 1) {
    expect(mender.isFrozen()).toBe(false);
    if (second % 20 === 0) mender.drawn();
  }
  mender.drawn();
  const frozen = Array.from({ length: 32 }, () => mender.isFrozen());
  expect(frozen.indexOf(true)).toBe(30);
});

test('where nothing can be remembered it does not go round for ever', async () => {
  const mender = new Mender({
    isSafe: () => true,
    reload: async () => {
      reloads += 1;
      return true;
    },
    shelf: {
      getItem: () => {
        throw new Error('denied');
      },
      setItem: () => {
        throw new Error('denied');
      },
    },
    wall: () => now,
    after: (_ms, run) => (next = run),
  });
  mender.broke();
  next?.();
  await settle();
  expect(reloads).toBe(0);
});
