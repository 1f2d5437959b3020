/** What the hub gives away: files by odd addresses, requests to other computers, and names or secrets where none belong. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { OpFact } from '#core/day/ops.ts';
import { HubProcess, tempFolder } from '../hubProcess.ts';
import { op } from '../client.ts';
import { ask, askToPair, codeFrom, connect, firstCoordinator, hung, PIN, type Paired } from '../pairing.ts';
import { Attempts } from './attempts.ts';
import { PLACES } from './barn.ts';
import { head, sendRaw } from './raw.ts';

const RIDER = 'Quillon';

let hub: HubProcess;
let data: string;
let remove: () => Promise<void>;
let code: string;
let office: Paired & { readonly by: string };
let aisle: Paired;

beforeAll(async () => {
  const temp = await tempFolder();
  ({ remove, path: data } = temp);
  hub = await HubProcess.startGated(data);
  code = await hub.code();
  office = await firstCoordinator(hub.port, code);
  aisle = await hung(hub.port, await codeFrom(office.client), PLACES.aisle);
  const rider: OpFact = {
    kind: 'recordSaved',
    saved: { table: 'riders', record: { id: 'r1', callName: RIDER } },
  };
  expect((await office.client.tapped(op('rider', rider))).why).toBeNull();
});
afterAll(async () => {
  await hub.end('SIGKILL');
  await remove();
});

const get = (path: string, ...more: string[]): string =>
  head(`GET ${path} HTTP/1.1`, `Host: 127.0.0.1:${hub.port}`, 'Connection: close', ...more);

/* Files */

/** Ways up and out of a folder: RFC 3986 §5.2.4 dot segments, encoded once, twice and wrongly, and other systems' separators. */
const UPS = [
  '..',
  '.',
  '%2e%2e',
  '%2E%2E',
  '.%2e',
  '%2e.',
  '%252e%252e',
  '%25252e%25252e',
  '..%00',
  '..%0d%0a',
  '..;',
  '..%3b',
  '%c0%ae%c0%ae',
  '%e0%80%ae%e0%80%ae',
  '%uff0e%uff0e',
  '．．',
  '....',
  '....//',
  '..%ff',
];
const SEPARATORS = ['/', '%2f', '%252f', '\\', '%5c', '%255c', '//', '/./', '%c0%af', '%u2215'];
const STARTS = ['', '/_app', '/_app/immutable', '/photos', '/index.html'];
const ABSOLUTE = [
  '//etc/passwd',
  '/%2fetc/passwd',
  '/%5c%5cserver/share',
  '/C:/Windows/win.ini',
  '/C:%5cWindows%5cwin.ini',
  '/file:///etc/passwd',
  '/etc/passwd%00.html',
  '/index.html%00',
  '/%00',
  '/.git/config',
  '/.env',
  '/package.json',
  '/hub/main.ts',
  '/src/words/en/common.ts',
  '/barn/gate.json',
  '/data/barn/gate.json',
  '/gate.json',
  '/gate.log',
  '/photos/../gate.json',
  '/photos/..%2fgate.json',
  '/photos/%2e%2e%2fgate.json',
  '/proc/self/environ',
  '/~root',
  '/index.html~',
  '/_app/',
  '/_app/immutable/',
  '/%',
  '/%zz',
  '/constructor',
  '/__proto__',
];

test('no address leads to a file that is not a page', async () => {
  const attempts = new Attempts('path traversal');
  const cookie = `Cookie: ${aisle.cookie}`;
  const paths = new Set(ABSOLUTE);
  for (const start of STARTS) {
    for (const up of UPS) {
      for (const separator of SEPARATORS) {
        const out = `${up}${separator}`.repeat(8);
        paths.add(`${start}/${out}etc${separator}passwd`);
        paths.add(`${start}/${up}${separator}gate.json`);
        paths.add(
          `${start}/${out}${data.slice(1).replaceAll('/', separator)}${separator}barn${separator}gate.json`,
        );
      }
    }
  }
  const app = (await sendRaw(hub.port, get('/'))).text.split('\r\n\r\n')[1] ?? '';
  expect(app).toContain('<!doctype html>');
  const all = [...paths];
  for (let from = 0; from < all.length; from += 20) {
    await Promise.all(
      all.slice(from, from + 20).map(async (path) => {
        const { statuses, text } = await sendRaw(hub.port, Buffer.from(get(path, cookie), 'utf8'), 5000);
        const body = text.split('\r\n\r\n')[1] ?? '';
        // The app's page for what might be a screen; else nothing.
        const isFine = statuses.length === 1 && (body === app || (statuses[0] ?? 0) >= 400);
        attempts.add(
          `${path}: ${statuses.join()} ${body.slice(0, 40)}`,
          !isFine || /root:|tokenHash/.test(text),
        );
      }),
    );
  }
  attempts.done(2000);
});

/* What every answer says of itself */

const SAFE: readonly [name: string, value: RegExp][] = [
  ['content-security-policy', /^default-src 'none'; script-src 'self'; style-src 'self';/],
  ['x-content-type-options', /^nosniff$/],
  ['x-frame-options', /^DENY$/],
  ['referrer-policy', /^no-referrer$/],
  ['permissions-policy', /camera=\(\)/],
  ['cross-origin-opener-policy', /^same-origin$/],
  ['cross-origin-resource-policy', /^same-origin$/],
];

test('every kind of answer carries the policy and the security headers', async () => {
  const attempts = new Attempts('answers without their headers');
  const host = `Host: 127.0.0.1:${hub.port}`;
  const who = `Cookie: ${office.cookie}`;
  const upgrade = [
    'Connection: Upgrade',
    'Upgrade: websocket',
    'Sec-WebSocket-Version: 13',
    'Sec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==',
  ];
  const kinds: [name: string, status: number, bytes: string][] = [
    ['page', 200, get('/')],
    ['screen', 200, get('/prep/fern.1')],
    ['missing file', 404, get('/nothing.txt')],
    ['malformed address', 404, get('/%zz')],
    ['endpoint', 200, get('/health')],
    ['endpoint for coordinators', 200, get('/backup', who)],
    ['bad question', 400, get('/account?from=x', who)],
    ['missing picture', 404, get('/photos/x', who)],
    ['nobody', 401, get('/backup')],
    ['may not', 403, get('/backup', `Cookie: ${aisle.cookie}`)],
    ['wrong method', 405, head('DELETE / HTTP/1.1', host, 'Connection: close')],
    ['wrong code', 400, head('POST /gate/pair HTTP/1.1', host, 'Content-Length: 0', 'Connection: close')],
    ['other name', 421, head('GET / HTTP/1.1', 'Host: evil.example')],
    ['other origin', 403, get('/', 'Origin: http://evil.example')],
    ['no host', 400, head('GET / HTTP/1.1')],
    ['two hosts', 400, head('GET / HTTP/1.1', host, host)],
    ['no request at all', 400, 'nonsense\r\n\r\n'],
    ['head too long', 431, head('GET / HTTP/1.1', host, `X: ${'x'.repeat(9000)}`)],
    ['two readings', 400, head('POST / HTTP/1.1', host, 'Content-Length: 1', 'Transfer-Encoding: chunked')],
    ['expecting something', 200, get('/', 'Expect: the-unexpected')],
    [
      'socket of another site',
      403,
      head('GET /live HTTP/1.1', host, 'Origin: http://evil.example', ...upgrade),
    ],
    ['socket elsewhere', 404, head('GET /elsewhere HTTP/1.1', host, ...upgrade)],
  ];
  for (const [name, status, bytes] of kinds) {
    const { statuses, text } = await sendRaw(hub.port, bytes, 5000);
    expect(statuses, name).toEqual([status]);
    const said = new Map<string, string>();
    for (const line of (text.split('\r\n\r\n')[0] ?? '').split('\r\n').slice(1)) {
      const at = line.indexOf(':');
      said.set(line.slice(0, at).toLowerCase(), line.slice(at + 1).trim());
    }
    for (const [header, value] of SAFE)
      attempts.add(`${name}: ${header}`, !value.test(said.get(header) ?? ''));
    attempts.add(
      `${name}: inline`,
      /'unsafe-inline'|'unsafe-eval'|\*/.test(said.get('content-security-policy') ?? ''),
    );
    for (const leaky of ['server', 'x-powered-by', 'access-control-allow-origin'])
      attempts.add(`${name}: ${leaky}`, said.has(leaky));
  }
  attempts.done(kinds.length * 10);
});

/* Other computers */

const BUILD = fileURLToPath(new URL('../../../kiosk/build', import.meta.url));

/** Hosts that stand in the pages as names of things, never as an address to ask. */
const ONLY_NAMES = [
  // Namespaces of SVG, MathML, XLink and XHTML.
  'www.w3.org',
  // The framework's own error messages point there.
  'svelte.dev',
  'kit.svelte.dev',
  // The calendar library's licence and error messages, in the worker that reads files.
  'github.com',
];

test('nothing the hub serves asks another computer for anything', async () => {
  const attempts = new Attempts('addresses of other hosts in pages');
  const files = readdirSync(BUILD, { recursive: true, withFileTypes: true })
    .filter((one) => one.isFile() && /\.(html|js|css|json|svg|webmanifest|txt)$/.test(one.name))
    .map((one) => join(one.parentPath, one.name).slice(BUILD.length));
  expect(files.length).toBeGreaterThan(20);
  for (const path of ['/', ...files]) {
    const answer = await fetch(`http://127.0.0.1:${hub.port}${path}`);
    const text = await answer.text();
    expect(answer.status, path).toBe(200);
    const hosts = [...text.matchAll(/(?:https?|wss?):\/\/([a-z0-9-]+(?:\.[a-z0-9-]+)+)/gi)].map(
      ([, host]) => host ?? '',
    );
    const strange = hosts.filter((host) => !ONLY_NAMES.includes(host));
    attempts.add(`${path}: ${strange.join()}`, strange.length > 0);
    // Without a scheme, in the places where a browser would go there: an attribute, a style, an import.
    const asked =
      /(?:src|href|action|poster)=["']?\/\/|url\(["']?\/\/|@import|import\(["']\/\/|from["']\/\//.exec(text);
    attempts.add(`${path}: ${asked?.[0]}`, asked !== null);
    if (path.endsWith('.html') || path === '/') attempts.add(`${path}: inline script`, /<script>/.test(text));
  }
  attempts.done(files.length * 2);
});

/* Secrets */

test('no token, PIN, code or rider’s name where it does not belong', async () => {
  const attempts = new Attempts('secrets in logs, figures and files');
  const { port } = hub;
  const token = office.cookie.split('=')[1] ?? '';
  // What might be written down: everything that goes wrong, with the secrets in it.
  await askToPair(port, code, office.cookie);
  await ask(aisle.client, { to: 'unlock', by: office.by, pin: '728404' });
  await ask(aisle.client, { to: 'unlock', by: office.by, pin: PIN });
  await fetch(`http://127.0.0.1:${port}/account?from=${token}&until=${PIN}`, {
    headers: { Cookie: office.cookie },
  });
  await fetch(`http://127.0.0.1:${port}/import`, {
    method: 'POST',
    headers: { Cookie: office.cookie },
    body: `{"${RIDER}":`,
  });
  const stranger = await connect(port, office.cookie);
  stranger.client.raw(`{"say":"taps","${PIN}":"${token} ${RIDER}"`);
  await stranger.client.next('refused');
  const spoken: [where: string, text: string][] = [];
  for (const path of ['/health', '/metrics']) {
    spoken.push([path, await (await fetch(`http://127.0.0.1:${port}${path}`)).text()]);
  }
  const { errors } = await hub.end('SIGTERM');
  spoken.push(['log', errors]);
  const files = readdirSync(data, { recursive: true, withFileTypes: true }).filter((one) => one.isFile());
  for (const file of files) {
    const text = readFileSync(join(file.parentPath, file.name), 'latin1');
    const isBoard = /^(journal|snapshot)/.test(file.name);
    spoken.push([file.name, isBoard ? text.replaceAll(RIDER, '') : text]);
  }
  expect(files.map(({ name }) => name)).toEqual(expect.arrayContaining(['gate.json', 'gate.log']));
  const own = [token, aisle.cookie.split('=')[1] ?? '', PIN, '728404', code];
  for (const [where, text] of spoken) {
    for (const secret of [...own, RIDER]) attempts.add(`${secret} in ${where}`, text.includes(secret));
  }
  attempts.done(30);
});
