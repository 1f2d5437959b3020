/** The hub as a process of its own: killed, started again, started twice, ended politely. */
import { readdir, readFile, writeFile } from 'node:fs/promises';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Op } from '#core/day/ops.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { Client, op } from './client.ts';
import { HubProcess, tempFolder } from './hubProcess.ts';

const OFFICE: TabletPlace = { role: 'coordinator' };

let data: string;
let remove: () => Promise<void>;
let running: HubProcess[];

beforeEach(async () => {
  const temp = await tempFolder();
  data = temp.path;
  remove = temp.remove;
  running = [];
});
afterEach(async () => {
  for (const hub of running) await hub.end('SIGKILL');
  await remove();
});

const start = async (): Promise<HubProcess> => {
  const hub = await HubProcess.start(data);
  running.push(hub);
  return hub;
};

const kill = async (hub: HubProcess): Promise<void> => {
  running = running.filter((one) => one !== hub);
  await hub.end('SIGKILL');
};

/** One stall each, so that the board itself shows which ops have landed. */
const saveStall = (id: string): Op =>
  op(id, { kind: 'recordSaved', saved: { table: 'stalls', record: { id, name: id, metres: 1 } } });

describe('killed in the middle of taps', () => {
  test(
    'it has every answered op once, answers it the same, and is consistent about the others',
    { timeout: 60_000 },
    async () => {
      const answered = new Map<string, number>();
      const sent: Op[] = [];
      const tablets = 3;
      for (let round = 0; round < 5; round += 1) {
        const hub = await start();
        const clients = await Promise.all(
          Array.from(
            { length: tablets },
            async (_, i) => (await Client.join(hub.port, OFFICE, `t${i}`)).client,
          ),
        );
        // Every tablet keeps five ops on their way; the kill comes after a different number of answers each time.
        const enough = 20 + round * 37;
        const fire = (client: Client, t: number): void => {
          const one = saveStall(`r${round}t${t}n${sent.length}`);
          sent.push(one);
          client.tap(one);
        };
        let count = 0;
        const pump = async (client: Client, t: number): Promise<void> => {
          for (let i = 0; i < 5; i += 1) fire(client, t);
          while (count < enough) {
            for (const answer of (await client.next('answered')).answers) {
              answered.set(answer.id, answer.seq);
              count += 1;
              fire(client, t);
            }
          }
        };
        await Promise.all(clients.map(pump));
        await kill(hub);
        // What came in before the kill was noticed was answered, too.
        for (const client of clients) {
          await client.closed();
          for (const { answers } of client.taken('answered')) {
            for (const answer of answers) answered.set(answer.id, answer.seq);
          }
        }
      }

      const hub = await start();
      const { client, welcome } = await Client.join(hub.port, OFFICE);
      const stalls = Object.keys(welcome.board?.barn.stalls ?? {});
      for (const id of answered.keys()) expect(stalls).toContain(id);
      // One entry a stall, and one for the day: nothing landed twice.
      expect(welcome.seq).toBe(stalls.length + 1);
      for (const one of sent.filter(({ id }) => answered.has(id)).slice(-60)) {
        expect(await client.tapped(one)).toEqual({ id: one.id, seq: answered.get(one.id), why: null });
      }
      // Those never answered may or may not have landed; sending them again lands each once.
      for (const one of sent.filter(({ id }) => !answered.has(id))) await client.tapped(one);
      client.close();
      const { client: last, welcome: all } = await Client.join(hub.port, OFFICE);
      expect(Object.keys(all.board?.barn.stalls ?? {}).sort()).toEqual(sent.map(({ id }) => id).sort());
      expect(all.seq).toBe(sent.length + 1);
      last.close();
    },
  );

  test('a tablet that comes back after it catches up with entries alone', async () => {
    const hub = await start();
    const { client, welcome } = await Client.join(hub.port, OFFICE);
    await client.tapped(saveStall('s1'));
    const { seq } = await client.tapped(saveStall('s2'));
    await kill(hub);
    const again = await start();
    const back = await Client.join(again.port, OFFICE, 'tablet-1', {
      journal: welcome.journal,
      seq: seq - 1,
    });
    expect(back.welcome).toMatchObject({ board: null, seq, journal: welcome.journal });
    expect(back.welcome.entries.map((entry) => entry.id)).toEqual(['s2']);
    back.client.close();
  });
});

test('a torn last write is cut off, kept, and reported by health', async () => {
  const hub = await start();
  const { client } = await Client.join(hub.port, OFFICE);
  await client.tapped(saveStall('s1'));
  await kill(hub);
  const folder = join(data, 'barn');
  const journal = (await readdir(folder)).find((name) => name.startsWith('journal-')) ?? '';
  const whole = await readFile(join(folder, journal));
  await writeFile(
    join(folder, journal),
    Buffer.concat([whole, Buffer.from('000001f4 0badc0de [{"seq":3,"a')]),
  );
  const again = await start();
  const health = (await (await fetch(`http://127.0.0.1:${again.port}/health`)).json()) as Record<
    string,
    unknown
  >;
  expect(health).toMatchObject({ seq: 2, tornTail: { file: journal, atByte: whole.length, bytes: 30 } });
  const { client: back, welcome } = await Client.join(again.port, OFFICE);
  expect(Object.keys(welcome.board?.barn.stalls ?? {})).toEqual(['s1']);
  expect((await back.tapped(saveStall('s2'))).seq).toBe(3);
  back.close();
});

test.each(['SIGTERM', 'SIGINT'] as const)('%s ends it cleanly: goodbye, snapshot, code 0', async (signal) => {
  const hub = await start();
  running = [];
  const { client } = await Client.join(hub.port, OFFICE);
  await client.tapped(saveStall('s1'));
  const [ended, code] = await Promise.all([hub.end(signal), client.closed()]);
  expect(ended).toEqual({ code: 0, signal: null, errors: '' });
  expect(code).toBe(1001);
  const folder = join(data, 'barn');
  const snapshot = JSON.parse(await readFile(join(folder, 'snapshot.json'), 'utf8')) as { seq: number };
  expect(snapshot.seq).toBe(2);
  // The open day's entries stay until the day is put by.
  expect((await readdir(folder)).filter((name) => name.startsWith('journal-'))).toEqual([
    'journal-000000000001.log',
    'journal-000000000003.log',
  ]);
  const again = await start();
  const { client: back, welcome } = await Client.join(again.port, OFFICE);
  expect(welcome.seq).toBe(2);
  back.close();
});

describe('it does not start, says why in one sentence or two, and changes nothing', () => {
  const oneLine = /^[^\n]+\n$/;

  test('on a folder in use', async () => {
    const hub = await start();
    const second = await HubProcess.run('--port', '0', '--data', data);
    expect(second.code).toBe(1);
    expect(second.errors).toMatch(oneLine);
    expect(second.errors).toContain('Another hub is already running');
    const { client } = await Client.join(hub.port, OFFICE);
    expect((await client.tapped(saveStall('s1'))).seq).toBe(2);
    client.close();
  });

  test('on a port in use', async () => {
    const server = createServer();
    const port = await new Promise<number>((done) => {
      server.listen(0, '127.0.0.1', () => {
        const address = server.address();
        done(address && typeof address === 'object' ? address.port : 0);
      });
    });
    const ended = await HubProcess.run('--port', String(port), '--data', data);
    expect(ended.code).toBe(1);
    expect(ended.errors).toMatch(oneLine);
    expect(ended.errors).toContain(`Port ${port} is already in use`);
    expect(await readdir(data)).toEqual([]);
    await new Promise((done) => server.close(done));
  });

  test('where no folder can be made', async () => {
    await writeFile(join(data, 'file'), '');
    const ended = await HubProcess.run('--port', '0', '--data', join(data, 'file'));
    expect(ended.code).toBe(1);
    expect(ended.errors).toMatch(oneLine);
    expect(ended.errors).toContain('cannot be written');
  });

  test('on data of a newer program', async () => {
    await kill(await start());
    const path = join(data, 'barn', 'snapshot.json');
    const newer = (await readFile(path, 'utf8')).replace(/"version":\d+/, '"version":999');
    await writeFile(path, newer);
    const ended = await HubProcess.run('--port', '0', '--data', data);
    expect(ended.code).toBe(1);
    expect(ended.errors).toMatch(oneLine);
    expect(ended.errors).toContain('newer');
    expect(await readFile(path, 'utf8')).toBe(newer);
  });

  test('on an option it does not know', async () => {
    const ended = await HubProcess.run('--prot', '1');
    expect(ended.code).toBe(1);
    expect(ended.errors).toMatch(oneLine);
  });
});
