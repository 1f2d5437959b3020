/** What a hub notices by itself: a connection that is dead though nothing closed it, and a clock that is set. */
import { connect, type Socket } from 'node:net';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { WebSocket } from 'ws';
import type { TabletPlace } from '#core/day/places.ts';
import { PROTOCOL } from '#core/wire/protocol.ts';
import { openHub, type Hub, type HubOptions } from '../../hub/main.ts';
import { HEARTBEAT } from '../../hub/sockets.ts';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { Client, op } from './client.ts';

const OFFICE: TabletPlace = { role: 'coordinator' };

/** The hub's own heartbeat is run four times as fast: a machine that is busy for a second is still heard. */
const FASTER = 4;
const FAST = { pingEveryMs: HEARTBEAT.pingEveryMs / FASTER, silenceMs: HEARTBEAT.silenceMs / FASTER };

let hub: Hub | null;
let ends: (() => void)[];

const port = (): number => hub?.port ?? 0;

beforeEach(() => {
  ends = [];
  hub = null;
});
afterEach(async () => {
  for (const end of ends) end();
  await hub?.close();
});

const open = async (more: Partial<HubOptions> = {}): Promise<void> => {
  hub = await openHub({
    open: true,
    port: 0,
    host: '127.0.0.1',
    folder: null,
    first: smallBoard(),
    log: () => {},
    ...more,
  });
};

const join = async (): ReturnType<typeof Client.join> => {
  const joined = await Client.join(port(), OFFICE, `t${ends.length}`);
  ends.push(() => joined.client.close());
  return joined;
};

type Health = { connections: { aisle: number }; clockJump: unknown; seq: number };
const health = async (): Promise<Health> =>
  (await fetch(`http://127.0.0.1:${port()}/health`)).json() as Promise<Health>;

describe('a tablet that is gone without a word', () => {
  test('is let go within 10 s by the hub’s own heartbeat', () => {
    // Last heard right after one look, it is found at the first look after its silence.
    expect(HEARTBEAT.silenceMs + HEARTBEAT.pingEveryMs).toBeLessThanOrEqual(10_000);
    // And one lost answer to a ping ends nothing.
    expect(HEARTBEAT.silenceMs).toBeGreaterThan(2 * HEARTBEAT.pingEveryMs);
  });

  test('is let go while one that answers pings and says nothing else stays', async () => {
    await open({ clock: () => NOON, heartbeat: FAST });
    const hello = JSON.stringify({
      say: 'hello',
      protocol: PROTOCOL,
      device: 'gone',
      place: { role: 'aisle', stalls: [] },
      since: null,
    });
    // Takes everything in and gives no sign of life, as a radio that hears but is not heard.
    const gone = new WebSocket(`ws://127.0.0.1:${port()}/live`, { autoPong: false });
    ends.push(() => gone.terminate());
    await new Promise((done) => gone.once('open', done));
    gone.send(hello);
    const began = performance.now();
    const quiet = await join();
    const closed = new Promise<void>((done) => gone.once('close', () => done()));
    expect((await health()).connections.aisle).toBe(1);
    await closed;
    const took = performance.now() - began;
    expect(took).toBeGreaterThan(FAST.silenceMs * 0.8);
    // As many times faster than the 10 s, with as much again for a busy machine.
    expect(took).toBeLessThan((2 * 10_000) / FASTER);
    expect((await health()).connections.aisle).toBe(0);
    await new Promise((done) => setTimeout(done, 2 * FAST.silenceMs));
    expect(quiet.client.closeCode).toBeNull();
    await quiet.client.settled();
  });

  test('is let go when its cable is cut in the middle of a frame', async () => {
    await open({ clock: () => NOON, heartbeat: FAST });
    const half = await new Promise<Socket>((done) => {
      const socket = connect(port(), '127.0.0.1', () => {
        socket.write(
          'GET /live HTTP/1.1\r\nHost: localhost\r\nConnection: Upgrade\r\nUpgrade: websocket\r\n' +
            'Sec-WebSocket-Version: 13\r\nSec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n\r\n',
        );
        socket.once('data', () => done(socket));
      });
    });
    ends.push(() => half.destroy());
    // A frame that says it is 20 bytes long, and 3 of them (RFC 6455 §5.2).
    half.write(Buffer.from([0x81, 0x94, 1, 2, 3]));
    half.resume();
    await new Promise<void>((done) => half.once('close', () => done()));
    expect((await health()).connections).toMatchObject({ waiting: 0 });
  });
});

describe('a clock that is set', () => {
  test('is said on every board and by health, and time goes on from there', async () => {
    let set = 0;
    const zero = performance.now();
    const mono = (): number => performance.now() - zero;
    await open({ clocks: { wall: () => NOON + mono() + set, mono } });
    const { client } = await join();
    expect((await client.next('status')).clockJump).toBeNull();
    const before = await client.settled();
    expect(before.t3 - NOON).toBeLessThan(5000);
    // Two hours back, past what is on the board: entries must not go back with it.
    await client.tapped(op('a', { kind: 'volunteerArrived', volunteer: 'cho' }));
    set = -2 * 3_600_000;
    const { clockJump } = await client.next('status');
    expect(clockJump?.byMs).toBeGreaterThan(set - 100);
    expect(clockJump?.byMs).toBeLessThan(set + 100);
    expect((await health()).clockJump).toEqual(clockJump);
    const { t3 } = await client.settled();
    expect(Math.abs(t3 - (NOON + mono() + set))).toBeLessThan(1000);
    await client.tapped(op('b', { kind: 'volunteerLeft', volunteer: 'cho' }));
    const { client: other, welcome } = await join();
    expect((await other.next('status')).clockJump).toEqual(clockJump);
    expect(welcome.seq).toBe(2);
    const [first, second] = [await client.next('entries'), await client.next('entries')].map(
      ({ entries }) => entries[0]?.at ?? 0,
    );
    expect(second).toBeGreaterThanOrEqual(first!);
  });

  test('that was ahead at the start leaves a day that can be left: today is opened at the next start', async () => {
    await open({ clock: () => NOON + 11 * 365 * 86_400_000 });
    const { welcome } = await join();
    expect(welcome.board?.day.date).toBe('2037-05-08');
    await hub?.close();
    await open({ clock: () => NOON, first: welcome.board! });
    expect((await join()).welcome.board?.day.date).toBe('2026-05-11');
  });
});
