/** Pictures over HTTP: what is taken, what is refused, and what no path leads to. */
import { mkdtempSync, readdirSync, rmSync, writeFileSync, utimesSync } from 'node:fs';
import { createServer, request, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { emptyBarn, type Barn } from '#core/barn/barn.ts';
import { answerAt, endpointFor } from '../../hub/endpoints.ts';
import { OPEN_GATE, type Gate } from '../../hub/gate.ts';
import { MOST_PHOTO_BYTES, photosEndpoints } from '../../hub/photos.ts';
import { photoFolder } from '../../hub/storage/photoFolder.ts';
import { horse } from '../properties/day-arbitraries.ts';

/** First bytes of a JPEG file (ITU-T T.81: SOI, then a marker) and of a WebP file (RFC 9649). */
const JPEG = Buffer.concat([Buffer.from([0xff, 0xd8, 0xff, 0xe0]), Buffer.alloc(200, 7)]);
const WEBP = Buffer.concat([Buffer.from('RIFF\0\0\0\0WEBPVP8 '), Buffer.alloc(100, 9)]);

let folder: string;
let server: Server;
let gate: Gate;
let barn: Barn;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'aisle-board-photos-'));
  gate = OPEN_GATE;
  barn = emptyBarn('Test', 'Europe/Berlin');
  const endpoints = photosEndpoints({
    shelf: photoFolder(join(folder, 'photos')),
    barn: () => barn,
    now: Date.now,
  });
  server = createServer((asked, response) => {
    const found = endpointFor(endpoints, asked.method ?? '', (asked.url ?? '').split('?')[0] ?? '');
    if (found && 'endpoint' in found) void answerAt(found.endpoint, gate, asked, response);
    else response.writeHead(found ? 405 : 404).end();
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
});
afterEach(async () => {
  await new Promise((done) => server.close(done));
  rmSync(folder, { recursive: true, force: true });
});

const url = (path: string): string => `http://127.0.0.1:${(server.address() as AddressInfo).port}${path}`;
const send = (bytes: Buffer): Promise<Response> =>
  fetch(url('/photos'), { method: 'POST', body: new Uint8Array(bytes) });
const nameOf = async (response: Response): Promise<string> =>
  ((await response.json()) as { name: string }).name;

/** The path as it is: `fetch` would tidy it up first. */
function raw(path: string): Promise<number> {
  return new Promise((done, fail) => {
    const { port } = server.address() as AddressInfo;
    request({ port, host: '127.0.0.1', path }, (response) => {
      response.resume();
      done(response.statusCode ?? 0);
    })
      .on('error', fail)
      .end();
  });
}

describe('a picture', () => {
  test.each([
    ['image/jpeg', JPEG],
    ['image/webp', WEBP],
  ])('%s comes back as it went in, under a name of its own', async (type, bytes) => {
    const name = await nameOf(await send(bytes));
    const response = await fetch(url(`/photos/${name}`));
    expect(Buffer.from(await response.arrayBuffer()).equals(bytes)).toBe(true);
    expect(response.headers.get('content-type')).toBe(type);
    expect(response.headers.get('x-content-type-options')).toBe('nosniff');
    expect(await nameOf(await send(bytes))).toBe(name);
  });

  test('too large, or no picture, is refused and nothing is written', async () => {
    const large = Buffer.concat([JPEG, Buffer.alloc(MOST_PHOTO_BYTES)]);
    expect((await send(large)).status).toBe(413);
    for (const bytes of ['<svg onload=alert(1)>', '<html>', 'GIF89a', ''].map((one) => Buffer.from(one))) {
      expect((await send(bytes)).status).toBe(415);
    }
    expect(readdirSync(folder)).toEqual([]);
  });

  test('no path leads out of the folder', async () => {
    writeFileSync(join(folder, 'secret'), 'x');
    await send(JPEG);
    const paths = [
      '/photos/../secret',
      '/photos/..%2fsecret',
      '/photos/%2e%2e/secret',
      '/photos//etc/passwd',
      '/photos/',
    ];
    expect(await Promise.all(paths.map(raw))).toEqual(paths.map(() => 404));
  });

  test('only the coordinator puts one in; a tablet of the barn sees it; a stranger does not', async () => {
    const name = await nameOf(await send(JPEG));
    gate = { who: () => ({ is: 'tablet', device: 'd', place: { role: 'aisle', stalls: [] }, by: null }) };
    expect((await send(WEBP)).status).toBe(403);
    expect((await fetch(url(`/photos/${name}`))).status).toBe(200);
    gate = { who: () => ({ is: 'nobody' }) };
    expect([(await send(WEBP)).status, (await fetch(url(`/photos/${name}`))).status]).toEqual([401, 401]);
  });

  test('one no record names goes after a month; one that is named stays', async () => {
    const [used, unused] = [await nameOf(await send(JPEG)), await nameOf(await send(WEBP))];
    barn = { ...barn, horses: { fern: horse('fern', { photo: used }) } };
    const old = Date.now() / 1000 - 31 * 86_400;
    for (const name of [used, unused]) utimesSync(join(folder, 'photos', name), old, old);
    const third = await nameOf(await send(Buffer.concat([JPEG, JPEG])));
    expect(readdirSync(join(folder, 'photos')).toSorted()).toEqual([used, third].toSorted());
  });
});
