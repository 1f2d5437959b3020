/**
 * Ten thousand frames that are no messages, against a hub process: each is refused, none changes anything, and the hub's
 * memory stays where it was. Each frame is wrong by the way it is made; the hub's own schema is not asked.
 */
import { execFileSync } from 'node:child_process';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Op } from '#core/day/ops.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { PROTOCOL, TABLET_FRAME_BYTES } from '#core/wire/protocol.ts';
import { MOST_REFUSALS } from '../../hub/room.ts';
import { Client, op } from './client.ts';
import { HubProcess, tempFolder } from './hubProcess.ts';
import { MALFORMED } from './malformed.ts';
import { barnFacts } from './storm/taps.ts';

const OFFICE: TabletPlace = { role: 'coordinator' };
const FRAMES = 10_000;

/** Frames before the first look at the memory: by then everything has been loaded and compiled. */
const WARM_UP = 5000;

/** The hub may grow by this much over the other half. They are some 25 MB; what is left is the collector's own ease. */
const GROWTH_MB = 80;

/** What every tablet hears without having said anything but hello. */
const UNASKED = ['forecast', 'suggested', 'status'];

/** The hub's heap, in MB: small, so that what it kept would end it. */
const HEAP_MB = 160;

let hub: HubProcess;
let remove: () => Promise<void>;

beforeAll(async () => {
  const temp = await tempFolder();
  remove = temp.remove;
  process.env['NODE_OPTIONS'] = `--max-old-space-size=${HEAP_MB}`;
  hub = await HubProcess.start(temp.path);
  delete process.env['NODE_OPTIONS'];
});
afterAll(async () => {
  await hub.end('SIGKILL');
  await remove();
});

const NOW = Date.now();
const FINISHED = op('m1', { kind: 'stagesFinished', prep: 'h0.1', stages: ['feet'] }, 'v1', NOW);

/** Values of every type JSON has, each wrong in the place of any text with a pattern, and of any table or list. */
const junk: fc.Arbitrary<unknown> = fc.oneof(
  fc.constantFrom<unknown>(
    null,
    true,
    0,
    -0,
    1e308,
    -1,
    0.1,
    '',
    ' ',
    '__proto__ ',
    '\u0000',
    '\ud800',
    '\udfff\ud800',
    '../../x',
    [],
    [[]],
    {},
    { length: 1, 0: 'h0' },
    { toString: 'h0' },
  ),
  fc.string({ unit: 'binary', minLength: 33, maxLength: 60 }),
  fc.string({ maxLength: 10 }).map((text) => `/${text}`),
  fc.array(fc.constantFrom<unknown>(1, null, {}, []), { maxLength: 5 }).map((list) => [list]),
  fc.dictionary(fc.constantFrom('say', 'kind', 'constructor', 'hasOwnProperty'), fc.boolean()),
);

/** Required fields with a pattern or a list of words: nothing of `junk` fits in any of them. */
const messages: readonly ((wrong: unknown) => unknown)[] = [
  (wrong) => ({ say: wrong, ops: [FINISHED] }),
  (wrong) => ({ say: 'taps', ops: [{ ...FINISHED, id: wrong }] }),
  (wrong) => ({ say: 'taps', ops: [{ ...FINISHED, device: wrong }] }),
  (wrong) => ({ say: 'taps', ops: [{ ...FINISHED, tappedAt: wrong }] }),
  (wrong) => ({ say: 'taps', ops: [{ ...FINISHED, fact: wrong }] }),
  (wrong) => ({ say: 'taps', ops: [{ ...FINISHED, fact: { ...FINISHED.fact, kind: wrong } }] }),
  (wrong) => ({ say: 'taps', ops: [{ ...FINISHED, fact: { ...FINISHED.fact, prep: wrong } }] }),
  (wrong) => ({ say: 'taps', ops: [{ ...FINISHED, fact: { ...FINISHED.fact, stages: [wrong] } }] }),
  (wrong) => ({ say: 'taps', ops: [FINISHED, wrong] }),
  (wrong) => ({
    say: 'taps',
    ops: [{ ...FINISHED, fact: { kind: 'horsePulled', horse: 'h0', why: '', hold: wrong } }],
  }),
  (wrong) => ({
    say: 'taps',
    ops: [{ ...FINISHED, fact: { kind: 'recordSaved', saved: { table: wrong, record: {} } } }],
  }),
  (wrong) => ({ say: 'taps', ops: [{ ...FINISHED, fact: { kind: 'dayOpened', date: wrong } }] }),
  (wrong) => ({ say: 'whatIf', ask: wrong, facts: [FINISHED.fact] }),
  (wrong) => ({ say: 'whatIf', ask: 'q', facts: [wrong] }),
  (wrong) => ({ say: 'hello', protocol: PROTOCOL, device: wrong, place: OFFICE, since: null }),
  (wrong) => ({ say: 'hello', protocol: PROTOCOL, device: 'x', place: { role: wrong }, since: null }),
];

const wrongField = fc
  .tuple(fc.constantFrom(...messages), junk)
  .map(([make, wrong]) => JSON.stringify(make(wrong)));

const GOOD = JSON.stringify({ say: 'taps', ops: [FINISHED] });

/** A good frame that lost its end, or got something into its middle. */
const brokenText = fc
  .tuple(fc.nat({ max: GOOD.length - 12 }), fc.constantFrom('', '}', '"', ',', 'NaN', '\u0000', '\\u12'))
  .map(([at, into]) => `${GOOD.slice(0, 10 + at)}${into}`);

const notJson = fc
  .oneof(fc.string({ unit: 'binary', maxLength: 40 }), fc.string())
  .map((text) => `\u00a7${text}`);

/** Numbers JSON has no word for, or that are none to the schema: time and version are never these. */
const badNumber = fc
  .constantFrom(
    'NaN',
    'Infinity',
    '-Infinity',
    '1e999',
    '-1e999',
    '0x10',
    '1_000',
    '01',
    '.5',
    '"1"',
    'null',
    '[1]',
  )
  .map((number) => `{"say":"ping","t1":${number}}`);

const key = fc.constantFrom('__proto__', 'constructor', 'prototype', 'toString', 'valueOf');
const prototypeKeys = fc
  .tuple(key, key)
  .map(([a, b]) => `{"say":"taps","${a}":{"say":"ping"},"ops":[{"${b}":${JSON.stringify(FINISHED)}}]}`);

const binary = fc.uint8Array({ maxLength: 200 }).map((bytes) => Buffer.from(bytes));

const deep = fc
  .tuple(fc.integer({ min: 100, max: 60_000 }), fc.constantFrom('[]', '{"a":}'))
  .map(([depth, pair]) => {
    const open = pair.slice(0, -1);
    return `{"say":"taps","ops":${open.repeat(Math.floor(depth / open.length))}1${pair.at(-1)!.repeat(Math.floor(depth / open.length))}}`;
  });

const huge = fc.constantFrom(
  JSON.stringify({ say: 'taps', ops: [{ ...FINISHED, id: 'x'.repeat(TABLET_FRAME_BYTES - 300) }] }),
  `{"say":"ping","t1":${'9'.repeat(TABLET_FRAME_BYTES - 40)}}`,
  `{"say":"taps","ops":[${'{},'.repeat(80_000)}{}]}`,
  `${' '.repeat(TABLET_FRAME_BYTES - 10)}{`,
);

/** All but the one that is good as long as nothing was said before it. */
const byHand = MALFORMED.flatMap(([name, one]) => (name === 'a second hello' ? [] : one));

const frame: fc.Arbitrary<string | Buffer> = fc.oneof(
  { weight: 400, arbitrary: wrongField },
  { weight: 100, arbitrary: brokenText },
  { weight: 50, arbitrary: notJson },
  { weight: 50, arbitrary: badNumber },
  { weight: 50, arbitrary: prototypeKeys },
  { weight: 50, arbitrary: binary },
  { weight: 100, arbitrary: fc.constantFrom(...byHand) },
  { weight: 20, arbitrary: deep },
  { weight: 10, arbitrary: huge },
);

/** Resident memory of the hub in MB. */
function rssMb(): number {
  return Number(execFileSync('ps', ['-o', 'rss=', '-p', String(hub.pid)]).toString()) / 1024;
}

async function begin(): Promise<{ journal: string; seq: number; board: unknown }> {
  const { client, welcome } = await Client.join(hub.port, OFFICE, 'reader');
  client.close();
  return welcome;
}

test(
  '10,000 frames that are no messages: refused, nothing changed, memory flat',
  { timeout: 60_000 },
  async () => {
    const { client } = await Client.join(hub.port, OFFICE, 'office');
    for (const [i, fact] of barnFacts(NOW).entries()) await client.tapped(op(`barn${i}`, fact, null, NOW));
    const answer = await client.tapped(FINISHED);
    expect(answer.why).toBeNull();

    const before = await begin();
    const since = { journal: before.journal, seq: before.seq };
    let frames = 0;
    let mbWarm = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.array(frame, { minLength: MOST_REFUSALS, maxLength: MOST_REFUSALS }),
        fc.boolean(),
        async (sent, saysHello) => {
          const one = saysHello
            ? (await Client.join(hub.port, OFFICE, 'stranger', since)).client
            : await Client.open(hub.port);
          for (const text of sent) one.raw(text);
          expect(await one.closed()).toBe(1008);
          const said = one.frames.map((text) => JSON.parse(text) as { say: string; code?: string });
          const others = said.filter(({ say }) => say !== 'refused').map(({ say }) => say);
          expect(others.filter((say) => !UNASKED.includes(say))).toEqual(saysHello ? ['welcome'] : []);
          const codes = said.flatMap(({ code }) => code ?? []);
          expect(codes).toHaveLength(MOST_REFUSALS);
          expect(codes.at(-1)).toBe('tooMuch');
          frames += sent.length;
          if (frames >= WARM_UP && mbWarm === 0) mbWarm = rssMb();
        },
      ),
      // A smaller case is found by hand sooner than over sockets.
      { numRuns: FRAMES / MOST_REFUSALS, endOnFailure: true },
    );
    expect(frames).toBe(FRAMES);
    const mb = rssMb();
    console.info(`hub: ${mbWarm.toFixed(1)} MB after ${WARM_UP} frames, ${mb.toFixed(1)} MB after ${FRAMES}`);
    expect(mb - mbWarm).toBeLessThan(GROWTH_MB);

    const after = await begin();
    expect(after.seq).toBe(before.seq);
    expect(after.board).toEqual(before.board);
    // No stranger has left anything of itself behind.
    const health = (await (await fetch(`http://127.0.0.1:${hub.port}/health`)).json()) as {
      connections: object;
    };
    expect(health.connections).toEqual({ aisle: 0, door: 0, coordinator: 1, waiting: 0 });
    // The one that was there all the time is served as before.
    expect(await client.tapped(FINISHED)).toEqual(answer);
    client.close();
  },
);

test('a good op replayed 1,000 times, also with other content, is answered as the first time', async () => {
  const { client } = await Client.join(hub.port, OFFICE, 'office');
  const first = await client.tapped(op('once', { kind: 'volunteerArrived', volunteer: 'v2' }, null, NOW));
  const before = await begin();
  const others: Op[] = [
    op('once', { kind: 'volunteerArrived', volunteer: 'v2' }, null, NOW),
    op('once', { kind: 'horsePulled', horse: 'h0', why: '', hold: 'vet' }, 'ines', NOW),
    op('once', { kind: 'dayOpened', date: '2190-01-01' }, 'nobody', NOW + 1),
  ];
  for (let i = 0; i < 10; i += 1)
    client.tap(...Array.from({ length: 100 }, (_, n) => others[n % others.length]!));
  for (let i = 0; i < 10; i += 1) {
    const { answers } = await client.next('answered');
    expect(answers).toEqual(Array.from({ length: 100 }, () => first));
  }
  const after = await begin();
  expect(after.seq).toBe(before.seq);
  expect(after.board).toEqual(before.board);
  client.close();
});

test('a frame over the limit and text that is no UTF-8 end the connection with the code RFC 6455 §7.4.1 has', async () => {
  const before = await begin();
  const tooLong = await Client.open(hub.port);
  tooLong.raw('x'.repeat(TABLET_FRAME_BYTES + 1));
  expect(await tooLong.closed()).toBe(1009);
  const after = await begin();
  expect(after.board).toEqual(before.board);
});

test('keys of the prototype beside a good message reach nothing', async () => {
  const { client } = await Client.join(hub.port, OFFICE, 'office');
  const before = await begin();
  for (const name of ['__proto__', 'constructor']) {
    client.raw(`{"say":"ping","t1":1,"${name}":{"say":"taps","seq":1,"board":null,"code":"tooMuch"}}`);
    expect(await client.next('pong')).toMatchObject({ say: 'pong', t1: 1 });
  }
  const after = await begin();
  expect(after).toEqual(before);
  client.close();
});
