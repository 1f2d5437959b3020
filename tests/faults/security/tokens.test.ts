/** Pairing codes that are old, used or guessed, and tokens that are made up, copied or struck off. */
import { createHash, randomBytes } from 'node:crypto';
import { readFileSync, statSync } from 'node:fs';
import { request as httpRequest } from 'node:http';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { CODE_MS } from '../../../hub/gate/codes.ts';
import { CODES_AN_ADDRESS, CODES_IN_ALL } from '../../../hub/gate/limits.ts';
import { Client } from '../client.ts';
import { ask, askToPair, codeFrom, connect, firstCoordinator, hung, pair } from '../pairing.ts';
import { Attempts } from './attempts.ts';
import { openClocked, PLACES, type ClockedHub } from './barn.ts';

let barn: ClockedHub;
let port: number;
beforeEach(async () => {
  barn = await openClocked();
  port = barn.hub.port;
});
afterEach(() => barn.close());

/** The status a code gets when it comes from this address. */
function pairFrom(from: string, code: string): Promise<number> {
  return new Promise((done, fail) => {
    const headers = { 'Content-Type': 'application/json' };
    const options = {
      port,
      host: '127.0.0.1',
      localAddress: from,
      path: '/gate/pair',
      method: 'POST',
      headers,
    };
    const sent = httpRequest(options, (answer) => {
      answer.resume();
      done(answer.statusCode ?? 0);
    });
    sent.on('error', fail).end(JSON.stringify({ code }));
  });
}

const isLetIn = (cookie: string): Promise<boolean> =>
  connect(port, cookie).then(
    ({ client }) => {
      client.close();
      return true;
    },
    () => false,
  );

const statusOf = async (path: string, cookie: string): Promise<number> =>
  (await fetch(`http://127.0.0.1:${port}${path}`, { headers: { Cookie: cookie } })).status;

test('a code pairs one tablet, once, and not after five minutes', async () => {
  const attempts = new Attempts('replayed and expired codes');
  const first = await barn.code();
  const office = await firstCoordinator(port, first);
  attempts.add('the console’s, again', (await askToPair(port, first)).status !== 403);
  const used = await codeFrom(office.client);
  await pair(port, used);
  attempts.add('the coordinator’s, again', (await askToPair(port, used)).status !== 403);
  const late = await codeFrom(office.client);
  barn.pass(CODE_MS);
  attempts.add('after five minutes', (await askToPair(port, late)).status !== 403);
  const { client } = await connect(port, office.cookie);
  expect(client.closeCode).toBeNull();
  attempts.done(3);
});

test('of many tablets with one code at the same moment one is paired', async () => {
  const attempts = new Attempts('one code many times at once');
  const code = await barn.code();
  const statuses = await Promise.all(
    Array.from({ length: 5 }, async () => (await askToPair(port, code)).status),
  );
  const meant = statuses.indexOf(204);
  expect(meant).toBeGreaterThanOrEqual(0);
  statuses.forEach((status, i) => i !== meant && attempts.add(`another one: ${status}`, status === 204));
  attempts.done(4);
});

test('guessing is over after a few codes from one address, and after some more from all of them', async () => {
  const attempts = new Attempts('guessed codes');
  const code = await barn.code();
  const wrong = (i: number): string => String((Number(code) + 1 + i) % 1_000_000).padStart(6, '0');
  let looked = 0;
  for (let address = 2; address < 12; address += 1) {
    for (let i = 0; i < 2 * CODES_AN_ADDRESS; i += 1) {
      const status = await pairFrom(`127.0.0.${address}`, wrong(100 * address + i));
      attempts.add(`guess from 127.0.0.${address}`, status !== 403 && status !== 429);
      if (status === 403) looked += 1;
    }
  }
  expect(looked).toBe(CODES_IN_ALL);
  // Even the right one now waits.
  attempts.add('the right code while all wait', (await pairFrom('127.0.0.20', code)) !== 429);
  attempts.done(100);
});

test('while all that is typed waits, the whole code of the coordinator’s screen still pairs, and is not guessed', async () => {
  const attempts = new Attempts('guessed whole codes');
  const office = await firstCoordinator(port, await barn.code());
  for (let address = 2; address < 10; address += 1)
    for (let i = 0; i < CODES_AN_ADDRESS; i += 1) await pairFrom(`127.0.0.${address}`, '000000');
  const outcome = await ask(office.client, { to: 'makeCode' });
  if (outcome.is !== 'code') throw new Error('no code');
  const { code, whole } = outcome;
  expect(await pairFrom('127.0.0.20', code)).toBe(429);
  for (let i = 0; i < 20; i += 1) {
    const secret = randomBytes(16).toString('base64url');
    const guess =
      i % 2 === 0 ? `${code}-${secret}` : `${code}-${whole.slice(7, -1)}${whole.endsWith('A') ? 'B' : 'A'}`;
    attempts.add('the digits with another secret', (await pairFrom(`127.0.0.${30 + i}`, guess)) !== 403);
  }
  for (let i = 0; i < 20; i += 1) {
    const status = await pairFrom('127.0.0.60', `${code}-${randomBytes(16).toString('base64url')}`);
    attempts.add('on and on from one address', status !== 403 && status !== 429);
  }
  expect(await pairFrom('127.0.0.21', whole)).toBe(204);
  attempts.add('the whole code again', (await pairFrom('127.0.0.22', whole)) !== 403);
  attempts.done(41);
});

test('one address that guesses on and on keeps nobody else from pairing', async () => {
  const code = await barn.code();
  const statuses: number[] = [];
  for (let i = 0; i < CODES_IN_ALL + 10; i += 1) statuses.push(await pairFrom('127.0.0.2', '000000'));
  expect(statuses.filter((status) => status === 403).length).toBeLessThanOrEqual(CODES_AN_ADDRESS);
  expect(await pairFrom('127.0.0.3', code)).toBe(204);
});

test('what is no code is no guess and no way in', async () => {
  const attempts = new Attempts('malformed pairing requests');
  await firstCoordinator(port, await barn.code());
  const bodies: unknown[] = [
    { code: null },
    { code: '' },
    { code: 123456 },
    { code: ['123456'] },
    { code: '１２３４５６' },
    { code: '123456\n' },
    { code: { length: 6 } },
    { code: '__proto__' },
    {},
    [],
    null,
    { __proto__: { code: '123456' } },
  ];
  for (const type of ['application/json', 'text/plain', 'application/x-www-form-urlencoded']) {
    for (const body of bodies) {
      const answer = await fetch(`http://127.0.0.1:${port}/gate/pair`, {
        method: 'POST',
        headers: { 'Content-Type': type },
        body: JSON.stringify(body),
      });
      attempts.add(`${type} ${JSON.stringify(body)}: ${answer.status}`, ![400, 403].includes(answer.status));
    }
  }
  attempts.done(bodies.length * 3);
});

test('a token is taken whole and as it was given, or not at all', async () => {
  const attempts = new Attempts('forged tokens');
  const { cookie } = await firstCoordinator(port, await barn.code());
  const [name = '', token = ''] = cookie.split('=');
  expect(await isLetIn(cookie)).toBe(true);
  const flip = (at: number): string =>
    token.slice(0, at) + (token[at] === 'A' ? 'B' : 'A') + token.slice(at + 1);
  // The last letter of 32 bytes in base64url says four bits; another letter may stand for the same bytes, not the same token.
  const forged = [
    ...Array.from({ length: token.length }, (_, at) => flip(at)),
    ...Array.from({ length: 10 }, (_, n) => token.slice(0, token.length - 1 - n)),
    token.slice(1),
    `${token}A`,
    `${token}=`,
    `${token}%00`,
    token.toLowerCase(),
    token.toUpperCase(),
    token.split('').reverse().join(''),
    createHash('sha256').update(token).digest('hex'),
    createHash('sha256').update(token).digest('base64url'),
    Buffer.from(token).toString('base64'),
    '',
    'null',
    'undefined',
    'true',
    '*',
    '%',
    '__proto__',
    'A'.repeat(43),
    'A'.repeat(4000),
  ];
  for (const one of forged) attempts.add(`${name}=${one}`, await isLetIn(`${name}=${one}`));
  for (const other of [`x${name}`, name.toUpperCase(), `aisle-board-${port + 1}`, 'aisle-board-', 'token'])
    attempts.add(`${other}=…`, await isLetIn(`${other}=${token}`));
  for (const one of [`${name}=${flip(3)}`, `${name}=`, `x${name}=${token}`])
    attempts.add(`GET /backup ${one.slice(0, 20)}`, (await statusOf('/backup', one)) !== 401);
  attempts.done(70);
});

test('a tablet struck off is gone at once: its socket, its token, its requests', async () => {
  const attempts = new Attempts('struck-off tablet');
  const office = await firstCoordinator(port, await barn.code());
  const lost = await hung(port, await codeFrom(office.client), PLACES.aisle);
  const second = await connect(port, lost.cookie);
  expect(await statusOf('/photos/x', lost.cookie)).toBe(404);
  expect(await ask(office.client, { to: 'strikeOff', tablet: lost.device })).toEqual({ is: 'done' });
  expect([await lost.client.closed(), await second.client.closed()]).toEqual([1008, 1008]);
  attempts.add('socket', await isLetIn(lost.cookie));
  for (const path of ['/photos/x', '/backup', '/account'])
    attempts.add(`GET ${path}`, (await statusOf(path, lost.cookie)) !== 401);
  const stranger = await Client.open(port, lost.device);
  stranger.say({ say: 'ping', t1: 1 });
  attempts.add('its name alone', (await stranger.next('refused')).code !== 'helloFirst');
  const again = await barn.again();
  barn = again;
  port = again.hub.port;
  const renamed = `aisle-board-${port}=${lost.cookie.split('=')[1]}`;
  attempts.add('socket after a restart', await isLetIn(renamed));
  const known = `aisle-board-${port}=${office.cookie.split('=')[1]}`;
  expect(await isLetIn(known), 'a tablet that was not struck off').toBe(true);
  attempts.done(6);
});

test('pairing again makes the token before worthless', async () => {
  const attempts = new Attempts('token from before pairing again');
  const office = await firstCoordinator(port, await barn.code());
  const old = await hung(port, await codeFrom(office.client), PLACES.aisle);
  const answer = await askToPair(port, await codeFrom(office.client), old.cookie);
  const fresh = answer.headers.get('set-cookie')?.split(';')[0] ?? '';
  attempts.add('the old token', await isLetIn(old.cookie));
  expect(await isLetIn(fresh)).toBe(true);
  attempts.done();
});

test('the cookie is not for scripts nor for other sites; the list is for the hub’s own user, and holds hashes', async () => {
  const answer = await askToPair(port, await barn.code());
  const line = answer.headers.get('set-cookie') ?? '';
  expect(line).toMatch(/; HttpOnly/);
  expect(line).toMatch(/; SameSite=Strict/);
  const token = line.split(';')[0]?.split('=')[1] ?? '';
  expect(Buffer.from(token, 'base64url')).toHaveLength(32);
  const path = join(barn.folder, 'gate.json');
  const kept = readFileSync(path, 'utf8');
  expect(kept).not.toContain(token);
  expect(kept).toContain(createHash('sha256').update(token).digest('hex'));
  // Closed, so that all of it is written.
  barn = await barn.again();
  for (const name of ['gate.json', 'gate.log'])
    expect(statSync(join(barn.folder, name)).mode & 0o077).toBe(0);
});
