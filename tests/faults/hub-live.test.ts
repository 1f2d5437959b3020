/** A hub and its tablets over real sockets, in one process. */
import { connect } from 'node:net';
import { request } from 'node:http';
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { WebSocket } from 'ws';
import { evolve } from '#core/day/evolve.ts';
import type { Board } from '#core/day/board.ts';
import type { OpFact } from '#core/day/ops.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { redactBoard } from '#core/day/redact.ts';
import { PROTOCOL, TABLET_FRAME_BYTES } from '#core/wire/protocol.ts';
import { UNREAD_BYTES } from '../../hub/sockets.ts';
import { openHub, type Hub, type HubOptions } from '../../hub/main.ts';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { Client, op } from './client.ts';
import { tempFolder } from './hubProcess.ts';
import { MALFORMED } from './malformed.ts';

const OFFICE: TabletPlace = { role: 'coordinator' };
const AISLE: TabletPlace = { role: 'aisle', stalls: [] };
const DOOR: TabletPlace = { role: 'door', arena: null, metres: 8 };

let hub: Hub;
let clients: Client[];

const open = async (more: Partial<HubOptions> = {}): Promise<void> => {
  hub = await openHub({
    open: true,
    port: 0,
    host: '127.0.0.1',
    folder: null,
    // The board's own day, so that no other is opened over it.
    clock: () => NOON,
    first: smallBoard(),
    log: () => {},
    ...more,
  });
};

const join_ = async (
  place: TabletPlace,
  device = 'tablet-1',
  since: { journal: string; seq: number } | null = null,
): ReturnType<typeof Client.join> => {
  const joined = await Client.join(hub.port, place, device, since);
  clients.push(joined.client);
  return joined;
};

const strange = async (): Promise<Client> => {
  const client = await Client.open(hub.port);
  clients.push(client);
  return client;
};

beforeEach(() => {
  clients = [];
});
afterEach(async () => {
  for (const client of clients) client.close();
  await hub.close();
});

const finish = (prep: string): OpFact => ({ kind: 'stagesFinished', prep, stages: ['feet'] });

/** The board a tablet ends with: what it was welcomed with, and every entry after that until `seq`. */
async function boardAt(seq: number, start: { board: Board; seq: number }, client: Client): Promise<Board> {
  let { board, seq: at } = start;
  while (at < seq) {
    for (const entry of (await client.next('entries')).entries) {
      expect(entry.seq).toBe(at + 1);
      board = evolve(board, entry);
      at = entry.seq;
    }
  }
  return board;
}

describe('tablets', () => {
  test('all see the same board in the same order, and a late one gets it whole', async () => {
    await open();
    const tablets = await Promise.all(
      [AISLE, AISLE, DOOR, OFFICE].map((place, i) => join_(place, `tablet-${i}`)),
    );
    const ops = 25;
    for (let i = 0; i < ops; i += 1) {
      for (const [t, { client }] of tablets.entries()) {
        client.tap(
          op(
            `t${t}-${i}`,
            t === 2 ? { kind: 'horsePulled', horse: 'moss', why: `${i}`, hold: 'today' } : finish('fern.1'),
            'ada',
            NOON - i,
          ),
        );
      }
    }
    const seq = ops * tablets.length;
    const boards = await Promise.all(
      tablets.map(({ client, welcome }) => boardAt(seq, { board: welcome.board!, seq: welcome.seq }, client)),
    );
    const roles = ['aisle', 'aisle', 'door', 'coordinator'] as const;
    const whole = boards[3]!;
    for (const [i, board] of boards.entries()) expect(board).toEqual(redactBoard(whole, roles[i]!));
    for (const place of [AISLE, DOOR, OFFICE]) {
      const { welcome } = await join_(place, 'late');
      expect(welcome.seq).toBe(seq);
      expect(welcome.board).toEqual(redactBoard(whole, place.role));
    }
  });

  test('that come back get only what they missed, and end with the same board', async () => {
    await open();
    const office = await join_(OFFICE);
    const away = await join_(AISLE, 'tablet-2');
    await office.client.tapped(op('a', finish('fern.1'), 'ada'));
    const before = await boardAt(1, { board: away.welcome.board!, seq: 0 }, away.client);
    away.client.close();
    await office.client.tapped(op('b', finish('moss.1'), 'ben'));
    await office.client.tapped(
      op('c', { kind: 'horsePulled', horse: 'moss', why: 'shoe', hold: 'farrier' }, 'ines'),
    );
    const back = await join_(AISLE, 'tablet-2', { journal: away.welcome.journal, seq: 1 });
    expect(back.welcome).toMatchObject({ board: null, seq: 3 });
    expect(back.welcome.entries.map((entry) => entry.id)).toEqual(['b', 'c']);
    const { welcome: fresh } = await join_(AISLE, 'tablet-3');
    expect(back.welcome.entries.reduce(evolve, before)).toEqual(fresh.board);
  });

  test('are answered the same when they repeat an op, and the board does not change', async () => {
    await open();
    const { client } = await join_(OFFICE);
    const first = await client.tapped(
      op('a', { kind: 'horsePulled', horse: 'fern', why: 'heat', hold: 'vet' }, 'ines'),
    );
    const again = await client.tapped(
      op('a', { kind: 'horseReleased', horse: 'fern', word: 'fine' }, 'ines'),
    );
    expect(again).toEqual(first);
    const refused = await client.tapped(op('b', finish('nothing.1'), 'ada'));
    expect(refused.why).toEqual({ code: 'unknownPrep' });
    expect(await client.tapped(op('b', finish('nothing.1'), 'ada'))).toEqual(refused);
    const { welcome } = await join_(OFFICE);
    expect(welcome.seq).toBe(2);
    expect(welcome.board?.barn.horses['fern']?.holds).toHaveLength(1);
  });

  test('of another version are told so and shown out', async () => {
    await open();
    const client = await strange();
    client.raw(JSON.stringify({ say: 'hello', protocol: PROTOCOL + 1, anything: 'else' }));
    expect(await client.next('refused')).toEqual({ say: 'refused', code: 'otherVersion' });
    expect(await client.closed()).toBe(1008);
  });

  test('get a forecast soon after each change', async () => {
    await open();
    const { client } = await join_(AISLE);
    await client.next('forecast');
    client.tap(op('a', finish('fern.1'), 'ada'));
    for (;;) {
      const { forecast } = await client.next('forecast');
      expect(forecast.hands).toEqual({});
      if (forecast.preps['fern.1']?.pieces.every((piece) => piece.stage !== 'feet')) break;
    }
  });

  test('that stop reading are cut off, the others are served on, and they can come back', async () => {
    await open();
    const deaf = await join_(OFFICE, 'deaf');
    const { client } = await join_(OFFICE, 'busy');
    deaf.client.pause();
    // The same record again and again: the frames are long, the board stays as it is.
    const fern = { ...smallBoard().barn.horses['fern']!, notes: 'x'.repeat(400) };
    let sent = 0;
    let gone = false;
    while (!gone) {
      const ops = Array.from({ length: 100 }, (_, i) =>
        op(`s${sent}-${i}`, { kind: 'recordSaved', saved: { table: 'horses', record: fern } }),
      );
      client.tap(...ops);
      await client.next('answered');
      sent += 1;
      const health = (await (await fetch(`http://127.0.0.1:${hub.port}/health`)).json()) as {
        connections: { coordinator: number };
      };
      gone = health.connections.coordinator === 1;
      // 100 kB in each round; kernel buffers take a few MB before the hub's own limit counts.
      expect(sent).toBeLessThan(400);
    }
    deaf.client.resume();
    expect(await deaf.client.closed()).toBe(1006);
    const back = await join_(OFFICE, 'deaf');
    expect(back.welcome.seq).toBe(sent * 100);
    expect(back.welcome.board?.barn.horses['fern']).toEqual(fern);
  });
});

test('a board far larger than a slow reader is allowed comes through all the same', async () => {
  const board = smallBoard();
  const horse = { ...board.barn.horses['fern']!, notes: 'x'.repeat(400), holds: [] };
  const many = Array.from({ length: 5000 }, (_, i) => ({ ...horse, id: `h${i}` }));
  const horses = { ...board.barn.horses, ...Object.fromEntries(many.map((one) => [one.id, one])) };
  await open({ first: { ...board, barn: { ...board.barn, horses } } });
  const { client, welcome } = await join_(OFFICE);
  expect(client.frames[0]!.length).toBeGreaterThan(2 * UNREAD_BYTES);
  expect(Object.keys(welcome.board?.barn.horses ?? {})).toHaveLength(5003);
  await client.next('forecast');
});

test('a horse pulled often is pulled, and the board can still be read', async () => {
  await open();
  const { client } = await join_(OFFICE);
  for (let i = 0; i < 30; i += 1) {
    await client.tapped(
      op(`p${i}`, { kind: 'horsePulled', horse: 'fern', why: `${i}`, hold: 'vet' }, 'ines'),
    );
  }
  const { welcome } = await join_(AISLE, 'tablet-2');
  expect(welcome.board?.barn.horses['fern']?.holds).toHaveLength(30);
});

describe('what a place may not know', () => {
  const RIDER = {
    callName: 'Zephyrine',
    fullName: 'Zephyrine Quill',
    needs: 'left-side-weakness',
    kg: 61.375,
  };

  test('reaches no aisle or door socket, in no frame', async () => {
    await open();
    const outside = [await join_(AISLE, 'tablet-a'), await join_(DOOR, 'tablet-d')];
    const { client } = await join_(OFFICE);
    const rider = {
      id: 'zq',
      callName: RIDER.callName,
      private: {
        fullName: RIDER.fullName,
        weightKg: RIDER.kg,
        balanced: false,
        needs: RIDER.needs,
        approvedHorses: ['fern'],
        notWithHorses: [],
      },
    };
    const ada = { ...smallBoard().barn.volunteers['ada']!, private: { pace: 1.4375, usualHours: [] } };
    await client.tapped(op('a', { kind: 'recordSaved', saved: { table: 'riders', record: rider } }));
    await client.tapped(op('b', { kind: 'recordSaved', saved: { table: 'volunteers', record: ada } }));
    await client.tapped(op('c', finish('fern.1'), 'ada'));
    await client.tapped(op('d', { kind: 'recordRetired', table: 'riders', id: 'zq' }));
    client.say({ say: 'whatIf', ask: 'q', facts: [{ kind: 'volunteerLeft', volunteer: 'ada' }] });
    await client.next('considered');
    outside.push(await join_(AISLE, 'tablet-b'), await join_(DOOR, 'tablet-e'));
    outside.push(await join_(AISLE, 'tablet-c', { journal: outside[0]!.welcome.journal, seq: 0 }));
    for (const one of outside) {
      await one.client.next('forecast');
      await one.client.settled();
    }
    // The coordinator's own frames have all of it, so that the words looked for are the right ones.
    const secrets = [
      RIDER.callName,
      RIDER.fullName,
      RIDER.needs,
      String(RIDER.kg),
      '1.4375',
      'Robin',
      '48.5',
      // A horse's weight, the coordinator's too.
      '512.25',
    ];
    const { client: office } = await join_(OFFICE, 'tablet-o');
    await office.settled();
    const seen = [...client.frames, ...office.frames].join('\n');
    for (const secret of secrets) expect(seen).toContain(secret);
    for (const one of outside) {
      expect(one.client.frames.length).toBeGreaterThanOrEqual(3);
      for (const frame of one.client.frames) {
        for (const secret of secrets) expect(frame).not.toContain(secret);
        expect(frame).not.toContain('"private"');
        expect(frame).not.toContain('"riders":{"');
      }
    }
    // Their numbering has no gap all the same.
    const { welcome } = outside[4]!;
    expect(welcome.entries.map((entry) => entry.seq)).toEqual([1, 2, 3, 4]);
    expect(welcome.entries[0]?.facts).toEqual([]);
  });
});

describe('frames that are no messages', () => {
  test.each(MALFORMED)('%s is refused and changes nothing', async (_name, frame) => {
    await open();
    const witness = await join_(OFFICE, 'witness');
    const { client, welcome } = await join_(OFFICE);
    client.raw(frame);
    expect(await client.next('refused')).toMatchObject({ say: 'refused', code: 'malformed' });
    await client.settled();
    const { welcome: after } = await join_(OFFICE, 'after');
    expect(after.seq).toBe(welcome.seq);
    expect(after.board).toEqual(welcome.board);
    await witness.client.settled();
    expect(witness.client.taken('entries')).toEqual([]);
  });

  test('a stranger’s nonsense before hello is refused, and hello is still taken', async () => {
    await open();
    const client = await strange();
    client.raw('{');
    await client.next('refused');
    client.say({ say: 'hello', protocol: PROTOCOL, device: 'd', place: AISLE, since: null });
    expect((await client.next('welcome')).seq).toBe(0);
  });

  test('too large a frame, and one that is not UTF-8, end the connection with the standard’s code', async () => {
    // RFC 6455 §7.4.1: 1009 too big, 1007 not consistent with the type.
    await open();
    const { client: big } = await join_(OFFICE);
    big.raw(JSON.stringify({ say: 'ping', t1: 1, more: 'x'.repeat(TABLET_FRAME_BYTES) }));
    expect(await big.closed()).toBe(1009);
    const raw = new WebSocket(`ws://127.0.0.1:${hub.port}/live`);
    await new Promise((done) => raw.once('open', done));
    const code = new Promise<number>((done) => raw.once('close', done));
    raw.send(Buffer.from([0xc3, 0x28]), { binary: false });
    expect(await code).toBe(1007);
    const { welcome } = await join_(OFFICE);
    expect(welcome.seq).toBe(0);
  });
});

describe('over HTTP', () => {
  const get = async (path: string, init: RequestInit = {}): Promise<Response> =>
    fetch(`http://127.0.0.1:${hub.port}${path}`, init);

  test('health tells how the hub is and nothing personal', async () => {
    await open();
    const { client, welcome } = await join_(AISLE);
    await client.tapped(op('a', finish('fern.1'), 'ada'));
    await client.next('forecast');
    const response = await get('/health');
    const text = await response.text();
    expect(response.headers.get('cache-control')).toBe('no-store');
    expect(JSON.parse(text)).toEqual({
      status: 'ok',
      version: '0.1.0',
      journal: welcome.journal,
      seq: 1,
      uptimeS: 0,
      connections: { aisle: 1, door: 0, coordinator: 0, waiting: 0 },
      demo: false,
      forecastAgeMs: 0,
      readOnly: null,
      tornTail: null,
      clockJump: null,
      rssMb: expect.any(Number) as number,
    });
    for (const name of ['fern', 'ada', 'Robin', 'tablet-1']) expect(text).not.toContain(name);
  });

  test('pages come from the build: hashed files for good, screens fresh, missing files 404', async () => {
    const temp = await tempFolder();
    const kiosk = join(temp.path, 'build');
    await mkdir(join(kiosk, '_app/immutable'), { recursive: true });
    await writeFile(join(kiosk, 'index.html'), '<!doctype html><title>Board</title>');
    await writeFile(join(kiosk, '_app/immutable/a.1b2c.js'), 'export {};');
    await writeFile(join(kiosk, '_app/version.json'), '{"version":"b77"}');
    await writeFile(join(temp.path, 'secret.txt'), 'outside');
    await open({ kiosk });
    for (const path of ['/', '/door', '/records/horses']) {
      const page = await get(path);
      expect(page.status).toBe(200);
      expect(await page.text()).toContain('<title>Board</title>');
      expect(page.headers.get('cache-control')).toBe('no-cache');
    }
    const script = await get('/_app/immutable/a.1b2c.js');
    expect(script.headers.get('cache-control')).toContain('immutable');
    expect(script.headers.get('content-type')).toContain('javascript');
    expect((await get('/_app/version.json')).headers.get('cache-control')).toBe('no-cache');
    for (const path of [
      '/_app/immutable/gone.js',
      '/nothing.png',
      '/%2e%2e/secret.txt',
      '/..%2fsecret.txt',
    ]) {
      const missing = await get(path);
      expect(missing.status).toBe(404);
      expect(await missing.text()).not.toContain('outside');
    }
    expect((await get('/prep/bramble.1')).status).toBe(200);
    expect((await get('/', { headers: { Range: 'bytes=5-2' } })).status).toBe(200);
    const tag = script.headers.get('etag') ?? '';
    expect((await get('/_app/immutable/a.1b2c.js', { headers: { 'If-None-Match': tag } })).status).toBe(304);
    await writeFile(join(kiosk, '_app/immutable/a.1b2c.js'), 'changed');
    expect(await (await get('/_app/immutable/a.1b2c.js')).text()).toBe('export {};');
    expect((await get('/', { method: 'HEAD' })).status).toBe(200);
    for (const method of ['POST', 'PUT', 'DELETE']) expect((await get('/', { method })).status).toBe(405);
    expect((await join_(AISLE)).welcome.build).toBe('b77');
    await temp.remove();
  });

  test('without a build a page says how to make one', async () => {
    await open({ kiosk: '/nowhere' });
    const page = await get('/');
    expect(page.status).toBe(503);
    expect(await page.text()).toContain('npm start');
    expect((await join_(AISLE)).welcome.build).toBe('none');
  });

  test('a page of another site gets no socket, and there is one socket address only', async () => {
    await open();
    const upgrade = (path: string, headers: Record<string, string>): Promise<number> =>
      new Promise((done, fail) => {
        const ask = request({
          port: hub.port,
          host: '127.0.0.1',
          path,
          headers: {
            Connection: 'Upgrade',
            Upgrade: 'websocket',
            'Sec-WebSocket-Version': '13',
            'Sec-WebSocket-Key': 'dGhlIHNhbXBsZSBub25jZQ==',
            ...headers,
          },
        });
        ask.on('response', (response) => done(response.statusCode ?? 0));
        ask.on('upgrade', (response, socket) => {
          socket.destroy();
          done(response.statusCode ?? 0);
        });
        ask.on('error', fail);
        ask.end();
      });
    const own = `127.0.0.1:${hub.port}`;
    expect(await upgrade('/live', { Origin: 'http://elsewhere.example' })).toBe(403);
    expect(await upgrade('/live', { Origin: 'null' })).toBe(403);
    expect(await upgrade('/live', { Origin: `http://${own}` })).toBe(101);
    expect(await upgrade('/live', {})).toBe(101);
    expect(await upgrade('/other', {})).toBe(404);
  });

  test('half a request, or a line of noise, does not disturb it', async () => {
    await open();
    for (const noise of [
      'GET /live HTTP/1.1\r\nUpgrade: webs',
      '\u0016\u0003\u0001\u0000\r\n\r\n',
      'GET /%E0%A4%A HTTP/1.1\r\nHost: x\r\n\r\n',
    ]) {
      await new Promise<void>((done) => {
        const socket = connect(hub.port, '127.0.0.1', () => socket.write(noise, () => socket.end()));
        socket.on('close', () => done());
        socket.on('error', () => {});
        socket.resume();
      });
    }
    expect((await get('/health')).status).toBe(200);
  });
});

describe('a hub', () => {
  test('closes with a goodbye and gives its port back', async () => {
    await open();
    const { client } = await join_(AISLE);
    const { port } = hub;
    await hub.close();
    expect(await client.closed()).toBe(1001);
    await open({ port });
    expect((await join_(AISLE)).welcome.seq).toBe(0);
  });

  test('opens today by itself, but not in a demo', async () => {
    // 2026-05-12 00:30 in the barn's zone, half an hour into the day after the board's.
    const nextDay = NOON + 11.5 * 3_600_000;
    await open({ clock: () => nextDay });
    const { welcome } = await join_(OFFICE);
    expect(welcome.board?.day.date).toBe('2026-05-12');
    expect(welcome.seq).toBe(1);
    await hub.close();
    await open({ clock: () => nextDay, demo: true });
    expect((await join_(OFFICE)).welcome).toMatchObject({
      seq: 0,
      demo: true,
      board: { day: { date: '2026-05-11' } },
    });
  });
});
