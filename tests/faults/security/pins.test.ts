/** Guessing a coordinator's PIN: how many guesses anybody gets, also through power cuts, and what the answers give away. */
import { afterEach, expect, test } from 'vitest';
import { HOUR_MS, MINUTE_MS } from '#core/time/units.ts';
import { BARN_FORGETS_MS, BARN_TRIES } from '../../../hub/gate/tries.ts';
import { HubProcess, tempFolder } from '../hubProcess.ts';
import { ask, connect, firstCoordinator, PIN } from '../pairing.ts';
import { Attempts } from './attempts.ts';
import { openClocked, people, type ClockedHub } from './barn.ts';

const after: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const one of after.splice(0).toReversed()) await one();
});

const wrongPin = (i: number): string => String(500_000 + i);

test('waits and locks stand through a power cut, and nobody is unlocked after it', async () => {
  const attempts = new Attempts('PIN guesses over SIGKILL and restart');
  const temp = await tempFolder();
  after.push(temp.remove);
  let hub = await HubProcess.startGated(temp.path);
  after.push(() => hub.end('SIGKILL'));
  const office = await firstCoordinator(hub.port, await hub.code());
  const token = office.cookie.split('=')[1];
  const wake = async () => {
    await hub.end('SIGKILL');
    hub = await HubProcess.startGated(temp.path);
    return connect(hub.port, `aisle-board-${hub.port}=${token}`);
  };
  let tablet = await wake();
  expect(tablet.welcome.here, 'locked by the power cut').toMatchObject({
    by: null,
    place: { role: 'aisle' },
  });
  let looked = 0;
  for (let i = 0; i < 8; i += 1) {
    if (i === 4) tablet = await wake();
    // The right one is among them once they wait.
    const pin = i >= 6 ? PIN : wrongPin(i);
    const outcome = await ask(tablet.client, { to: 'unlock', by: office.by, pin });
    attempts.add(`guess ${i}`, outcome.is === 'done');
    if (outcome.is === 'refused' && outcome.why === 'wrongPin') looked += 1;
    else expect(outcome).toMatchObject({ is: 'refused', why: 'wait' });
  }
  // Three that cost nothing, and the one after which the first wait begins.
  expect(looked).toBe(4);
  attempts.done(8);
});

test('six hours of guessing at every tablet, with restarts, comes to a few dozen guesses', async () => {
  const attempts = new Attempts('PIN guesses in 6 hours at 3 tablets');
  let barn: ClockedHub = await openClocked();
  after.push(() => barn.close());
  const all = await people(barn.hub.port, await barn.code());
  const { by } = all.coordinator;
  const tokens = [all.aisle, all.door, all.unhung].map(({ cookie }) => cookie.split('=')[1]);
  let looked = 0;
  for (let hour = 0; hour < 6; hour += 1) {
    if (hour === 2) barn = await barn.again();
    const { port } = barn.hub;
    const tablets = await Promise.all(tokens.map((token) => connect(port, `aisle-board-${port}=${token}`)));
    for (let minute = 0; minute < 60; minute += 10) {
      for (const { client } of tablets) {
        // As long as the hub looks at what is guessed.
        for (let more = true; more;) {
          const outcome = await ask(client, { to: 'unlock', by, pin: wrongPin(looked) });
          more = outcome.is === 'refused' && outcome.why === 'wrongPin';
          attempts.add(`hour ${hour}`, outcome.is !== 'refused');
          if (more) looked += 1;
        }
      }
      barn.pass(10 * MINUTE_MS);
    }
    for (const { client } of tablets) client.close();
  }
  const most = BARN_TRIES + (6 * HOUR_MS) / BARN_FORGETS_MS;
  console.log(`of them looked at: ${looked}, at most ${most}`);
  expect(looked).toBeGreaterThan(BARN_TRIES / 2);
  expect(looked).toBeLessThanOrEqual(most);
  attempts.done(50);
});

test('many guesses at once are one guess', async () => {
  const attempts = new Attempts('PIN guesses at once');
  const barn = await openClocked();
  after.push(() => barn.close());
  const all = await people(barn.hub.port, await barn.code());
  const sockets = await Promise.all(
    Array.from({ length: 20 }, () => connect(barn.hub.port, all.aisle.cookie)),
  );
  const outcomes = await Promise.all(
    sockets.map(({ client }, i) => ask(client, { to: 'unlock', by: all.coordinator.by, pin: wrongPin(i) })),
  );
  const looked = outcomes.filter((one) => one.is === 'refused' && one.why === 'wrongPin').length;
  outcomes.forEach((one, i) => attempts.add(`${i}`, one.is === 'done'));
  expect(looked).toBeLessThanOrEqual(3);
  attempts.done(20);
});

test('the answer to a wrong PIN does not tell whether there is such a coordinator, nor does its time', async () => {
  const barn = await openClocked();
  after.push(() => barn.close());
  const all = await people(barn.hub.port, await barn.code());
  const times = new Map<string, number[]>([
    [all.coordinator.by, []],
    ['nobody', []],
  ]);
  const answers = new Set<string>();
  for (let round = 0; round < 5; round += 1) {
    for (const [who, ms] of times) {
      // So long that nothing of the tries before is left.
      barn.pass(3 * HOUR_MS);
      const started = performance.now();
      const outcome = await ask(all.locked.client, { to: 'unlock', by: who, pin: wrongPin(round) });
      ms.push(performance.now() - started);
      if (outcome.is === 'refused') answers.add(outcome.why);
    }
  }
  expect([...answers]).toEqual(['wrongPin']);
  const middle = [...times.values()].map((ms) => ms.toSorted((a, b) => a - b)[2] ?? 0);
  const [known = 0, unknown = 0] = middle;
  console.log(
    `wrong PIN: median ${known.toFixed(0)} ms for a coordinator, ${unknown.toFixed(0)} ms for nobody`,
  );
  // Without the work done for nobody's sake it would be a hundredth.
  expect(unknown).toBeGreaterThan(known / 3);
  expect(unknown).toBeLessThan(known * 3);
});

test('a PIN that is given while its tablet is locked or struck off is not given', async () => {
  const attempts = new Attempts('PINs given by a tablet that is no coordinator’s any more');
  const barn = await openClocked();
  after.push(() => barn.close());
  const { port } = barn.hub;
  const all = await people(port, await barn.code());
  const { by, client } = all.coordinator;
  const given = wrongPin(7);
  // The key takes so long to work out that what is said at once after it comes before its end.
  const asked = ask(client, { to: 'setPin', staff: by, pin: given });
  client.say({ say: 'askGate', ask: 'lock-at-once', wish: { to: 'lock' } });
  attempts.add('locked', (await asked).is === 'done');
  attempts.add('by that PIN', (await ask(all.locked.client, { to: 'unlock', by, pin: given })).is === 'done');
  attempts.done(2);
  expect(await ask(all.locked.client, { to: 'unlock', by, pin: PIN })).toEqual({ is: 'done' });
});
