/** The hub's own certificates, as OpenSSL sees them: trusted for the barn's names, for nothing else, and renewed in time. */
import { execFile, execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createServer as plainServer } from 'node:http';
import { createServer as tlsServer, request as httpsRequest } from 'node:https';
import type { AddressInfo } from 'node:net';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import type { TLSSocket } from 'node:tls';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { WebSocket } from 'ws';
import { openHub } from '../../hub/main.ts';
import { issueLeaf, makeAuthority, readLeaf } from '../../hub/tls/authority.ts';
import { givenCertificates, ownCertificates, type Shown } from '../../hub/tls/certificates.ts';
import { onOnePort } from '../../hub/tls/onOnePort.ts';
import { trustHandler } from '../../hub/tls/trustPage.ts';

const DAY_MS = 24 * 60 * 60 * 1000;
const NOW = Date.UTC(2026, 4, 2, 12);
const NAMES = ['aisle-board.local', 'localhost', '192.168.1.20', '127.0.0.1'];

let folder: string;
beforeEach(() => (folder = mkdtempSync(join(tmpdir(), 'aisle-board-tls-'))));
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** What `openssl verify` says at `at`. */
function verify(authority: string, leaf: string, at: number, ...more: string[]): string {
  writeFileSync(join(folder, 'ca.pem'), authority);
  writeFileSync(join(folder, 'leaf.pem'), leaf);
  const time = String(Math.floor(at / 1000));
  const said = spawnSync(
    'openssl',
    [
      'verify',
      '-x509_strict',
      '-attime',
      time,
      ...more,
      '-CAfile',
      join(folder, 'ca.pem'),
      join(folder, 'leaf.pem'),
    ],
    { encoding: 'utf8' },
  );
  return said.status === 0 ? 'OK' : said.stderr + said.stdout;
}

describe('certificates before OpenSSL', () => {
  it('are good for each of the hub’s names and addresses, by the strict rules of RFC 5280', async () => {
    const authority = await makeAuthority('Thistle Yard', NOW);
    const leaf = await issueLeaf(authority, NAMES, NOW);
    expect(
      verify(
        authority.cert,
        leaf.cert,
        NOW,
        '-purpose',
        'sslserver',
        '-verify_hostname',
        'aisle-board.local',
      ),
    ).toBe('OK');
    expect(verify(authority.cert, leaf.cert, NOW, '-verify_ip', '192.168.1.20')).toBe('OK');
    const bare = await issueLeaf(authority, ['192.168.1.20'], NOW);
    expect(verify(authority.cert, bare.cert, NOW, '-verify_ip', '192.168.1.20')).toBe('OK');
    expect(verify(authority.cert, leaf.cert, NOW, '-verify_hostname', 'other.local')).toMatch(
      /hostname mismatch/i,
    );
    expect(verify((await makeAuthority('Other', NOW)).cert, leaf.cert, NOW)).not.toBe('OK');
  });

  it('cannot be made for a name or address of the internet (RFC 5280, 4.2.1.10)', async () => {
    const authority = await makeAuthority('Thistle Yard', NOW);
    for (const name of ['example.org', 'bank.example.com', '93.184.216.34', '2001:db8::1']) {
      const leaf = await issueLeaf(authority, [name], NOW);
      expect(verify(authority.cert, leaf.cert, NOW), name).toMatch(/permitted subtree violation/i);
    }
    // Nor may what it signs sign others.
    const leaf = await issueLeaf(authority, NAMES, NOW);
    const forged = await issueLeaf(leaf, ['localhost'], NOW);
    expect(verify(authority.cert + leaf.cert, forged.cert, NOW)).not.toBe('OK');
  });

  it('end after 90 days, and are renewed a third before that, under a moved clock', async () => {
    const certificates = await ownCertificates(join(folder, 'keys'), 'Thistle Yard', NAMES, NOW);
    const { cert, authority } = certificates.shown;
    expect(verify(authority!, cert, NOW + 89 * DAY_MS)).toBe('OK');
    expect(verify(authority!, cert, NOW + 91 * DAY_MS)).toMatch(/expired/);
    expect(await certificates.look(NAMES, NOW + 59 * DAY_MS)).toBeNull();
    const renewed = await certificates.look(NAMES, NOW + 61 * DAY_MS);
    expect(renewed?.authority).toBe(authority);
    expect(verify(authority!, renewed!.cert, NOW + 91 * DAY_MS)).toBe('OK');
    // A hub that was off for a year comes back with the authority that tablets trust.
    const year = NOW + 365 * DAY_MS;
    const later = await ownCertificates(join(folder, 'keys'), 'Thistle Yard', NAMES, year);
    expect(later.shown.authority).toBe(authority);
    expect(verify(authority!, later.shown.cert, year)).toBe('OK');
  });

  it('are made anew when the hub gets another address, and not otherwise', async () => {
    const first = await ownCertificates(join(folder, 'keys'), 'Thistle Yard', NAMES, NOW);
    const again = await ownCertificates(join(folder, 'keys'), 'Thistle Yard', NAMES, NOW + DAY_MS);
    expect(again.shown.cert).toBe(first.shown.cert);
    const moved = await again.look([...NAMES, '10.0.0.9'], NOW + DAY_MS);
    expect(readLeaf(moved!.cert).names).toContain('10.0.0.9');
  });

  it('have keys that only the hub’s own user can read', async () => {
    await ownCertificates(join(folder, 'keys'), 'Thistle Yard', NAMES, NOW);
    const files = readdirSync(join(folder, 'keys'));
    expect(files.sort()).toEqual(['authority.pem', 'hub.pem']);
    for (const file of files) expect(statSync(join(folder, 'keys', file)).mode & 0o777, file).toBe(0o600);
    expect(statSync(join(folder, 'keys')).mode & 0o777).toBe(0o700);
  });

  it('that are damaged stop the start with what to do', async () => {
    await ownCertificates(join(folder, 'keys'), 'Thistle Yard', NAMES, NOW);
    writeFileSync(join(folder, 'keys', 'authority.pem'), 'nothing');
    await expect(ownCertificates(join(folder, 'keys'), 'Thistle Yard', NAMES, NOW)).rejects.toThrow(
      /damaged.*trust the new one/,
    );
  });

  it('of the barn’s own are shown as they are, and read anew when they change', async () => {
    const [cert, key] = [join(folder, 'c.pem'), join(folder, 'k.pem')];
    const openssl = (days: number): void =>
      void execFileSync(
        'openssl',
        [
          'req',
          '-x509',
          '-newkey',
          'ec',
          '-pkeyopt',
          'ec_paramgen_curve:P-256',
          '-nodes',
          '-days',
          String(days),
          '-subj',
          '/CN=own',
          '-keyout',
          key,
          '-out',
          cert,
        ],
        { stdio: 'pipe' },
      );
    openssl(30);
    const given = await givenCertificates(cert, key);
    expect(given.shown).toMatchObject({ cert: readFileSync(cert, 'utf8'), authority: null });
    expect(await given.look([], NOW)).toBeNull();
    openssl(60);
    expect(await given.look([], NOW)).toMatchObject({ cert: readFileSync(cert, 'utf8') });
    await expect(givenCertificates(join(folder, 'none.pem'), key)).rejects.toThrow(
      /cannot be read \(ENOENT\)/,
    );
  });
});

describe('one port for plain and encrypted', () => {
  it('tells them apart, whole and in pieces, and outlives nonsense', async () => {
    const authority = await makeAuthority('Thistle Yard', Date.now());
    const leaf = await issueLeaf(authority, NAMES, Date.now());
    const plain = plainServer((_, response) => response.end('plain'));
    const encrypted = tlsServer(leaf, (_, response) => response.end('encrypted'));
    const one = onOnePort(plain, encrypted);
    await new Promise<void>((done) => one.listen(0, '127.0.0.1', done));
    const { port } = one.address() as AddressInfo;
    for (const nonsense of ['', '\x16', '\x16\x03\x01garbage', '\0\0\0', 'x'.repeat(70_000)]) {
      await new Promise<void>((done) => {
        const socket = connect(port, '127.0.0.1', () => socket.end(nonsense, 'latin1'));
        socket
          .on('error', () => {})
          .on('close', () => done())
          .resume();
      });
    }
    expect(await (await fetch(`http://127.0.0.1:${port}/`)).text()).toBe('plain');
    writeFileSync(join(folder, 'ca.pem'), authority.cert);
    const client = await new Promise<string>((done) => {
      let said = '';
      const socket = connect(port, '127.0.0.1');
      const slowly = async (): Promise<void> => {
        for (const letter of 'GET / HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n') {
          socket.write(letter);
          await new Promise((next) => setImmediate(next));
        }
      };
      socket.on('connect', () => void slowly());
      socket.on('data', (text: Buffer) => (said += text.toString())).on('close', () => done(said));
    });
    expect(client).toMatch(/plain$/);
    const { stdout } = await promisify(execFile)('sh', [
      '-c',
      `openssl s_client -connect 127.0.0.1:${port} -verify_ip 127.0.0.1 -CAfile ${join(folder, 'ca.pem')} </dev/null`,
    ]);
    expect(stdout).toMatch(/Verify return code: 0 \(ok\)/);
    expect(stdout).toMatch(/TLSv1\.3/);
    one.close();
    plain.closeAllConnections();
    encrypted.closeAllConnections();
  });
});

describe('who comes by plain http', () => {
  const shown = { cert: '', key: '', authority: 'THE CERTIFICATE', print: 'AB:CD' };

  async function ask(
    path: string,
    how: RequestInit & { host?: string } = {},
    given: Shown = shown,
  ): Promise<Response> {
    const handler = trustHandler(
      () => given,
      () => 4610,
    );
    const server = plainServer((request, response) => {
      if (how.host !== undefined) request.headers.host = how.host;
      void handler(request, response);
    });
    await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
    try {
      const { port } = server.address() as AddressInfo;
      return await fetch(`http://127.0.0.1:${port}${path}`, { redirect: 'manual', ...how });
    } finally {
      server.close();
    }
  }

  it('is shown how to trust it, without any script, in the language asked for', async () => {
    const english = await ask('/aisle');
    expect(english.headers.get('content-security-policy')).toMatch(/^default-src 'none'; style-src 'sha256-/);
    const page = await english.text();
    expect(page).toContain('AB:CD');
    expect(page).toContain('https://127.0.0.1:4610/');
    expect(page).not.toMatch(/<script|javascript:|https?:\/\/(?!127)/i);
    const spanish = await (await ask('/', { headers: { 'Accept-Language': 'es-MX,es;q=0.9' } })).text();
    expect(spanish).toContain('<html lang="es"');
  });

  it('gets the certificate to install, and nothing that was meant for the board', async () => {
    const file = await ask('/aisle-board.crt');
    expect(file.headers.get('content-type')).toBe('application/x-x509-ca-cert');
    expect(await file.text()).toBe('THE CERTIFICATE');
    expect((await ask('/pair', { method: 'POST', body: '123456' })).status).toBe(403);
  });

  it('is led on where the certificate is the barn’s own', async () => {
    const answer = await ask('/aisle', {}, { ...shown, authority: null, print: null });
    expect([answer.status, answer.headers.get('location')]).toEqual([308, 'https://127.0.0.1:4610/']);
  });

  it('cannot put a name of theirs into the page', async () => {
    for (const host of ['"><script>alert(1)</script>', 'evil.example/..', 'a b']) {
      const page = await (await ask('/', { host })).text();
      expect(page, host).toContain('https://localhost:4610/');
      expect(page, host).not.toContain('alert(1)');
    }
  });
});

describe('a hub with --tls', () => {
  it('serves pages and sockets by https to who trusts it, leads plain http to the way to trust it, and renews while it runs', async () => {
    const certificates = await ownCertificates(join(folder, 'keys'), 'Thistle Yard', NAMES, Date.now());
    let now = Date.now();
    const hub = await openHub({
      port: 0,
      host: '127.0.0.1',
      folder: null,
      open: true,
      certificates,
      clock: () => now,
      log: () => {},
    });
    try {
      const ca = certificates.shown.authority!;
      expect((await get(hub.port, '/health', ca)).body).toContain('"ok"');
      const plain = await fetch(`http://127.0.0.1:${hub.port}/aisle`);
      expect(await plain.text()).toContain(certificates.shown.print);
      await expect(get(hub.port, '/health', (await makeAuthority('Other', now)).cert)).rejects.toThrow();
      const line = new WebSocket(`wss://127.0.0.1:${hub.port}/live`, { ca });
      const pong = await new Promise<string>((done, fail) => {
        line.on('error', fail).on('message', (text: Buffer) => done(text.toString()));
        line.on('open', () => line.send('{"say":"ping","t1":1}'));
      });
      expect(JSON.parse(pong)).toMatchObject({ say: 'refused', code: 'helloFirst' });
      line.close();
      const before = (await get(hub.port, '/health', ca)).serial;
      await hub.certify(NAMES);
      expect((await get(hub.port, '/health', ca)).serial).toBe(before);
      now += 61 * DAY_MS;
      await hub.certify(NAMES);
      expect((await get(hub.port, '/health', ca, now)).serial).not.toBe(before);
    } finally {
      await hub.close();
    }
  });
});

describe('half a handshake', () => {
  it('is not waited for longer than half a request', async () => {
    const certificates = await ownCertificates(join(folder, 'keys'), 'Thistle Yard', NAMES, Date.now());
    const hub = await openHub({ port: 0, host: '127.0.0.1', folder: null, certificates, log: () => {} });
    try {
      const sockets = Array.from({ length: 20 }, () => connect(hub.port, '127.0.0.1'));
      for (const socket of sockets) {
        socket
          .resume()
          .on('error', () => {})
          .write('\x16\x03\x01', 'latin1');
      }
      await expect
        .poll(() => sockets.filter(({ destroyed }) => !destroyed).length, { timeout: 15_000, interval: 200 })
        .toBe(0);
    } finally {
      await hub.close();
    }
  });
});

/** Over TLS, trusting `ca` alone; with the serial number of the certificate that was shown. */
function get(port: number, path: string, ca: string, at?: number): Promise<{ body: string; serial: string }> {
  return new Promise((done, fail) => {
    // A renewed certificate begins in the future of this computer's clock; that it is good then, OpenSSL has said above.
    const request = httpsRequest({
      port,
      host: '127.0.0.1',
      path,
      ca,
      agent: false,
      rejectUnauthorized: at === undefined,
    });
    request.on('error', fail).on('response', (response) => {
      const { serialNumber } = (response.socket as TLSSocket).getPeerCertificate();
      let body = '';
      response.on('data', (text: Buffer) => (body += text.toString()));
      response.on('end', () => done({ body, serial: serialNumber }));
    });
    request.end();
  });
}
