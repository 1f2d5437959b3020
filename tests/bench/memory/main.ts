/**
 * Memory of a hub with many tablets under a steady rate of taps.
 *
 *     node tests/bench/run.ts memory [--tablets 200] [--rate 200] [--seconds 20]
 *
 * The hub is a process of its own, bundled as `npm start` runs it, on the scene of the sync bench: journal, snapshots, forecast
 * thread and all. `rss` is the whole process, threads with it; `main heap` what its own thread holds after a collection it
 * chose itself.
 */
import { fork } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { WebSocket } from 'ws';
import type { TabletPlace } from '#core/day/places.ts';
import { PROTOCOL } from '#core/wire/protocol.ts';
import { bundle } from '../../../hub/bundle.ts';
import { NODE_ENV, NODE_FLAGS } from '../../../hub/start.mjs';
import { change } from '../sync/scene.ts';

export type Memory = { readonly rssMb: number; readonly heapMb: number; readonly externalMb: number };

export async function main(args: string[]): Promise<number> {
  const { values } = parseArgs({
    args,
    options: {
      tablets: { type: 'string', default: '200' },
      rate: { type: 'string', default: '200' },
      seconds: { type: 'string', default: '20' },
    },
  });
  const [tablets, rate, seconds] = [values.tablets, values.rate, values.seconds].map(Number) as [
    number,
    number,
    number,
  ];
  const folder = mkdtempSync(join(tmpdir(), 'aisle-board-bench-'));
  const built = fileURLToPath(new URL('build', import.meta.url));
  await bundle(fileURLToPath(new URL('server.ts', import.meta.url)), built);
  const child = fork(join(built, 'run.js'), [join(folder, 'barn')], {
    stdio: 'inherit',
    execArgv: NODE_FLAGS,
    env: { ...process.env, ...NODE_ENV },
  });
  const message = <T>(): Promise<T> =>
    new Promise((done, fail) => {
      child.once('message', (value) => done(value as T));
      child.once('exit', (code) => fail(new Error(`the hub ended with ${code}`)));
    });
  const memory = async (what: string): Promise<void> => {
    const answer = message<Memory>();
    child.send('memory');
    const { rssMb, heapMb, externalMb } = await answer;
    console.log(
      `${what.padEnd(34)} rss ${rssMb.toFixed(0)} MB, main heap ${heapMb.toFixed(0)} MB, buffers ${externalMb.toFixed(0)} MB`,
    );
  };
  const sockets: WebSocket[] = [];
  try {
    const { port } = await message<{ port: number }>();
    await pause(3000);
    await memory('started, nobody there');
    for (let i = 0; i < tablets; i += 1) sockets.push(await joined(port, i));
    await pause(3000);
    await memory(`${tablets} tablets, nothing tapped`);
    let answered = 0;
    for (const socket of sockets) {
      socket.on('message', (data: Buffer) => {
        // Looked at no closer: the machine's time is the hub's.
        if (data.subarray(0, 17).toString('latin1') === '{"say":"answered"') answered += 1;
      });
    }
    let sent = 0;
    const began = performance.now();
    while (performance.now() - began < seconds * 1000) {
      while (sent < ((performance.now() - began) / 1000) * rate) {
        sent += 1;
        sockets[sent % tablets]?.send(
          JSON.stringify({ say: 'taps', ops: [change(sent % tablets, sent).op] }),
        );
      }
      await pause(5);
    }
    while (answered < sent) await pause(20);
    const took = (performance.now() - began) / 1000;
    await memory(`${answered} taps in ${took.toFixed(1)} s`);
    await pause(3000);
    await memory('3 s later');
    return 0;
  } finally {
    for (const socket of sockets) socket.terminate();
    child.removeAllListeners('exit');
    child.disconnect();
    await new Promise((done) => child.once('exit', done));
    rmSync(folder, { recursive: true, force: true });
  }
}

/** One coordinator in fifty, one arena door in ten. */
function placeOf(i: number): TabletPlace {
  if (i % 50 === 0) return { role: 'coordinator' };
  return i % 10 === 1 ? { role: 'door', arena: null, metres: 8 } : { role: 'aisle', stalls: [] };
}

async function joined(port: number, i: number): Promise<WebSocket> {
  const socket = new WebSocket(`ws://127.0.0.1:${port}/live`, { perMessageDeflate: false });
  await new Promise((done, fail) => socket.once('open', done).once('error', fail));
  const hello = { say: 'hello', protocol: PROTOCOL, device: `t${i}`, place: placeOf(i), since: null };
  const welcomed = new Promise((done) => socket.once('message', done));
  socket.send(JSON.stringify(hello));
  await welcomed;
  return socket;
}

function pause(ms: number): Promise<void> {
  return new Promise((done) => setTimeout(done, ms));
}
