/** A disk without room, for real: no tap is taken and none is lost, every board hears, and it goes on by itself. */
import { open, readdir, readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Entry, Op } from '#core/day/ops.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { openHub, type Hub } from '../../hub/main.ts';
import { appendBatch } from '../../hub/storage/segment.ts';
import { troubleOf } from '../../hub/storage/trouble.ts';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { Client, op, type Message } from './client.ts';
import { LimitedHub, tinyDisk, type TinyDisk } from './fullDisk.ts';
import { tempFolder } from './hubProcess.ts';

const OFFICE: TabletPlace = { role: 'coordinator' };
const AISLE: TabletPlace = { role: 'aisle', stalls: [] };

let path: string;
let remove: () => Promise<void>;

beforeEach(async () => {
  const temp = await tempFolder();
  path = temp.path;
  remove = temp.remove;
});
afterEach(() => remove());

const saveStall = (id: string): Op =>
  op(id, { kind: 'recordSaved', saved: { table: 'stalls', record: { id, name: id, metres: 1 } } });

const stallsOf = ({ board }: Message<'welcome'>): string[] => Object.keys(board?.barn.stalls ?? {}).sort();

const journalOf = async (folder: string): Promise<string> => {
  const names = (await readdir(folder)).filter((name) => name.startsWith('journal-')).sort();
  return join(folder, names.at(-1) ?? '');
};

/** The next status that says so. */
const until = async (client: Client, isReadOnly: boolean): Promise<Message<'status'>> => {
  for (;;) {
    const status = await client.next('status');
    if ((status.readOnly !== null) === isReadOnly) return status;
  }
};

test('a write to a full device is trouble of the full kind', async () => {
  const file = await open('/dev/full', 'a');
  const entry: Entry = {
    seq: 1,
    at: NOON,
    id: 'a',
    device: 'd1',
    by: null,
    tappedAt: NOON,
    facts: [],
    why: null,
  };
  const error: unknown = await appendBatch(file, [entry]).catch((why: unknown) => why);
  await file.close();
  expect(error).toBeInstanceOf(Error);
  expect(troubleOf(error)).toBe('full');
  expect(troubleOf(Object.assign(new Error('x'), { code: 'EROFS' }))).toBe('writeProtected');
  expect(troubleOf(Object.assign(new Error('x'), { code: 'EIO' }))).toBe('failing');
  expect(troubleOf(new Error('x'))).toBe('failing');
});

/** Needs the right to mount; the test after it needs none, and comes to the same. */
describe('a file system without room', () => {
  let disk: TinyDisk | null;
  let hub: Hub | null;
  let clients: Client[];
  beforeEach(async () => {
    disk = await tinyDisk(join(path, 'disk'));
    hub = null;
    clients = [];
  });
  afterEach(async () => {
    for (const client of clients) client.close();
    await hub?.close();
    disk?.remove();
  });

  const start = async (folder: string): Promise<Hub> => {
    hub = await openHub({
      open: true,
      port: 0,
      host: '127.0.0.1',
      folder,
      clock: () => NOON,
      first: smallBoard(),
      log: () => {},
      mendEveryMs: 50,
    });
    return hub;
  };
  const join_ = async (place: TabletPlace): ReturnType<typeof Client.join> => {
    const joined = await Client.join(hub?.port ?? 0, place, `t${clients.length}`);
    clients.push(joined.client);
    return joined;
  };

  test('no tap is taken until there is room; then the tablet is asked again, and a restart has all of it', async () => {
    if (!disk) return;
    const folder = join(disk.path, 'barn');
    const running = await start(folder);
    const [{ client }, aisle] = [await join_(OFFICE), await join_(AISLE)];
    await client.tapped(saveStall('before'));
    const journal = await journalOf(folder);
    const size = (await stat(journal)).size;
    disk.fill();
    // Until what is left of the last page is used up; each is either answered or refused.
    const answered: string[] = ['before'];
    const refused: Op[] = [];
    for (let i = 0; refused.length === 0; i += 1) {
      const one = saveStall(`full${i}`);
      client.tap(one);
      await expect.poll(() => client.taken('answered').length + client.taken('refused').length).toBe(1);
      if (client.taken('refused').length > 0) refused.push(one);
      else answered.push(one.id);
      await client.next(refused.length > 0 ? 'refused' : 'answered');
      expect(i).toBeLessThan(200);
    }
    expect((await until(client, true)).readOnly).toEqual({ since: NOON, why: 'full' });
    expect((await until(aisle.client, true)).readOnly?.why).toBe('full');
    const health = async (): Promise<unknown> =>
      (await fetch(`http://127.0.0.1:${running.port}/health`)).json();
    expect(await health()).toMatchObject({
      status: 'readOnly',
      seq: answered.length,
      readOnly: { why: 'full' },
    });
    // Boards are still served, as they are on disk, and clocks still answered.
    expect(stallsOf((await join_(OFFICE)).welcome)).toEqual([...answered, 's1'].sort());
    await client.settled();
    // More of them is refused too, and none of it reaches the journal.
    const more = Array.from({ length: 30 }, (_, i) => saveStall(`more${i}`));
    client.tap(...more);
    expect(await client.next('refused')).toEqual({ say: 'refused', code: 'readOnly' });
    refused.push(...more);

    disk.empty();
    await until(client, false);
    const again = await client.next('welcome');
    expect(again).toMatchObject({ board: null, entries: [], seq: answered.length });
    client.tap(...refused);
    const answers = (await client.next('answered')).answers;
    expect(answers.map(({ id, seq, why }) => ({ id, seq, why }))).toEqual(
      refused.map(({ id }, i) => ({ id, seq: answered.length + 1 + i, why: null })),
    );
    expect(await health()).toMatchObject({ status: 'ok', readOnly: null });
    expect((await stat(journal)).size).toBeGreaterThan(size);
    const { welcome } = await join_(OFFICE);
    await running.close();
    const restarted = await start(folder);
    const { welcome: after } = await join_(OFFICE);
    expect(after.board).toEqual(welcome.board);
    expect(after.journal).toBe(welcome.journal);
    expect(restarted.barnName()).toBe('Test');
  });

  test('a hub starts on a full disk, with the board it had, and with a torn tail that it cannot cut off yet', async () => {
    if (!disk) return;
    const folder = join(disk.path, 'barn');
    await start(folder);
    const { client } = await join_(OFFICE);
    await client.tapped(saveStall('before'));
    await hub?.close();
    const journal = await journalOf(folder);
    const file = await open(journal, 'a');
    await file.write('000001f4 0badc0de [{"seq":3,"a');
    await file.close();
    disk.fill();
    const before = disk.files();
    await start(folder);
    const { client: again, welcome } = await join_(OFFICE);
    expect(stallsOf(welcome)).toEqual(['before', 's1']);
    expect((await again.next('status')).readOnly).toEqual({ since: NOON, why: 'full' });
    again.tap(saveStall('after'));
    expect((await again.next('refused')).code).toBe('readOnly');
    // Now and then it tries whether there is room, and takes away what it could not finish.
    const full = disk;
    await expect.poll(() => full.files()).toEqual(before);
    disk.empty();
    await until(again, false);
    expect((await again.tapped(saveStall('after'))).seq).toBe(welcome.seq + 1);
    const names = Object.keys(disk.files());
    const torn = names.find((name) => name.includes('torn-')) ?? '';
    expect(await readFile(join(disk.path, torn), 'utf8')).toBe('000001f4 0badc0de [{"seq":3,"a');
    await hub?.close();
    await start(folder);
    expect(stallsOf((await join_(OFFICE)).welcome)).toEqual(['after', 'before', 's1']);
  });
});

test('a process whose files may not grow: half a line is taken away again, nothing is lost, nothing lands twice', async () => {
  const { hub, port } = await LimitedHub.start(path);
  try {
    const { client } = await Client.join(port, OFFICE);
    await client.tapped(saveStall('before'));
    const journal = await journalOf(join(path, 'barn'));
    const size = (await stat(journal)).size;
    // The kernel takes 40 bytes of the next line and no more.
    hub.limit(size + 40);
    client.tap(saveStall('a'));
    expect((await client.next('refused')).code).toBe('readOnly');
    await until(client, true);
    expect((await stat(journal)).size).toBe(size + 40);
    client.tap(saveStall('b'));
    expect((await client.next('refused')).code).toBe('readOnly');
    hub.limit('unlimited');
    await until(client, false);
    await client.next('welcome');
    expect((await stat(journal)).size).toBe(size);
    expect(await client.tapped(saveStall('a'))).toMatchObject({ seq: 3, why: null });
    expect(await client.tapped(saveStall('b'))).toMatchObject({ seq: 4, why: null });
    client.close();
    expect(hub.isRunning).toBe(true);
  } finally {
    await hub.end();
  }
  const { hub: again, port: other } = await LimitedHub.start(path);
  try {
    const { client, welcome } = await Client.join(other, OFFICE);
    expect(stallsOf(welcome)).toEqual(['a', 'b', 'before']);
    expect(welcome.seq).toBe(4);
    client.close();
  } finally {
    await again.end();
  }
});
