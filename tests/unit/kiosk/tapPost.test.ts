/** Taps made before the program that keeps them has come. What must hold is the project's own demand: none lost, none twice, in order. */
import { expect, test } from 'vitest';
import type { Op } from '#core/day/ops.ts';
import type { FromTablet } from '#core/wire/messages.ts';
import { memoryStore, type OutboxStore } from '../../../kiosk/src/lib/link/outbox.ts';
import { TapPost, type Keeping } from '../../../kiosk/src/lib/link/tapPost.ts';

const tap = (id: string): Op => ({
  id,
  device: 'tablet1',
  by: 'ada',
  tappedAt: 1000,
  fact: { kind: 'stagesFinished', prep: 'gus.1', stages: ['feet'] },
});

function post(keeping: () => Promise<Keeping>) {
  const sent: FromTablet[] = [];
  const one = new TapPost(
    { keeping, channel: null },
    { send: (message) => sent.push(message) > 0, changed: () => {}, answeredElsewhere: () => {} },
  );
  const ids = (): string[] => sent.flatMap((one) => (one.say === 'taps' ? one.ops.map(({ id }) => id) : []));
  return { one, ids };
}

const settled = (): Promise<void> => new Promise((done) => setTimeout(done));

async function storeWith(...ids: string[]): Promise<OutboxStore> {
  const store = memoryStore();
  for (const id of ids) await store.add(tap(id));
  return store;
}

test('taps wait for their store, and go once it has them, behind those of an earlier visit', async () => {
  const store = await storeWith('earlier');
  let come: (keeping: Keeping) => void = () => {};
  const { one, ids } = post(() => new Promise((done) => (come = done)));
  one.welcomed();
  one.add(tap('first'));
  one.add(tap('second'));
  const opened = one.open();
  await settled();
  expect([ids(), one.isSafe, one.isOpen]).toEqual([[], false, false]);
  expect(one.ops.map(({ id }) => id)).toEqual(['first', 'second']);

  come({ store, lead: null });
  await opened;
  await settled();
  expect((await store.all()).map(({ id }) => id)).toEqual(['earlier', 'first', 'second']);
  expect([ids(), one.isSafe, one.isKeeping]).toEqual([['earlier', 'first', 'second'], true, true]);
});

test('where it cannot be fetched taps are sent all the same, said not to be kept, and what it has goes once it comes', async () => {
  const store = await storeWith('earlier');
  let isThere = false;
  const { one, ids } = post(async () => {
    if (!isThere) throw new TypeError('no hub');
    return { store, lead: null };
  });
  one.welcomed();
  one.add(tap('first'));
  await expect(one.open()).rejects.toThrow('no hub');
  await settled();
  expect([ids(), one.isSafe, one.isKeeping, one.isOpen]).toEqual([['first'], false, false, false]);

  isThere = true;
  await one.open();
  await one.open();
  await settled();
  // What was sent before may have been lost with a line: the hub knows it by its id.
  expect(new Set(ids())).toEqual(new Set(['earlier', 'first']));
  one.answered([{ id: 'first', seq: 1, why: null }]);
  one.answered([{ id: 'earlier', seq: 2, why: null }]);
  expect([one.ops, one.isSafe]).toEqual([[], true]);
});

test('a browser that keeps nothing still sends, and is not safe to reload before the answer', async () => {
  const { one, ids } = post(async () => ({ store: null, lead: null }));
  one.welcomed();
  await one.open();
  one.add(tap('first'));
  await settled();
  expect([ids(), one.isSafe, one.isKeeping]).toEqual([['first'], false, false]);
});
