/** Group commit: what gathers while a write is under way, in which order it is told, and what a failure stops. */
import { expect, test } from 'vitest';
import { Commits } from '../../../hub/commits.ts';

/** A disk whose writes end when the test says so. */
function slowDisk(most = 100): {
  commits: Commits<number>;
  writes: number[][];
  told: number[];
  failures: unknown[];
  lost: number[];
  senses: string[];
  end: (error?: unknown) => Promise<void>;
} {
  const writes: number[][] = [];
  const told: number[] = [];
  const failures: unknown[] = [];
  const lost: number[] = [];
  const senses: string[] = [];
  let settle: PromiseWithResolvers<void> | null = null;
  const commits = new Commits<number>(
    {
      write: (items) => {
        writes.push([...items]);
        settle = Promise.withResolvers<void>();
        return settle.promise;
      },
      written: (items) => told.push(...items),
      failed: (error, items) => {
        failures.push(error);
        lost.push(...items);
      },
      hangs: () => senses.push('hangs'),
      goesOn: () => senses.push('goes on'),
      slowAfterMs: 50,
    },
    most,
  );
  const turn = (): Promise<void> => new Promise((done) => setImmediate(done));
  return {
    commits,
    writes,
    told,
    failures,
    lost,
    senses,
    end: async (error) => {
      await turn();
      if (error === undefined) settle?.resolve();
      else settle?.reject(error);
      await turn();
    },
  };
}

test('what comes in during a write goes together into the next one, and nothing is told before its write ends', async () => {
  const { commits, writes, told, end } = slowDisk();
  commits.add(1);
  await Promise.resolve();
  await Promise.resolve();
  [2, 3, 4].forEach((n) => commits.add(n));
  expect(writes).toEqual([[1]]);
  expect(told).toEqual([]);
  await end();
  expect(writes).toEqual([[1], [2, 3, 4]]);
  expect(told).toEqual([1]);
  await end();
  expect(told).toEqual([1, 2, 3, 4]);
});

test('what comes in during one turn shares one write', async () => {
  const { commits, writes, end } = slowDisk();
  [1, 2, 3].forEach((n) => commits.add(n));
  await end();
  expect(writes).toEqual([[1, 2, 3]]);
});

test('a burst is split', async () => {
  const { commits, writes, told, end } = slowDisk(2);
  [1, 2, 3].forEach((n) => commits.add(n));
  await end();
  await end();
  expect(writes).toEqual([[1, 2], [3]]);
  expect(told).toEqual([1, 2, 3]);
});

test('a failure loses its write and all that waits behind it, in order, and what comes later is written', async () => {
  const { commits, writes, told, failures, lost, end } = slowDisk();
  commits.add(1);
  await Promise.resolve();
  await Promise.resolve();
  commits.add(2);
  const full = new Error('no space left');
  await end(full);
  await commits.idle();
  expect(failures).toEqual([full]);
  expect(lost).toEqual([1, 2]);
  expect(told).toEqual([]);
  commits.add(3);
  await end();
  expect(writes).toEqual([[1], [3]]);
  expect(told).toEqual([3]);
});

test('idle waits for everything added so far', async () => {
  const { commits, told, end } = slowDisk();
  commits.add(1);
  const idle = commits.idle().then(() => told.length);
  await end();
  expect(await idle).toBe(1);
});

test('a write that does not end is noticed; what it wrote is told when it ends after all', async () => {
  const { commits, told, senses, end } = slowDisk();
  commits.add(1);
  await end();
  expect(senses).toEqual([]);
  commits.add(2);
  await expect.poll(() => senses).toEqual(['hangs']);
  expect(told).toEqual([1]);
  await end();
  expect(told).toEqual([1, 2]);
  expect(senses).toEqual(['hangs', 'goes on']);
});

test('a write that hung and then failed is a failure', async () => {
  const { commits, lost, senses, end } = slowDisk();
  commits.add(1);
  await expect.poll(() => senses).toEqual(['hangs']);
  commits.add(2);
  await end(new Error('EIO'));
  expect(lost).toEqual([1, 2]);
  expect(senses).toEqual(['hangs']);
});
