/** Backups: what is in one comes back, a running hub does not mind, and nothing but a whole one is put back. */
import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cp, mkdir, readdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Board } from '#core/day/board.ts';
import type { Op } from '#core/day/ops.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { takeBackup, writeBackup } from '../../hub/backup.ts';
import { openHub, type Hub } from '../../hub/main.ts';
import { restore } from '../../hub/restore.ts';
import { readBackup } from '../../hub/storage/backupFile.ts';
import { readLines, toLine } from '../../hub/storage/line.ts';
import { DATA_VERSION } from '../../hub/storage/version.ts';
import { DAYS_FOLDER, readDays } from '../../hub/storage/keptDay.ts';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { Client, op, type Message } from './client.ts';
import { tempFolder } from './hubProcess.ts';

/** Of a program to come. */
const NEWER = DATA_VERSION + 1;
const OFFICE: TabletPlace = { role: 'coordinator' };
/** 2026-05-12 13:00 in the barn's zone. */
const NEXT_NOON = NOON + 86_400_000;

let data: string;
let folder: string;
let file: string;
let remove: () => Promise<void>;
let hub: Hub | null;
let clients: Client[];
let now: number;

beforeEach(async () => {
  const temp = await tempFolder();
  data = join(temp.path, 'data');
  folder = join(data, 'barn');
  file = join(temp.path, 'my.backup');
  remove = temp.remove;
  hub = null;
  clients = [];
  now = NOON;
});
afterEach(async () => {
  for (const client of clients) client.close();
  await hub?.close();
  await remove();
});

const start = async (): Promise<void> => {
  hub = await openHub({
    open: true,
    port: 0,
    host: '127.0.0.1',
    folder,
    clock: () => now,
    first: smallBoard(),
    log: () => {},
  });
};
const stop = async (): Promise<void> => {
  await hub?.close();
  hub = null;
};
const join_ = async (
  since: { journal: string; seq: number } | null = null,
): ReturnType<typeof Client.join> => {
  const joined = await Client.join(hub?.port ?? 0, OFFICE, `t${clients.length}`, since);
  clients.push(joined.client);
  return joined;
};
const saveStall = (id: string): Op =>
  op(id, { kind: 'recordSaved', saved: { table: 'stalls', record: { id, name: id, metres: 1 } } });
const boardNow = async (): Promise<Board | null> => (await join_()).welcome.board;
const contents = async (at: string): Promise<Record<string, string>> => {
  const names = (await readdir(at, { recursive: true })).sort();
  const files = await Promise.all(
    names.map(async (name) => {
      const path = join(at, name);
      return (await stat(path)).isFile() ? [[name, await readFile(path, 'base64')]] : [];
    }),
  );
  return Object.fromEntries(files.flat() as [string, string][]);
};

/** A barn with a day behind it, a snapshot and entries after it; a backup of it in `file`. */
async function backedUp(): Promise<{ board: Board | null; welcome: Message<'welcome'> }> {
  await start();
  const { client } = await join_();
  await client.tapped(op('f', { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] }, 'ada', NOON));
  await stop();
  now = NEXT_NOON;
  await start();
  const { client: office } = await join_();
  await office.tapped(saveStall('kept'));
  const { welcome } = await join_();
  await writeBackup(file, await takeBackup(folder, now));
  return { board: welcome.board, welcome };
}

test('pictures come back, from a file and from a download, and one that is another is not taken', async () => {
  await start();
  const jpeg = (seed: number): Buffer =>
    Buffer.concat([
      Buffer.from([0xff, 0xd8, 0xff]),
      createHash('sha512').update(`${seed}`).digest(),
      Buffer.alloc(50_000, seed),
    ]);
  const at = (path: string): string => `http://127.0.0.1:${hub?.port}${path}`;
  const { client } = await join_();
  const pictures = [1, 2, 3].map(jpeg);
  const names: string[] = [];
  for (const bytes of pictures) {
    const answer = await fetch(at('/photos'), { method: 'POST', body: new Uint8Array(bytes) });
    names.push(((await answer.json()) as { name: string }).name);
  }
  // The third hangs on nothing.
  const fern = smallBoard().barn.horses['fern']!;
  const tackLists = fern.tackLists.map((list) => ({ ...list, photo: names[1]! }));
  const record = { ...fern, photo: names[0]!, tackLists };
  await client.tapped(op('photo', { kind: 'recordSaved', saved: { table: 'horses', record } }));
  const { bytes } = await writeBackup(file, await takeBackup(folder, now));
  const downloaded = await (await fetch(at('/backup'))).bytes();
  expect(downloaded.length).toBe(bytes);
  // Base64 (RFC 4648) makes four letters of three bytes.
  const without = bytes - (4 / 3) * (pictures[0]!.length + pictures[1]!.length);
  expect(without).toBeGreaterThan(0);
  expect(without).toBeLessThan(20_000);
  await stop();
  for (const whole of [await readFile(file), Buffer.from(downloaded)]) {
    await writeFile(file, whole);
    await restore(file, data, (now += 1000));
    const photos = join(folder, 'photos');
    expect((await readdir(photos)).toSorted()).toEqual(
      names.slice(0, 2).toSorted((a, b) => (a < b ? -1 : 1)),
    );
    for (const i of [0, 1]) expect(await readFile(join(photos, names[i]!))).toEqual(pictures[i]);
  }
  const lines = readLines(await readFile(file)).lines.map(({ value }) => value);
  const other = lines.map((line) =>
    typeof line === 'object' && line !== null && 'photo' in line
      ? { ...line, base64: pictures[2]!.toString('base64') }
      : line,
  );
  await writeFile(file, Buffer.concat(other.map(toLine)));
  await expect(restore(file, data, now)).rejects.toThrow('make no sense');
});

test('what is in a backup of a running hub comes back: board, numbers, answers and past days', async () => {
  const { board, welcome } = await backedUp();
  const { client } = await join_();
  await client.tapped(saveStall('later'));
  await stop();
  const past = await readFile(join(folder, DAYS_FOLDER, '2026-05-11.json'), 'utf8');
  const before = await contents(folder);

  const { oldFolder } = await restore(file, data, now);
  expect(oldFolder).toBe(join(data, 'barn-until-2026-05-12T19-00-00-000Z'));
  expect(await contents(oldFolder!)).toEqual(before);
  expect(await readFile(join(folder, DAYS_FOLDER, '2026-05-11.json'), 'utf8')).toBe(past);
  await start();
  const { client: again, welcome: after } = await join_();
  expect(after.board).toEqual(board);
  expect(after.seq).toBe(welcome.seq);
  // An op the backup knows is answered as the first time; one made after it lands anew.
  expect((await again.tapped(saveStall('kept'))).seq).toBeLessThanOrEqual(welcome.seq);
  expect((await again.tapped(saveStall('later'))).seq).toBe(welcome.seq + 1);
});

test('a restore that was cut off between its renames is ended at the next start; one cut off before them changes nothing', async () => {
  const { board } = await backedUp();
  await stop();
  await restore(file, data, now);
  // As the disk looked between the two: the old barn out of the way, the new one whole and not yet in its place.
  await rename(folder, `${folder}.new`);
  await start();
  expect((await join_()).welcome.board).toEqual(board);
  await stop();
  const kept = board;
  // Half a barn beside a whole one.
  await mkdir(`${folder}.new`, { recursive: true });
  await writeFile(join(`${folder}.new`, 'snapshot.json'), '{}');
  await start();
  expect((await join_()).welcome.board).toEqual(kept);
});

test('a day that was closed but not put by yet, as a crash leaves it, is in the backup all the same', async () => {
  await start();
  const { client } = await join_();
  await client.tapped(op('f', { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] }, 'ada', NOON));
  await stop();
  now = NEXT_NOON;
  const copy = join(data, 'copy');
  await start();
  // A file on its way to its name is there and gone again while it is copied.
  await cp(folder, copy, { recursive: true, filter: (from) => !from.endsWith('.new') });
  await stop();
  await rm(join(copy, DAYS_FOLDER), { recursive: true, force: true });
  const past = await readDays(join(folder, DAYS_FOLDER), 9);
  expect(past.days).toHaveLength(1);
  expect((await takeBackup(copy, now)).days).toEqual(past.days);
});

test('a tablet that comes back after it is given the whole board, whatever it has', async () => {
  const { welcome } = await backedUp();
  await stop();
  await restore(file, data, now);
  await start();
  const back = await join_({ journal: welcome.journal, seq: welcome.seq });
  expect(back.welcome.journal).not.toBe(welcome.journal);
  expect(back.welcome.board).not.toBeNull();
});

test('it goes into a folder that never had a barn, for its owner’s eyes only', async () => {
  const { board } = await backedUp();
  await stop();
  expect((await stat(file)).mode & 0o077).toBe(0);
  await rm(data, { recursive: true });
  expect((await restore(file, data, now)).oldFolder).toBeNull();
  for (const name of await readdir(folder)) expect((await stat(join(folder, name))).mode & 0o077).toBe(0);
  await start();
  expect(await boardNow()).toEqual(board);
});

test('taken again and again while taps come in, each backup is the board at its number', async () => {
  await start();
  const { client } = await join_();
  let isEnding = false;
  let tapped = 0;
  const tapping = (async () => {
    // Past a snapshot, with its change of journal file, in the middle.
    while (!isEnding || tapped < 700) await client.tapped(saveStall(`tap${(tapped += 1)}`));
  })();
  const backups = [];
  for (let i = 0; i < 12; i += 1) {
    backups.push(await takeBackup(folder, now));
    await new Promise((done) => setTimeout(done, 40));
  }
  isEnding = true;
  await tapping;
  const before = Object.keys(smallBoard().barn.stalls).length;
  for (const { snapshot } of backups) {
    // Every entry here saves one stall of its own.
    expect(Object.keys(snapshot.board.barn.stalls)).toHaveLength(before + snapshot.seq);
    expect(snapshot.seen).toHaveLength(snapshot.seq);
  }
  expect(new Set(backups.map(({ snapshot }) => snapshot.seq)).size).toBeGreaterThan(3);
});

describe('refused, with nothing changed', () => {
  test('while a hub runs on the folder', async () => {
    await backedUp();
    const before = await contents(join(folder, DAYS_FOLDER));
    await expect(restore(file, data, now)).rejects.toThrow('Another hub is already running');
    expect(await readdir(data)).toEqual(['barn']);
    expect(await contents(join(folder, DAYS_FOLDER))).toEqual(before);
  });

  test('a file cut off at any place, or with any byte changed', async () => {
    await backedUp();
    await stop();
    const whole = await readFile(file);
    const before = await contents(data);
    const tried = async (bytes: Buffer): Promise<void> => {
      await writeFile(file, bytes);
      await expect(readBackup(file)).rejects.toThrow(/Nothing was changed\.$/);
    };
    for (let at = 0; at < whole.length; at += 61) {
      await tried(whole.subarray(0, at));
      const bytes = Buffer.from(whole);
      bytes[at]! ^= 1 << (at % 8);
      await tried(bytes);
    }
    // Whole lines missing at the end, or one in between.
    const starts = readLines(whole).lines.map(({ atByte }) => atByte);
    for (const start of starts) await tried(whole.subarray(0, start));
    await tried(Buffer.concat([whole.subarray(0, starts.at(-2)), whole.subarray(starts.at(-1))]));
    await expect(restore(file, data, now)).rejects.toThrow();
    expect(await contents(data)).toEqual(before);
  });

  test('a newer one, and one whose records make no sense', async () => {
    await backedUp();
    await stop();
    const [head, state, ...rest] = readLines(await readFile(file)).lines.map(({ value }) => value as object);
    const write = (lines: object[]): Promise<void> => writeFile(file, Buffer.concat(lines.map(toLine)));
    await write([{ ...head, version: NEWER }, state!, ...rest]);
    await expect(restore(file, data, now)).rejects.toThrow(`newer Aisle Board (data version ${NEWER}`);
    await write([head!, { ...state, board: {} }, ...rest]);
    await expect(restore(file, data, now)).rejects.toThrow('make no sense');
    await expect(restore(join(data, 'none'), data, now)).rejects.toThrow('ENOENT');
    expect(await readdir(data)).toEqual(['barn']);
  });

  test('a backup over one that is there, or where no barn is', async () => {
    const backup = await backedUp().then(() => takeBackup(folder, now));
    await expect(writeBackup(file, backup)).rejects.toThrow('is there already');
    const empty = join(data, 'empty');
    await mkdir(empty);
    await expect(takeBackup(empty, now)).rejects.toThrow('There is no barn');
  });
});

/** A folder as an older version of the data left it, kept from when that was the newest: its files' texts by name. */
async function leftBy(version: number): Promise<Record<string, string>> {
  const path = fileURLToPath(new URL(`data/version-${version}.json`, import.meta.url));
  return JSON.parse(await readFile(path, 'utf8')) as Record<string, string>;
}

const OLDER = Array.from({ length: DATA_VERSION - 1 }, (_, i) => i + 1);

test.each(OLDER)(
  'data of version %i is brought up to this one, and the old files are kept beside it',
  async (version) => {
    const old = await leftBy(version);
    const putOld = async (names = Object.keys(old)): Promise<void> => {
      for (const name of names) {
        await mkdir(dirname(join(folder, name)), { recursive: true });
        await writeFile(join(folder, name), old[name]!);
      }
    };
    await putOld();
    const check = async (): Promise<void> => {
      await start();
      const { welcome } = await join_();
      expect(welcome).toMatchObject({ journal: 'j1', seq: 4 });
      expect(welcome.board?.day.preps['fern.1']?.marks).toMatchObject({
        feet: [{ op: 'a' }],
        coat: [{ op: 'd' }],
      });
      expect(welcome.board?.barn.horses['moss']?.holds).toMatchObject([{ kind: 'vet', why: 'heat' }]);
      await stop();
    };
    const [days, journal] = [/^days\//, /^journal-/].map((kind) =>
      Object.keys(old).filter((name) => kind.test(name)),
    );
    // A crash at any step of it leaves files of both versions; here after each in turn.
    const aside = join(folder, `version-${version}`);
    await check();
    for (const name of [...journal!, 'snapshot.json'])
      expect(await readFile(join(aside, name), 'utf8')).toBe(old[name]);
    expect(JSON.parse(await readFile(join(folder, 'snapshot.json'), 'utf8'))).toMatchObject({
      version: DATA_VERSION,
    });
    await check();
    // After the new journal file, before the new snapshot.
    await putOld(['snapshot.json', ...journal!]);
    await check();
    expect(await readFile(join(aside, 'snapshot.json'), 'utf8')).toBe(old['snapshot.json']);
    const kept = await readDays(join(folder, 'days'), 9);
    expect(kept.damaged).toEqual([]);
    expect(kept.days.map(({ date }) => `days/${date}.json`)).toEqual(days);
    // A backup of an older folder is one of this version.
    for (const name of await readdir(folder)) if (name.startsWith('journal-')) await rm(join(folder, name));
    await putOld();
    expect((await takeBackup(folder, now)).snapshot).toMatchObject({
      version: DATA_VERSION,
      seq: 4,
      run: 'j1',
    });
  },
);

test('the commands say what they did, or in one sentence why not', async () => {
  await backedUp();
  await stop();
  const command = (name: string, ...args: string[]): Promise<{ code: number; out: string; errors: string }> =>
    new Promise((done) => {
      const script = fileURLToPath(new URL(`../../hub/${name}.ts`, import.meta.url));
      execFile(process.execPath, [script, ...args], (error, out, errors) =>
        done({ code: error ? Number(error.code) : 0, out, errors }),
      );
    });
  const backups = join(data, '..', 'backups');
  await mkdir(backups);
  const made = await command('backup', backups, '--data', data);
  expect(made).toMatchObject({ code: 0, errors: '' });
  const [name = ''] = await readdir(backups);
  expect(name).toMatch(/^aisle-board-\d{4}-\d\d-\d\d-\d{4}\.backup$/);
  expect(made.out).toContain(join(backups, name));
  await cp(folder, join(data, 'copy'), { recursive: true });
  const put = await command('restore', join(backups, name), '--data', data);
  expect(put).toMatchObject({ code: 0, errors: '' });
  expect(put.out).toMatch(
    /^Test is as it was on \d{4}-\d\d-\d\d at \d\d:\d\d, in [^\n]+\nWhat was there before/,
  );
  for (const [which, ...args] of [
    ['backup'],
    ['backup', 'x', 'y'],
    ['restore', name],
    ['backup', 'x', '--data', 'none'],
  ]) {
    const refused = await command(which!, ...args);
    expect(refused).toMatchObject({ code: 1, out: '' });
    expect(refused.errors).toMatch(/^[^\n]+\n$/);
  }
});
