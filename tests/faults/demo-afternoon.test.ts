/** The demo on a real hub: real sockets, real files, a clock five hundred times as fast. */
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { Board } from '#core/day/board.ts';
import { HUB_DEVICE } from '#core/day/hubDevice.ts';
import type { Entry } from '#core/day/ops.ts';
import { wallTimeAt } from '#core/time/zone.ts';
import { DEMO_ZONE } from '../../demo/barn.ts';
import { demoBoard } from '../../demo/day.ts';
import { Demo, type DemoOptions } from '../../demo/main.ts';
import { LOST_SHOE } from '../../demo/script.ts';
import { StartError } from '../../hub/startError.ts';
import { connect, pair } from './pairing.ts';
import { Client, op } from './client.ts';
import { PATIENCE_MS } from '../patience.ts';

const DATE = '2026-05-12';
/** Slow enough that a busy computer's planner answers within the afternoon. */
const SPEED = 500;
const ROOT = fileURLToPath(new URL('../..', import.meta.url));

let data: string;
let demo: Demo;
const options = (): DemoOptions => ({
  port: 0,
  data,
  host: '127.0.0.1',
  speed: SPEED,
  seed: 1,
  date: DATE,
  log: () => {},
});

beforeAll(async () => {
  data = await mkdtemp(join(tmpdir(), 'aisle-board-demo-'));
  demo = await Demo.open(options());
});

afterAll(async () => {
  await demo.close();
  await rm(data, { recursive: true });
});

/** Entries as they come, until one of them is `last`. */
async function entriesUntil(client: Client, last: (entry: Entry) => boolean): Promise<Entry[]> {
  const all: Entry[] = [];
  while (!all.some(last)) all.push(...(await client.next('entries')).entries);
  return all;
}

const says = (kind: string) => (entry: Entry) => entry.facts.some((fact) => fact.kind === kind);

/** What of the riders and people only a coordinator may know, as it would stand in a frame. */
function secrets({ barn }: Board): string[] {
  const ofRiders = Object.values(barn.riders).flatMap((rider) => [
    `"${rider.callName}"`,
    ...(rider.private ? [rider.private.fullName, rider.private.needs] : []),
  ]);
  const ofHelmets = Object.values(barn.helmets).map(({ name }) => `"${name}"`);
  const fields = [
    '"private"',
    '"weightKg"',
    '"approvedHorses"',
    '"notWithHorses"',
    '"pace"',
    '"usualHours"',
    '"boughtOn"',
    '"knocked"',
    '"conditionScored"',
  ];
  return [...ofRiders, ...ofHelmets, ...fields].filter((text) => text.length > 2);
}

describe('the demo', () => {
  it('plays the afternoon, and no byte of what is private reaches aisle or arena door', async () => {
    const port = demo.hub.port;
    const aisle = await Client.join(port, { role: 'aisle', stalls: [] }, 'test-aisle');
    const door = await Client.join(port, { role: 'door', arena: null, metres: 8 }, 'test-door');
    const hand = await Client.join(port, { role: 'coordinator' }, 'test-hand');
    expect(aisle.welcome.demo).toBe(true);
    expect(aisle.welcome.clock.rate).toBe(SPEED);
    expect(aisle.welcome.board?.day.date).toBe(DATE);

    // Stand-ins are answered with riders' figures, to the coordinator alone.
    aisle.client.say({ say: 'askStandIns', ask: 'a1', about: { horse: LOST_SHOE.horse }, language: 'en' });
    expect((await aisle.client.next('refused')).code).toBe('notAllowedHere');
    door.client.say({ say: 'askStandIns', ask: 'd1', about: { horse: LOST_SHOE.horse }, language: 'en' });
    expect((await door.client.next('refused')).code).toBe('notAllowedHere');
    for (const horse of Object.keys(hand.welcome.board?.barn.horses ?? {}).slice(0, 2)) {
      hand.client.say({ say: 'askStandIns', ask: `h-${horse}`, about: { horse }, language: 'en' });
    }

    // A horse's condition decides who may ride it; the weather and a horse's signs are everybody's.
    hand.client.tap(
      op('score', { kind: 'conditionScored', horse: 'bramble', score: 6 }, 'c1'),
      op('weather', { kind: 'weatherRead', reading: { airF: 71, humidityPercent: 40, windMph: 4 } }, 'c1'),
      op('apart', { kind: 'horseIsolated', horse: 'clay', why: 'bald patch' }, 'c1'),
    );

    // Until somebody goes home: nearly the whole of it.
    const entries = await entriesUntil(aisle.client, says('volunteerLeft'));
    const kinds = new Set(entries.flatMap((entry) => entry.facts.map(({ kind }) => kind)));
    for (const kind of [
      'stagesFinished',
      'stageStarted',
      'placeCancelled',
      'findingSeen',
      'findingRead',
      'horsePulled',
      'standInsTaken',
      'lessonMoved',
    ]) {
      expect(kinds).toContain(kind);
    }
    // Stage taps come from the aisle's tablets, the pull from the door, the rest from the coordinator; the hub counts calls.
    const byDevice = Object.groupBy(
      entries.filter(({ device }) => device !== 'test-hand' && device !== HUB_DEVICE),
      ({ device }) => device,
    );
    expect(Object.keys(byDevice).sort()).toEqual([
      'aisle-far',
      'aisle-near',
      'coordinator-hand',
      'door-indoor',
    ]);

    for (let i = 0; i < 2; i += 1) await hand.client.next('standIns');
    await door.client.settled();
    await hand.client.settled();
    for (const { client } of [aisle, door]) expect(client.frames.join('')).toContain('bald patch');
    const health = await (await fetch(`http://127.0.0.1:${port}/health`)).text();
    const shown = [...aisle.client.frames, ...door.client.frames, health].join('\n');
    const answered = hand.client.frames.filter((frame) => frame.startsWith('{"say":"standIns"')).join('\n');
    expect(answered).toMatch(/Load [\d.]+ kg/);
    expect(shown).not.toMatch(/"standIns",|\d kg\b/);
    const known = secrets(demoBoard(DATE));
    expect(known.length).toBeGreaterThan(50);
    expect(known.filter((secret) => shown.includes(secret))).toEqual([]);
    // The same search finds them where they may be.
    const all = hand.client.frames.join('\n');
    expect(known.filter((secret) => !all.includes(secret))).toEqual([]);
    for (const { client } of [aisle, door, hand]) client.close();
  });

  it('begins anew when the afternoon is over', async () => {
    const { client, welcome } = await Client.join(demo.hub.port, { role: 'coordinator' }, 'test-hand');
    const port = demo.hub.port;
    // Without lessons there is nothing left to come.
    client.tap(
      ...Object.keys(welcome.board?.day.lessons ?? {}).map((lesson) =>
        op(`cancel-${lesson}`, { kind: 'lessonCancelled', lesson }, 'c1'),
      ),
    );
    await client.closed();
    const again = await rejoin(port);
    expect(again.welcome.journal).not.toBe(welcome.journal);
    expect(again.welcome.demo).toBe(true);
    const lessons = Object.values(again.welcome.board?.day.lessons ?? {});
    expect(lessons.filter(({ cancelled }) => cancelled)).toEqual([]);
    const { barn } = again.welcome.clock;
    expect(wallTimeAt(barn, DEMO_ZONE)).toEqual({ date: DATE, time: '13:10' });
    again.client.close();
  });

  it('gives way to a real, empty barn on the same port when the coordinator starts one', async () => {
    const { port } = demo.hub;
    const aisle = await Client.join(port, { role: 'aisle', stalls: [] }, 'test-aisle');
    aisle.client.say({ say: 'startBarn', name: 'Not for the aisle', zone: 'Europe/Oslo' });
    expect((await aisle.client.next('refused')).code).toBe('notAllowedHere');

    const { client } = await Client.join(port, { role: 'coordinator' }, 'test-hand');
    client.say({ say: 'startBarn', name: 'Our own barn', zone: 'Europe/Oslo', code: '314159' });
    client.say({ say: 'startBarn', name: 'Second thoughts', zone: 'Europe/Oslo' });
    await client.closed();
    // The demo let everybody in; the barn takes whoever began it, by the code that came with it.
    const cookie = await vi.waitFor(() => pair(port, '314159'), { timeout: PATIENCE_MS });
    await expect(Client.join(port, { role: 'coordinator' })).rejects.toThrow('1008');
    const real = await connect(port, cookie);
    expect(real.welcome.demo).toBe(false);
    expect(real.welcome.clock.rate).toBe(1);
    const board = real.welcome.board;
    expect([board?.barn.name, board?.barn.zone]).toEqual(['Our own barn', 'Europe/Oslo']);
    expect([board?.barn.horses, board?.barn.riders, board?.day.lessons]).toEqual([{}, {}, {}]);
    // This file tells the next start that there is a real barn.
    expect(existsSync(join(data, 'barn', 'snapshot.json'))).toBe(true);
    // Nobody of the demo taps on it.
    expect(await connections(port)).toEqual({ aisle: 1, door: 0, coordinator: 0, waiting: 0 });
    real.client.close();
  });
});

describe('the demo’s folder', () => {
  it('is emptied at the start, and never when it is somebody else’s or in use', async () => {
    const other = await mkdtemp(join(tmpdir(), 'aisle-board-demo-'));
    const folder = join(other, 'demo');
    await mkdir(folder);
    await writeFile(join(folder, 'letters.txt'), 'dear to somebody');
    await expect(Demo.open({ ...options(), data: other })).rejects.toThrow(StartError);
    expect(await readdir(folder)).toEqual(['letters.txt']);

    await rm(join(folder, 'letters.txt'));
    const first = await Demo.open({ ...options(), data: other, speed: 1 });
    await expect(Demo.open({ ...options(), data: other })).rejects.toThrow(StartError);
    await writeFile(join(folder, 'left-over'), 'of the last time');
    await first.close();
    const second = await Demo.open({ ...options(), data: other, speed: 1 });
    expect(await readdir(folder)).not.toContain('left-over');
    await second.close();
    await rm(other, { recursive: true });
  });
});

describe('the demo as a program', () => {
  it.each(['SIGTERM', 'SIGINT'] as const)('ends cleanly on %s', async (signal) => {
    const home = await mkdtemp(join(tmpdir(), 'aisle-board-demo-'));
    const args = ['demo/main.ts', '--port', '0', '--data', home, '--host', '127.0.0.1', '--date', DATE];
    const child = spawn(process.execPath, args, { cwd: ROOT, stdio: ['ignore', 'pipe', 'pipe'] });
    const exit = new Promise((done) => child.once('exit', (code, by) => done({ code, by })));
    let said = '';
    child.stderr.on('data', (text: Buffer) => (said += text.toString()));
    const port = await new Promise<number>((done, fail) => {
      child.stdout.on('data', (text: Buffer) => {
        said += text.toString();
        const found = /localhost:(\d+)/.exec(said);
        if (found) done(Number(found[1]));
      });
      child.once('exit', () => fail(new Error(said)));
    });
    const { client } = await Client.join(port, { role: 'aisle', stalls: [] });
    child.kill(signal);
    // A second signal, as when a terminal and a parent process both send one.
    child.kill(signal);
    // RFC 6455 §7.4.1: 1001, going away.
    expect(await client.closed()).toBe(1001);
    expect(await exit).toEqual({ code: 0, by: null });
    expect(said).toContain('Quillfen Barn');
    await rm(home, { recursive: true });
  });
});

/** Joins once the next hub stands on the port; the last one may just be going. */
async function rejoin(port: number) {
  const until = performance.now() + PATIENCE_MS;
  for (;;) {
    try {
      return await Client.join(port, { role: 'coordinator' }, 'test-hand');
    } catch (error) {
      if (performance.now() > until) throw error;
      await new Promise((done) => setTimeout(done, 20));
    }
  }
}

async function connections(port: number): Promise<unknown> {
  const health = (await (await fetch(`http://127.0.0.1:${port}/health`)).json()) as { connections: unknown };
  return health.connections;
}
