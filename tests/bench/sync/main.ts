/**
 * How fast a tap gets round: hub against the least that could be done with the same sockets, interleaved, on one machine.
 *
 *     node tests/bench/run.ts sync [--json] [--seconds 3] [--rounds 3] [--tablets 20] [--rate 200]
 *
 * Tablets live in this one process, so its own work for 20 of them is in every figure; they apply entries as a tablet does
 * but leave out its schema check.
 */
import { fork } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { Tablet, type Kind } from './tablet.ts';

const NAMES: Record<Kind, string> = {
  hub: 'hub (journal, forecast)',
  raw: 'broadcast, no disk',
  rawDisk: 'broadcast after append + fdatasync',
};

/** Changes a tablet keeps on their way when the server is to be saturated. */
const ON_THEIR_WAY = 10;

/** Changes made before the late joiner comes, over and above those of the measuring. */
const BEFORE_JOINING = 3000;

const JOINS = 20;

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
    },
  });
  const [seconds, rounds, tablets, rate] = [values.seconds, values.rounds, values.tablets, values.rate].map(
    Number,
  ) as [number, number, number, number];
  const folder = mkdtempSync(join(tmpdir(), 'aisle-board-bench-'));
  const running: Running[] = [];
  try {
    for (const kind of ['hub', 'raw', 'rawDisk'] as const) running.push(await start(kind, folder, tablets));
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
  const child = fork(script, [kind, join(folder, kind === 'hub' ? 'hub' : '')], { stdio: 'inherit' });
  const message = <T>(): Promise<T> =>
    new Promise((done, fail) => {
      child.once('message', (value) => done(value as T));
      child.once('exit', (code) => fail(new Error(`${kind} ended with ${code}`)));
    });
  const { port } = await message<{ port: number }>();
  const tablets: Tablet[] = [];
  for (let i = 0; i < count; i += 1) tablets.push((await Tablet.join(kind, port, `tablet${i}`)).tablet);
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

let nextId = 0;

/** Changes at a steady rate, each by another tablet; the delay runs from when it was due to the last other tablet's applying. */
async function atRate({ tablets }: Running, rate: number, seconds: number, into: Samples): Promise<void> {
  const due = new Map<string, { at: number; left: number; by: Tablet }>();
  const before = bytesOf(tablets);
  let finished = Promise.withResolvers<void>();
  for (const tablet of tablets) {
    tablet.applied = (id) => {
      const one = due.get(id);
      if (!one || one.by === tablet || --one.left > 0) return;
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
    const id = `r${(nextId += 1)}`;
    const by = tablets[n % tablets.length]!;
    due.set(id, { at, left: tablets.length - 1, by });
    by.send(n, id);
    n += 1;
  }
  if (due.size > 0) await finished.promise;
  finished = Promise.withResolvers<void>();
  const after = bytesOf(tablets);
  into.changes += total;
  into.bytes += (after.changes - before.changes) / tablets.length;
  into.forecastBytes += (after.forecasts - before.forecasts) / tablets.length;
  into.seconds += (performance.now() - began) / 1000;
}

/** Every tablet keeps some changes on their way; counted when its own change has come back to it. */
async function saturated({ tablets }: Running, seconds: number, into: Samples): Promise<void> {
  let count = 0;
  let open = 0;
  let ending = false;
  const finished = Promise.withResolvers<void>();
  const mine = new Map<string, Tablet>();
  const fire = (tablet: Tablet): void => {
    const id = `s${(nextId += 1)}`;
    mine.set(id, tablet);
    open += 1;
    tablet.send(nextId, id);
  };
  for (const tablet of tablets) {
    tablet.applied = (id) => {
      if (mine.get(id) !== tablet) return;
      mine.delete(id);
      open -= 1;
      if (!ending) {
        count += 1;
        fire(tablet);
      } else if (open === 0) finished.resolve();
    };
  }
  const began = performance.now();
  for (const tablet of tablets) for (let i = 0; i < ON_THEIR_WAY; i += 1) fire(tablet);
  await new Promise((turn) => setTimeout(turn, seconds * 1000));
  into.perSecond.push(count / ((performance.now() - began) / 1000));
  ending = true;
  await finished.promise;
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
  await burst(tablets[0]!, BEFORE_JOINING);
  const joins = [];
  for (let i = 0; i < JOINS; i += 1) {
    const { tablet, ms, bytes } = await Tablet.join(kind, port, `late${i}`);
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

async function burst(tablet: Tablet, changes: number): Promise<void> {
  const finished = Promise.withResolvers<void>();
  let left = changes;
  tablet.applied = () => {
    left -= 1;
    if (left === 0) finished.resolve();
  };
  for (let n = 0; n < changes; n += 1) tablet.send(n, `b${(nextId += 1)}`);
  await finished.promise;
}

function report(systems: readonly Figures[], json: boolean): void {
  const [hub, , disk] = systems;
  const ratio = (pick: (one: Figures) => number): number => round(pick(hub!) / pick(disk!));
  const ratios = {
    'hub p50 / append + fdatasync p50': ratio((one) => one.p50Ms),
    'hub p99 / append + fdatasync p99': ratio((one) => one.p99Ms),
    'hub changes per s / append + fdatasync changes per s': ratio((one) => one.opsPerS),
  };
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
