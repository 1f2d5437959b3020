/**
 * A long run: the demo barn's afternoons, one after the other, sped up, with tablets on the wall and one real page. How memory
 * of hub and page goes on growing once they have warmed up, in kB an hour of the barn.
 *
 *     npm run bench -- soak [--hours 12] [--speed 60] [--tablets 20] [--json]
 *
 * The hub's process is the demo's, its simulated people with it. Its resident memory is read from /metrics, the page's heap
 * after a collection. The first quarter is warming up and not counted.
 */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { WebSocket } from 'ws';
import type { TabletPlace } from '#core/day/places.ts';
import { PROTOCOL } from '#core/wire/protocol.ts';
import { NODE_ENV, NODE_FLAGS } from '../../../hub/start.mjs';
import { hang, HUB_NAME, launch } from '../../screens/browser.ts';
import { slope, type Point } from '../slope.ts';

const DEMO = fileURLToPath(new URL('../../../demo/main.ts', import.meta.url));
const HOUR_S = 3600;
const WARMING = 0.25;
const SAMPLES = 60;

/** Twice a second. */
const AWAY_TRIES = 40;

export async function main(args: string[]): Promise<number> {
  const { values } = parseArgs({
    args,
    options: {
      hours: { type: 'string', default: '12' },
      speed: { type: 'string', default: '60' },
      tablets: { type: 'string', default: '20' },
      json: { type: 'boolean', default: false },
    },
  });
  const [hours, speed, tablets] = [values.hours, values.speed, values.tablets].map(Number);
  const figures = await soak(hours!, speed!, tablets!);
  console.log(JSON.stringify(figures, null, values.json ? 0 : 2));
  return 0;
}

async function soak(hours: number, speed: number, tablets: number) {
  const data = mkdtempSync(join(tmpdir(), 'aisle-board-soak-'));
  const child = spawn(
    process.execPath,
    [...NODE_FLAGS, DEMO, '--port', '0', '--data', data, '--name', HUB_NAME, '--demo-speed', String(speed)],
    { stdio: ['ignore', 'pipe', 'inherit'], env: { ...process.env, ...NODE_ENV } },
  );
  const port = await new Promise<number>((done, fail) => {
    let said = '';
    child.stdout.on('data', (text: Buffer) => {
      const found = /localhost:(\d+)/.exec((said += text.toString()))?.[1];
      if (found) done(Number(found));
    });
    child.once('exit', (code) => fail(new Error(`the demo ended with ${code}`)));
  });
  const walls = Array.from({ length: tablets }, (_, i) => hung(port, i));
  const browser = await launch();
  const hub: Point[] = [];
  const heap: Point[] = [];
  try {
    const { page } = await hang(browser, `http://${HUB_NAME}:${port}`, { role: 'aisle', stalls: [] });
    await page.locator('[data-horse]').first().waitFor({ timeout: 60_000 });
    const cdp = await page.context().newCDPSession(page);
    const everyMs = ((hours * HOUR_S) / speed / SAMPLES) * 1000;
    for (let i = 1; i <= SAMPLES; i += 1) {
      await new Promise((done) => setTimeout(done, everyMs));
      const at = (hours * i) / SAMPLES;
      hub.push({ at, kb: await residentKb(port) });
      await cdp.send('HeapProfiler.collectGarbage');
      heap.push({ at, kb: (await cdp.send('Runtime.getHeapUsage')).usedSize / 1000 });
    }
    const counted = (points: Point[]): Point[] => points.filter(({ at }) => at >= hours * WARMING);
    return {
      barnHours: hours,
      speed,
      tablets,
      messagesHeard: walls.reduce((sum, wall) => sum + wall.heard, 0),
      connectionsMade: walls.reduce((sum, wall) => sum + wall.dials, 0),
      hubMb: { first: mb(hub[0]), last: mb(hub.at(-1)) },
      hubKbPerHour: Math.round(slope(counted(hub))),
      pageMb: { first: mb(heap[0]), last: mb(heap.at(-1)) },
      pageKbPerHour: Math.round(slope(counted(heap))),
    };
  } finally {
    for (const wall of walls) wall.stop();
    await browser.close();
    child.removeAllListeners('exit');
    child.kill();
    await new Promise((done) => child.once('exit', done));
    rmSync(data, { recursive: true, force: true });
  }
}

const mb = (point: Point | undefined): number => Math.round((point?.kb ?? 0) / 100) / 10;

/** Between two afternoons the demo's hub is away for a moment. */
async function residentKb(port: number): Promise<number> {
  const text = await metrics(port, AWAY_TRIES);
  return Number(/^process_resident_memory_bytes (\S+)/m.exec(text)?.[1]) / 1000;
}

async function metrics(port: number, tries: number): Promise<string> {
  try {
    return await (await fetch(`http://127.0.0.1:${port}/metrics`)).text();
  } catch (error) {
    if (tries <= 1) throw error;
    await new Promise((done) => setTimeout(done, 500));
    return metrics(port, tries - 1);
  }
}

/** A tablet that listens, and comes back when the demo begins its afternoon anew. */
function hung(port: number, i: number): { heard: number; dials: number; stop: () => void } {
  const place: TabletPlace =
    i % 10 === 0
      ? { role: 'coordinator' }
      : i % 5 === 1
        ? { role: 'door', arena: null, metres: 8 }
        : { role: 'aisle', stalls: [] };
  let socket: WebSocket;
  let stopped = false;
  const wall = {
    heard: 0,
    dials: 0,
    stop: () => {
      stopped = true;
      socket.terminate();
    },
  };
  const dial = (): void => {
    wall.dials += 1;
    socket = new WebSocket(`ws://127.0.0.1:${port}/live`);
    socket.on('open', () =>
      socket.send(
        JSON.stringify({ say: 'hello', protocol: PROTOCOL, device: `wall-${i}`, place, since: null }),
      ),
    );
    socket.on('message', () => (wall.heard += 1));
    socket.on('error', () => {});
    socket.on('close', () => void (stopped || setTimeout(dial, 1000)));
  };
  dial();
  return wall;
}
