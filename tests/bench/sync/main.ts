/**
 * How fast a tap gets round: the hub against the least that could be done with the same sockets, and against general-purpose
 * sync libraries; the same work for all, in turns, on one machine.
 *
 *     node tests/bench/run.ts sync [--json] [--seconds 3] [--rounds 3] [--tablets 20] [--rate 200] [--only hub,rawDisk]
 *
 * Tablets live in this one process, so its own work for 20 of them is in every figure; the hub's apply entries as a tablet
 * does but leave out its schema check. Only the hub and `append + fdatasync` wait for the disk before they tell anybody. The
 * hub's forecasts, and what goes with them, are no part of syncing: their bytes are counted apart, their work is in its times.
 */
import { fork } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join as joinPath } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { NODE_ENV, NODE_FLAGS } from '../../../hub/start.mjs';
import { installPeers, PEER_NAMES, PEERS } from './peers.ts';
import { change } from './scene.ts';
import type { Tablet } from './change.ts';
import { join, OURS, type Kind } from './tablet.ts';

const NAMES: Record<Kind, string> = {
  hub: 'hub (journal, forecast)',
  raw: 'broadcast, no disk',
  rawDisk: 'broadcast after append + fdatasync',
  ...PEER_NAMES,
};

/** Changes a tablet keeps on their way when the server is to be saturated. */
const ON_THEIR_WAY = 10;

/** Changes made before the late joiner comes, over and above those of the measuring. */
const BEFORE_JOINING = 10_000;

const JOINS = 20;

/** Tablets that join late have numbers of their own. */
const LATE = 1000;

type Running = {
  kind: Kind;
  port: number;
  rssMb: () => Promise<number>;
  stop: () => Promise<void>;
  tablets: Tablet[];
};
type Samples = {
  delays: number[];
  perSecond: number[];
  changes: number;
  bytes: number;
  forecastBytes: number;
  seconds: number;
};

export async function main(args: string[]): Promise<number> {
  const { values } = parseArgs({
    args,
    options: {
      json: { type: 'boolean', default: false },
      seconds: { type: 'string', default: '3' },
      rounds: { type: 'string', default: '3' },
      tablets: { type: 'string', default: '20' },
      rate: { type: 'string', default: '200' },
      only: { type: 'string', default: '' },
    },
  });
  const [seconds, rounds, tablets, rate] = [values.seconds, values.rounds, values.tablets, values.rate].map(
    Number,
  ) as [number, number, number, number];
  const kinds = [...OURS, ...PEERS].filter(
    (kind) => values.only === '' || values.only.split(',').includes(kind),
  );
  if (PEERS.some((peer) => kinds.includes(peer))) installPeers();
  const folder = mkdtempSync(joinPath(tmpdir(), 'aisle-board-bench-'));
  const running: Running[] = [];
  try {
    process.setMaxListeners(200);
    for (const kind of kinds) running.push(await start(kind, folder, tablets));
    const samples = new Map<Kind, Samples>(
      running.map(({ kind }) => [
        kind,
        { delays: [], perSecond: [], changes: 0, bytes: 0, forecastBytes: 0, seconds: 0 },
      ]),
    );
    for (let round = 0; round < rounds; round += 1) {
      // Another order each round, so that no system always follows the same one.
      const order = running.map((_, i) => running[(i + round) % running.length]!);
      for (const one of order) await atRate(one, rate, seconds, samples.get(one.kind)!);
      for (const one of order) await saturated(one, seconds, samples.get(one.kind)!);
    }
    const systems = [];
    for (const one of running) systems.push(await figures(one, samples.get(one.kind)!));
    report(systems, values.json);
    return 0;
  } finally {
    for (const one of running) await one.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function start(kind: Kind, folder: string, count: number): Promise<Running> {
  const script = fileURLToPath(new URL('server.ts', import.meta.url));
  const child = fork(script, [kind, joinPath(folder, kind === 'hub' ? 'hub' : '')], {
    stdio: 'inherit',
    execArgv: NODE_FLAGS,
    env: { ...process.env, ...NODE_ENV },
  });
  const message = <T>(): Promise<T> =>
    new Promise((done, fail) => {
      child.once('message', (value) => done(value as T));
      child.once('exit', (code) => fail(new Error(`${kind} ended with ${code}`)));
    });
  const { port } = await message<{ port: number }>();
  const tablets: Tablet[] = [];
  for (let i = 0; i < count; i += 1) tablets.push((await join(kind, port, i)).tablet);
  return {
    kind,
    port,
    tablets,
    rssMb: async () => {
      const answer = message<{ rssMb: number }>();
      child.send('rss');
      return (await answer).rssMb;
    },
    stop: () =>
      new Promise((done) => {
        for (const tablet of tablets) tablet.close();
        child.removeAllListeners('exit').once('exit', () => done());
        child.disconnect();
      }),
  };
}

let nextChange = 0;

/** JSON of an op of the bench, as it stands alone, in bytes. */
const opBytes = JSON.stringify(change(0, BEFORE_JOINING).op).length;

/** Sends the next change of tablet `index`; its id. */
function fire(tablets: readonly Tablet[], index: number): string {
  const next = change(index, (nextChange += 1));
  tablets[index]?.send(next);
  return next.id;
}

/** Changes at a steady rate, each by another tablet; the delay runs from when it was due to the last other tablet's applying. */
async function atRate({ tablets }: Running, rate: number, seconds: number, into: Samples): Promise<void> {
  const due = new Map<string, { at: number; left: number }>();
  const before = bytesOf(tablets);
  const finished = Promise.withResolvers<void>();
  for (const tablet of tablets) {
    tablet.applied = (id) => {
      const one = due.get(id);
      if (!one || --one.left > 0) return;
      into.delays.push(performance.now() - one.at);
      due.delete(id);
      if (due.size === 0) finished.resolve();
    };
  }
  const began = performance.now();
  const total = rate * seconds;
  for (let n = 0; n < total;) {
    const at = began + (n / rate) * 1000;
    if (performance.now() < at) {
      await new Promise((turn) => setImmediate(turn));
      continue;
    }
    due.set(fire(tablets, n % tablets.length), { at, left: tablets.length - 1 });
    n += 1;
  }
  if (due.size > 0) await finished.promise;
  const after = bytesOf(tablets);
  into.changes += total;
  into.bytes += (after.changes - before.changes) / tablets.length;
  into.forecastBytes += (after.forecasts - before.forecasts) / tablets.length;
  into.seconds += (performance.now() - began) / 1000;
}

/** Keeps `window` changes of each of these tablets on their way, each until the next tablet has applied it. */
async function flood(
  tablets: readonly Tablet[],
  senders: readonly number[],
  window: number,
  isEnough: (done: number) => boolean,
): Promise<number> {
  const open = new Map<string, number>();
  const finished = Promise.withResolvers<void>();
  let done = 0;
  for (const [index, tablet] of tablets.entries()) {
    const before = (index + tablets.length - 1) % tablets.length;
    tablet.applied = (id) => {
      if (open.get(id) !== before) return;
      open.delete(id);
      done += 1;
      if (!isEnough(done)) open.set(fire(tablets, before), before);
      else if (open.size === 0) finished.resolve();
    };
  }
  for (const index of senders) for (let i = 0; i < window; i += 1) open.set(fire(tablets, index), index);
  await finished.promise;
  return done;
}

/** Every tablet keeps some changes on their way. */
async function saturated({ tablets }: Running, seconds: number, into: Samples): Promise<void> {
  const began = performance.now();
  const all = [...tablets.keys()];
  const count = await flood(tablets, all, ON_THEIR_WAY, () => performance.now() - began > seconds * 1000);
  into.perSecond.push(count / ((performance.now() - began) / 1000));
}

type Figures = {
  name: string;
  p50Ms: number;
  p99Ms: number;
  opsPerS: number;
  bytesPerChange: number;
  forecastBytesPerS: number;
  joinMs: number;
  joinBytes: number;
  rssMb: number;
};

async function figures(running: Running, samples: Samples): Promise<Figures> {
  const { kind, port, tablets } = running;
  await flood(tablets, [0], 100, (done) => done > BEFORE_JOINING - 100);
  for (const tablet of tablets) tablet.applied = () => {};
  const joins = [];
  for (let i = 0; i < JOINS; i += 1) {
    const { tablet, ms, bytes } = await join(kind, port, LATE + i);
    tablet.close();
    joins.push({ ms, bytes });
  }
  return {
    name: NAMES[kind],
    p50Ms: round(quantile(samples.delays, 0.5)),
    p99Ms: round(quantile(samples.delays, 0.99)),
    opsPerS: Math.round(quantile(samples.perSecond, 0.5)),
    bytesPerChange: Math.round(samples.bytes / samples.changes),
    forecastBytesPerS: Math.round(samples.forecastBytes / samples.seconds),
    joinMs: round(
      quantile(
        joins.map(({ ms }) => ms),
        0.5,
      ),
    ),
    joinBytes: Math.round(
      quantile(
        joins.map(({ bytes }) => bytes),
        0.5,
      ),
    ),
    rssMb: round(await running.rssMb()),
  };
}

function report(systems: readonly Figures[], json: boolean): void {
  const named = (kind: Kind): Figures | undefined => systems.find(({ name }) => name === NAMES[kind]);
  const hub = named('hub');
  const peers = PEERS.flatMap((peer) => named(peer) ?? []);
  const ratios: Record<string, number> = {};
  const compare = (
    what: string,
    key: keyof Omit<Figures, 'name'>,
    others: readonly (Figures | undefined)[],
    best: 'least' | 'most',
  ): void => {
    const figures = others.flatMap((one) => one?.[key] ?? []);
    if (hub && figures.length > 0)
      ratios[what] = round(hub[key] / (best === 'least' ? Math.min(...figures) : Math.max(...figures)));
  };
  compare('hub p50 / append + fdatasync p50', 'p50Ms', [named('rawDisk')], 'least');
  compare('hub p99 / append + fdatasync p99', 'p99Ms', [named('rawDisk')], 'least');
  compare('hub changes per s / append + fdatasync changes per s', 'opsPerS', [named('rawDisk')], 'most');
  compare('hub p50 / best peer p50', 'p50Ms', peers, 'least');
  compare('hub changes per s / best peer changes per s', 'opsPerS', peers, 'most');
  compare('hub bytes per change / broadcast bytes per change', 'bytesPerChange', [named('raw')], 'least');
  if (hub) ratios['hub bytes per change / JSON of the op'] = round(hub.bytesPerChange / opBytes);
  compare('hub bytes per change / best peer bytes per change', 'bytesPerChange', peers, 'least');
  if (json) console.log(JSON.stringify({ systems, ratios }));
  else {
    console.table(Object.fromEntries(systems.map(({ name, ...rest }) => [name, rest])));
    console.table(ratios);
  }
}

function bytesOf(tablets: readonly Tablet[]): { changes: number; forecasts: number } {
  return {
    changes: tablets.reduce((sum, { bytes }) => sum + bytes.changes, 0),
    forecasts: tablets.reduce((sum, { bytes }) => sum + bytes.forecasts, 0),
  };
}

function quantile(values: readonly number[], q: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? NaN;
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
