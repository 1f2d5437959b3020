/**
 * What each tablet may do, tried by hand: every kind of op, every message and wish, and every endpoint, from every role. What
 * a place may do stands here a second time, on purpose: a kind or an endpoint that is new fails until somebody has said here,
 * too, that more than a coordinator may.
 */
import fc from 'fast-check';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { OpFact, type OpKind } from '#core/day/ops.ts';
import type { Wish } from '#core/wire/gate.ts';
import { FromTablet } from '#core/wire/messages.ts';
import { OPS_A_FRAME, PROTOCOL } from '#core/wire/protocol.ts';
import { horse, opFact } from '../../properties/day-arbitraries.ts';
import { Client, op } from '../client.ts';
import { ask, connect, PIN } from '../pairing.ts';
import { Attempts } from './attempts.ts';
import { openClocked, people, PLACES, type ClockedHub, type People } from './barn.ts';

let barn: ClockedHub;
let port: number;
let all: People;

beforeAll(async () => {
  barn = await openClocked();
  port = barn.hub.port;
  all = await people(port, await barn.code());
});
afterAll(() => barn.close());

/** The tablets that no coordinator has unlocked. */
const WALL = ['aisle', 'door', 'locked', 'unhung'] as const;
type Wall = (typeof WALL)[number];

/* Ops */

const FROM_THE_AISLE: readonly OpKind[] = [
  'stagesFinished',
  'stageStarted',
  'itemsTicked',
  'placesChecked',
  'helpAsked',
  'helpAnswered',
  'helpEnded',
  'findingSeen',
  'volunteerArrived',
  'undone',
];
const FROM_THE_DOOR: readonly OpKind[] = [
  'horsePulled',
  'horseReleased',
  'findingSeen',
  'findingRead',
  'weatherRead',
  'placesChecked',
  'ridersUp',
  'ridersDown',
  'helpAnswered',
  'helpEnded',
  'undone',
];

/** What the hub alone writes down. */
const FROM_THE_HUB: readonly OpKind[] = ['alertsRaised'];

/** A coordinator's tablet that is locked, and one that hangs nowhere yet, are heard as an aisle tablet. */
function mayTap(who: Wall, fact: OpFact): boolean {
  if (who === 'door') return FROM_THE_DOOR.includes(fact.kind);
  const isInstructors = fact.kind === 'placesChecked' && fact.check === 'instructor';
  return FROM_THE_AISLE.includes(fact.kind) && !isInstructors;
}

const KINDS = OpFact.def.options.map((option) => option.shape.kind.def.values[0]);
const OF_EACH_KIND = 8;

/** Some of every kind there is. Throws for a kind without an arbitrary. */
function someOfEachKind(): OpFact[] {
  const facts = new Map<OpKind | undefined, OpFact[]>(KINDS.map((kind) => [kind, []]));
  for (const fact of fc.sample(opFact, { numRuns: 5000, seed: 7 })) {
    const some = facts.get(fact.kind);
    if (some && some.length < OF_EACH_KIND) some.push(fact);
  }
  const missing = [...facts].filter(([, some]) => some.length === 0).map(([kind]) => kind);
  if (missing.length > 0) throw new Error(`no arbitrary for ${missing.join()}`);
  return [...facts.values()].flat();
}

const EVERY_KIND = someOfEachKind();

/** Why each op was declined; null: it was taken. */
async function tapped(client: Client, prefix: string, facts: readonly OpFact[]): Promise<(string | null)[]> {
  const answers: (string | null)[] = [];
  for (let from = 0; from < facts.length; from += OPS_A_FRAME) {
    const ops = facts.slice(from, from + OPS_A_FRAME).map((fact, i) => op(`${prefix}-${from + i}`, fact));
    // As another tablet would send it: that must not count.
    client.tap(...ops.map((one) => ({ ...one, device: all.coordinator.device, by: all.coordinator.by })));
    const { answers: some } = await client.next('answered');
    answers.push(...some.map(({ why }) => why?.code ?? null));
  }
  return answers;
}

test('every kind of op from every tablet that is not unlocked', async () => {
  const attempts = new Attempts('ops by hand, kind × role');
  for (const who of WALL) {
    const answers = await tapped(all[who].client, `op-${who}`, EVERY_KIND);
    EVERY_KIND.forEach((fact, i) => {
      if (!mayTap(who, fact)) attempts.add(`${fact.kind} from ${who}`, answers[i] !== 'notAllowedHere');
      else expect(answers[i], `${fact.kind} from ${who}`).not.toBe('notAllowedHere');
    });
  }
  attempts.done(WALL.length * (KINDS.length - FROM_THE_DOOR.length));
});

test('the same ops from an unlocked tablet are not refused for where they come from', async () => {
  const answers = await tapped(all.coordinator.client, 'op-office', EVERY_KIND);
  EVERY_KIND.forEach(({ kind }, i) =>
    expect(answers[i] === 'notAllowedHere', kind).toBe(FROM_THE_HUB.includes(kind)),
  );
});

test('nobody takes back in another’s name', async () => {
  const attempts = new Attempts('undo of another tablet’s tap');
  const facts: OpFact[] = [
    { kind: 'recordSaved', saved: { table: 'horses', record: horse('birch') } },
    { kind: 'horsePulled', horse: 'birch', why: 'warm leg', hold: 'vet' },
  ];
  expect(await tapped(all.coordinator.client, 'to-undo', facts)).toEqual([null, null]);
  for (const who of WALL) {
    const [why] = await tapped(all[who].client, `undo-${who}`, [{ kind: 'undone', op: 'to-undo-1' }]);
    attempts.add(who, why !== 'notYours');
  }
  attempts.done(WALL.length);
});

/* Messages */

const FACT: OpFact = { kind: 'dayOpened', date: '2026-05-11' };

/** What only a coordinator may say. The compiler asks for every message there is. */
const SAID: Record<
  FromTablet['say'],
  { message: (client: Client) => FromTablet; may: 'all' | 'coordinator' }
> = {
  hello: {
    message: ({ device }) => ({
      say: 'hello',
      protocol: PROTOCOL,
      device,
      place: PLACES.coordinator,
      since: null,
    }),
    may: 'all',
  },
  ping: { message: () => ({ say: 'ping', t1: 1 }), may: 'all' },
  taps: { message: () => ({ say: 'taps', ops: [op('one-tap', FACT)] }), may: 'all' },
  touched: { message: () => ({ say: 'touched' }), may: 'all' },
  askGate: { message: () => ({ say: 'askGate', ask: 'g1', wish: { to: 'lock' } }), may: 'all' },
  whatIf: { message: () => ({ say: 'whatIf', ask: 'q1', facts: [FACT] }), may: 'coordinator' },
  askStandIns: {
    message: () => ({ say: 'askStandIns', ask: 'q2', about: { horse: 'fern' }, language: 'en' }),
    may: 'coordinator',
  },
  startBarn: { message: () => ({ say: 'startBarn', name: 'Taken', zone: 'UTC' }), may: 'coordinator' },
};

test('every message that is a coordinator’s, from every tablet that is not unlocked', async () => {
  const attempts = new Attempts('messages by hand, message × role');
  expect(new Set(Object.keys(SAID))).toEqual(
    new Set(FromTablet.def.options.map((one) => one.shape.say.def.values[0])),
  );
  const theirs = Object.entries(SAID).filter(([, { may }]) => may === 'coordinator');
  for (const who of WALL) {
    const { client } = await connect(port, all[who].cookie);
    for (const [say, { message }] of theirs) {
      client.say(message(client));
      await client.settled();
      const codes = client.taken('refused').map(({ code }) => code);
      attempts.add(`${say} from ${who}`, codes.length !== 1 || codes[0] !== 'notAllowedHere');
      await client.next('refused').catch(() => null);
    }
    expect([...client.taken('considered'), ...client.taken('standIns')]).toEqual([]);
    client.close();
  }
  attempts.done(12);
});

test('every message from somebody without a tablet, before and after saying hello', async () => {
  const attempts = new Attempts('messages without a token');
  for (const [say, { message }] of Object.entries(SAID)) {
    const client = await Client.open(port);
    client.say(message(client));
    const { code } = await client.next('refused');
    attempts.add(say, code !== (say === 'hello' ? 'notPaired' : 'helloFirst'));
    if (say === 'hello') expect(await client.closed()).toBe(1008);
    expect(client.frames).toHaveLength(1);
    client.close();
  }
  attempts.done(Object.keys(SAID).length);
});

/** Every wish, each as one that would do something if it were granted. */
const wishes = (own: string): Record<Exclude<Wish['to'], 'lock'>, readonly Wish[]> => ({
  unlock: [
    { to: 'unlock', by: all.coordinator.by, pin: '000000' },
    { to: 'unlock', by: 'nobody', pin: PIN },
  ],
  begin: [{ to: 'begin', name: 'Ines', pin: '918273' }],
  setPin: [
    { to: 'setPin', staff: all.coordinator.by, pin: '918273' },
    { to: 'setPin', staff: 'nobody', pin: '918273' },
  ],
  takePin: [{ to: 'takePin', staff: all.coordinator.by }],
  makeCode: [{ to: 'makeCode' }],
  hang: [
    { to: 'hang', tablet: all.coordinator.device, name: 'Mine', place: PLACES.aisle },
    ...(own === all.unhung.device
      ? []
      : [{ to: 'hang', tablet: own, name: 'Mine', place: PLACES.coordinator } as const]),
  ],
  strikeOff: [
    { to: 'strikeOff', tablet: all.coordinator.device },
    { to: 'strikeOff', tablet: own },
  ],
});

test('every wish to the gate from every tablet that is not unlocked', async () => {
  const attempts = new Attempts('wishes by hand, wish × role');
  for (const who of WALL) {
    const { client, device } = all[who];
    for (const wish of Object.values(wishes(device)).flat()) {
      const outcome = await ask(client, wish);
      attempts.add(`${wish.to} from ${who}: ${JSON.stringify(outcome)}`, outcome.is !== 'refused');
    }
    expect((await connect(port, all[who].cookie)).welcome.here?.by).toBeNull();
  }
  attempts.done(WALL.length * 9);
});

test('a tablet is heard as what the hub’s list says, whatever it says itself', async () => {
  const attempts = new Attempts('roles claimed in hello');
  for (const who of WALL) {
    for (const place of Object.values(PLACES)) {
      const how = { cookie: all[who].cookie };
      const { client, welcome } = await Client.join(port, place, all.coordinator.device, null, how);
      const real = welcome.here?.place.role;
      attempts.add(`${place.role} claimed by ${who}`, real !== (who === 'door' ? 'door' : 'aisle'));
      expect(welcome.board?.barn.riders).toEqual({});
      client.close();
    }
  }
  attempts.done(12);
});

/* Endpoints */

/** What is answered to whoever comes, and why that is right. */
const FOR_ANYBODY: readonly string[] = [
  // Whether it is well, nothing else, to other computers.
  'GET /health',
  // Figures, to this computer alone unless its owner says otherwise.
  'GET /metrics',
  // Brings its own secret.
  'GET /calendar/',
  // Takes a code.
  'POST /gate/pair',
];

test('every endpoint of the hub from everybody who may not ask it', async () => {
  const attempts = new Attempts('endpoints × role');
  const { endpoints } = barn.hub;
  const cookies: Record<string, string | null> = {
    nobody: null,
    forged: `aisle-board-${port}=${'A'.repeat(43)}`,
  };
  for (const who of WALL) cookies[who] = all[who].cookie;
  const methods = (method: string): string[] => (method === 'GET' ? ['GET', 'HEAD'] : [method]);
  for (const { method, path, may } of endpoints) {
    if (may === 'anybody') {
      expect(FOR_ANYBODY).toContain(`${method} ${path}`);
      continue;
    }
    for (const [who, cookie] of Object.entries(cookies)) {
      const isKnown = who !== 'nobody' && who !== 'forged';
      if (may === 'tablet' && isKnown) continue;
      for (const one of methods(method)) {
        for (const address of path.endsWith('/') ? [path, `${path}x`] : [path, `${path}?who=coordinator`]) {
          const answer = await fetch(`http://127.0.0.1:${port}${address}`, {
            method: one,
            headers: { ...(cookie !== null && { Cookie: cookie }), 'X-Forwarded-For': '127.0.0.1' },
          });
          attempts.add(
            `${one} ${address} by ${who}: ${answer.status}`,
            answer.status !== (isKnown ? 403 : 401),
          );
          expect(await answer.text()).toBe('');
        }
      }
    }
    const answer = await fetch(`http://127.0.0.1:${port}${path}`, {
      method,
      headers: { Cookie: all.coordinator.cookie },
    });
    expect([401, 403], `${method} ${path} by a coordinator`).not.toContain(answer.status);
    await answer.arrayBuffer();
  }
  attempts.done(40);
});

test('an unlocked tablet that nobody touches is heard as an aisle tablet after two minutes, on sockets and over HTTP', async () => {
  const attempts = new Attempts('coordinator’s tablet once locked');
  const { coordinator } = all;
  const get = async (): Promise<number> =>
    (await fetch(`http://127.0.0.1:${port}/backup`, { headers: { Cookie: coordinator.cookie } })).status;
  expect(await get()).toBe(200);
  barn.pass(120_001);
  attempts.add('GET /backup', (await get()) !== 403);
  const answers = await tapped(coordinator.client, 'late', EVERY_KIND);
  EVERY_KIND.forEach((fact, i) => {
    if (!mayTap('locked', fact)) attempts.add(fact.kind, answers[i] !== 'notAllowedHere');
  });
  const outcome = await ask(coordinator.client, { to: 'makeCode' });
  attempts.add('makeCode', outcome.is !== 'refused');
  attempts.done(KINDS.length - FROM_THE_AISLE.length);
});
