/** Days that are over: put by whole, whatever breaks off in between, without what is private, and learned from. */
import { readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { evolve } from '#core/day/evolve.ts';
import type { Board } from '#core/day/board.ts';
import { isUnused } from '#core/day/emptyDay.ts';
import type { OpFact } from '#core/day/ops.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { dayHistory } from '#core/plan/history.ts';
import { learnFrom, type Learned } from '#core/plan/learned.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { openHub, type Hub } from '../../hub/main.ts';
import { Learning } from '../../hub/learning.ts';
import { openDiskStorage } from '../../hub/storage/disk.ts';
import { DAYS_FOLDER, KeptDay, readDays, writeDay } from '../../hub/storage/keptDay.ts';
import { DATA_VERSION } from '../../hub/storage/version.ts';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { Client, op } from './client.ts';
import { tempFolder } from './hubProcess.ts';

const OFFICE: TabletPlace = { role: 'coordinator' };
const DAY_MS = 86_400_000;

let folder: string;
let days: string;
let remove: () => Promise<void>;
let hub: Hub | null;
let client: Client | null;
let now: number;
let nextId: number;

beforeEach(async () => {
  const temp = await tempFolder();
  folder = join(temp.path, 'barn');
  days = join(folder, DAYS_FOLDER);
  remove = temp.remove;
  hub = null;
  client = null;
  now = NOON;
  nextId = 0;
});
afterEach(async () => {
  client?.close();
  await hub?.close();
  await remove();
});

const start = async (): Promise<Board> => {
  hub = await openHub({
    open: true,
    port: 0,
    host: '127.0.0.1',
    folder,
    clock: () => now,
    first: smallBoard(),
    log: (line) => expect.fail(line),
  });
  const joined = await Client.join(hub.port, OFFICE);
  client = joined.client;
  return joined.welcome.board!;
};
const stop = async (): Promise<void> => {
  client?.close();
  await hub?.close();
  hub = null;
};
const tap = async (fact: OpFact, by: string | null = 'ada'): Promise<void> => {
  nextId += 1;
  const answer = await client?.tapped(op(`op${nextId}`, fact, by, now));
  expect(answer?.why).toBeNull();
};

const kept = async (name: string): Promise<KeptDay> =>
  KeptDay.parse(JSON.parse(await readFile(join(days, name), 'utf8')));

/** Ada does a horse, tapped as she goes; she takes `factor` times the given minutes. */
const work = async (factor: number): Promise<void> => {
  for (const [stage, minutes] of [
    ['feet', 6],
    ['coat', 9],
    ['tack', 7],
  ] as const) {
    await tap({ kind: 'stageStarted', prep: 'fern.1', stage });
    now += minutes * factor * MINUTE_MS;
    await tap({ kind: 'stagesFinished', prep: 'fern.1', stages: [stage] });
    now += MINUTE_MS;
  }
};

describe('a day that another follows', () => {
  test('is put by with its last record and all its entries, over snapshots and restarts', async () => {
    await start();
    await work(1);
    // Ends with a snapshot.
    await stop();
    await start();
    await tap({ kind: 'volunteerLeft', volunteer: 'ben' });
    await stop();
    const before = await start();
    await stop();
    now = NOON + DAY_MS;
    const after = await start();
    expect(after.day.date).toBe('2026-05-12');
    await stop();
    const day = await kept('2026-05-11.json');
    expect(day.day).toEqual(before.day);
    expect(day.date).toBe('2026-05-11');
    // All of it: played from the board the day began with it comes to the record beside it.
    expect(day.entries.map(({ seq }) => seq)).toEqual(Array.from({ length: nextId }, (_, i) => i + 1));
    expect(day.entries.reduce(evolve, smallBoard()).day).toEqual(day.day);
    expect(day).toMatchObject({ from: 1, to: nextId });
    // Its entries are let go with the next snapshot; those of the new day are kept.
    const journals = (await readdir(folder)).filter((name) => name.startsWith('journal-')).sort();
    expect(journals.map((name) => Number(name.slice(8, 20)))).not.toContain(1);
  });

  test('has nothing private in it', async () => {
    await start();
    await tap({
      kind: 'recordSaved',
      saved: { table: 'riders', record: { id: 'zq', callName: 'Zephyrine' } },
    });
    await tap({ kind: 'recordSaved', saved: { table: 'horses', record: smallBoard().barn.horses['moss']! } });
    await stop();
    now = NOON + DAY_MS;
    await start();
    await stop();
    const text = await readFile(join(days, '2026-05-11.json'), 'utf8');
    for (const secret of ['Zephyrine', 'Robin', '512.25', '48.5', '"private"', '"pace"']) {
      expect(text).not.toContain(secret);
    }
    expect((await kept('2026-05-11.json')).entries).toHaveLength(2);
  });

  test('is put by at the next start when the hub ended right after opening the new one', async () => {
    await start();
    await work(1);
    const board = smallBoard();
    await stop();
    now = NOON + DAY_MS;
    await start();
    // Only the hub's end keeps the snapshot from being written; the files are put as a crash leaves them.
    const journal = (await readdir(folder)).filter((name) => name.startsWith('journal-')).sort();
    const files = await Promise.all(
      ['snapshot.json', ...journal].map(async (name) => [name, await readFile(join(folder, name))] as const),
    );
    await stop();
    await rm(folder, { recursive: true });
    const storage = await openDiskStorage(folder, { board, journal: 'j1' }, now);
    await storage.close();
    for (const name of await readdir(folder)) if (name.startsWith('journal-')) await rm(join(folder, name));
    for (const [name, bytes] of files) await writeFile(join(folder, name), bytes);
    const { day } = await start();
    expect(day.date).toBe('2026-05-12');
    await stop();
    expect((await kept('2026-05-11.json')).entries).toHaveLength(nextId);
  });

  test('on which nothing was planned or done leaves no file', async () => {
    now = NOON + DAY_MS;
    await start();
    await stop();
    now = NOON + 3 * DAY_MS;
    expect(isUnused((await start()).day)).toBe(true);
    await stop();
    expect(await readdir(days)).toEqual(['2026-05-11.json']);
  });
});

test('the same date opened twice leaves two records, and the same record twice leaves one', async () => {
  const { day } = smallBoard();
  const one: KeptDay = {
    version: DATA_VERSION,
    date: '2026-05-11',
    from: 3,
    to: 9,
    day,
    rules: null,
    entries: [],
  };
  await writeDay(days, one);
  await writeDay(days, one);
  await writeDay(days, { ...one, from: 40, to: 50 });
  await writeDay(days, { ...one, from: 40, to: 50 });
  expect(await readdir(days)).toEqual(['2026-05-11-40.json', '2026-05-11.json']);
  expect((await readDays(days, 9)).days.map(({ from }) => from).toSorted((a, b) => a - b)).toEqual([3, 40]);
});

test('a damaged record is named and left out; the last ones are read', async () => {
  const { day } = smallBoard();
  for (let n = 1; n <= 9; n += 1)
    await writeDay(days, {
      version: DATA_VERSION,
      date: `2026-05-0${n}`,
      from: n,
      to: n,
      day,
      rules: null,
      entries: [],
    });
  const path = join(days, '2026-05-08.json');
  const text = await readFile(path, 'utf8');
  for (const broken of ['', '{', text.slice(0, -1), text.replace('"from":8', '"from":7')]) {
    await writeFile(path, broken);
    const read = await readDays(days, 3);
    expect(read.damaged).toEqual(['2026-05-08.json']);
    expect(read.days.map(({ date }) => date)).toEqual(['2026-05-07', '2026-05-09']);
  }
  expect((await readDays(join(days, 'none'), 3)).days).toEqual([]);
});

describe('what past days teach', () => {
  test('reaches the forecast: at the start, and when a day closes', async () => {
    // Slow days, so that what is learned shows: twice the barn's own minutes and more.
    for (let n = 0; n < 4; n += 1) {
      now = NOON + n * DAY_MS;
      await start();
      if (n > 0) {
        // The same lessons each day.
        for (const lesson of Object.values(smallBoard().day.lessons))
          await tap({ kind: 'lessonAdded', lesson: { ...lesson, start: lesson.start + n * DAY_MS } });
        await tap({ kind: 'volunteerArrived', volunteer: 'ada' });
      }
      await work(2.5);
      await stop();
    }
    now = NOON + 4 * DAY_MS;
    const board = await start();
    await stop();
    const storage = await openDiskStorage(folder, { board, journal: 'j9' }, now);
    const learned: Learned[] = [];
    const learning = new Learning({
      storage,
      board: () => board,
      today: () => [],
      learned: (one) => learned.push(one),
      log: (line) => expect.fail(line),
    });
    await learning.learn();
    await learning.stop();
    const { days: past } = await storage.days(30);
    await storage.close();
    expect(past.map(({ date }) => date)).toEqual(['2026-05-11', '2026-05-12', '2026-05-13', '2026-05-14']);
    const all = past.map((one) => dayHistory({ ...board, day: one.day }, one.entries).history);
    expect(all.flatMap(({ observations }) => observations)).toHaveLength(12);
    const sum = (
      pick: (one: (typeof all)[number]) => { count: number; of: number },
    ): { count: number; of: number } => ({
      count: all.reduce((n, one) => n + pick(one).count, 0),
      of: all.reduce((n, one) => n + pick(one).of, 0),
    });
    expect(learned).toEqual([
      learnFrom(board.barn, {
        observations: all.flatMap(({ observations }) => observations),
        changeovers: all.flatMap(({ changeovers }) => changeovers),
        takeUps: all.flatMap(({ takeUps }) => takeUps),
        unseenStarts: sum((one) => one.unseenStarts),
        noShows: sum((one) => one.noShows),
      }),
    ]);
  });

  test('shows in what the boards are told', async () => {
    /** How long until fern is ready, ms: the first that a hub with these past days forecasts and that will do. */
    const readyIn = async (willDo: (ms: number) => boolean): Promise<number> => {
      await start();
      for (const lesson of Object.values(smallBoard().day.lessons)) {
        const later = { ...lesson, id: `${lesson.id}x`, start: now + 2 * 60 * MINUTE_MS };
        await tap({ kind: 'lessonAdded', lesson: later });
      }
      await tap({ kind: 'volunteerArrived', volunteer: 'cho' });
      const pieces = ['feet', 'coat', 'tack'].map((stage) => `fern.1:${stage}`);
      await tap({ kind: 'workMoved', pieces, to: 'cho', before: null });
      for (;;) {
        const { preps, hands } = (await client!.next('forecast')).forecast;
        const ready = preps['fern.1']?.ready;
        const ms = hands['cho'] && ready ? ready - now : null;
        if (ms === null || !willDo(ms)) continue;
        await stop();
        return ms;
      }
    };
    await start();
    await stop();
    now = NOON + DAY_MS;
    const usual = await readyIn(() => true);
    await rm(folder, { recursive: true });
    now = NOON;
    await start();
    await work(2.5);
    await stop();
    now = NOON + DAY_MS;
    // The day before closes with this start: what it teaches comes a moment later.
    const isSlower = (ms: number): boolean => ms > usual + MINUTE_MS;
    expect(await readyIn(isSlower)).toBeGreaterThan(usual);
  });
});
