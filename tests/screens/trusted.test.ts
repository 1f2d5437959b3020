/**
 * Chromium before the hub's own certificate: with the authority trusted as a person does it, and nothing switched off. What
 * only secure pages get is what the Secure Contexts and Service Worker specifications give them.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { issueLeaf, type Certified } from '../../hub/tls/authority.ts';
import { ownCertificates, type Certificates } from '../../hub/tls/certificates.ts';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { hang, HUB_NAME, launch, OUTSIDE_NAME, TestBarn } from './browser.ts';
import { homeThatTrusts, type Home } from './trust.ts';

let folder: string;
let certificates: Certificates;
let home: Home;
let trusting: Browser;
let others: Browser;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'aisle-board-trusted-'));
  certificates = await ownCertificates(join(folder, 'tls'), 'Thistle Yard', [HUB_NAME], Date.now());
  home = homeThatTrusts(certificates.shown.authority ?? '', unbound().cert);
  [trusting, others] = await Promise.all([launch(home.path), launch()]);
});
afterAll(async () => {
  await Promise.all([trusting.close(), others.close()]);
  home.remove();
  rmSync(folder, { recursive: true, force: true });
});

async function barnWith(shown: Certificates): Promise<TestBarn> {
  const barn = new TestBarn(smallBoard(), NOON);
  barn.certificates = shown;
  await barn.start();
  return barn;
}

/** An authority that OpenSSL made, without name constraints: the same file each time it is asked for. */
function unbound(): Certified {
  const [cert, key] = [join(folder, 'unbound.crt'), join(folder, 'unbound.key')];
  try {
    return { cert: readFileSync(cert, 'utf8'), key: readFileSync(key, 'utf8') };
  } catch {
    const curve = ['-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:P-256', '-nodes'];
    const named = ['-subj', '/CN=Unbound', '-days', '30', '-keyout', key, '-out', cert];
    execFileSync('openssl', ['req', '-x509', ...curve, ...named], { stdio: 'pipe' });
    return unbound();
  }
}

/** For a name that is not the barn's own, signed by `authority`. */
async function outside(authority: Certified): Promise<Certificates> {
  const leaf = await issueLeaf(authority, [OUTSIDE_NAME], Date.now());
  return { shown: { ...leaf, authority: authority.cert, print: null }, look: async () => null };
}

/** What a browser says to a page it will not open. */
async function refusal(browser: Browser, url: string): Promise<string> {
  const page = await browser.newPage();
  const said = await page.goto(url).then(
    () => 'opened',
    (error: Error) => /net::\w+/.exec(error.message)?.[0] ?? error.message,
  );
  await page.close();
  return said;
}

test('where the authority is trusted: a secure page, its worker, an encrypted socket, and the glass kept lit', async () => {
  const barn = await barnWith(certificates);
  const { page, context, errors } = await hang(trusting, `${barn.url}/health`, { role: 'aisle', stalls: [] });
  const sockets: string[] = [];
  page.on('websocket', (socket) => sockets.push(socket.url()));
  await page.addInitScript(() => {
    const { wakeLock } = navigator;
    // Absent where the page is not secure.
    if (!wakeLock as boolean) return;
    const asked = wakeLock.request.bind(wakeLock);
    wakeLock.request = (kind) => {
      document.documentElement.dataset['wakeAsked'] = String(kind);
      return asked(kind);
    };
  });
  const answer = await page.goto(barn.url);
  const security = await answer?.securityDetails();
  expect(security).toMatchObject({ subjectName: HUB_NAME, protocol: 'TLS 1.3' });
  await page.locator('[data-screen="aisle"] [data-horse]').first().waitFor();
  expect(await page.evaluate(() => window.isSecureContext)).toBe(true);
  expect(sockets.length).toBeGreaterThan(0);
  for (const url of sockets) expect(url).toBe(`wss://${HUB_NAME}:${barn.port}/live`);
  await page.locator('html[data-wake-asked="screen"]').waitFor({ state: 'attached' });
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    while (!navigator.serviceWorker.controller) await new Promise((done) => setTimeout(done, 50));
  });
  const cookies = await context.cookies();
  for (const { secure } of cookies) expect(secure).toBe(true);

  // The worker opens the board while the hub is away.
  await barn.stop();
  await page.reload();
  await page.locator('[data-band="away"]').waitFor();
  await page.locator('[data-screen="aisle"] [data-horse]').first().waitFor();
  expect(errors).toEqual([]);
  await context.close();
  await barn.clear();
});

test('where it is not trusted, nothing opens but the page by plain http that says how to trust it', async () => {
  const barn = await barnWith(certificates);
  expect(await refusal(others, barn.url)).toBe('net::ERR_CERT_AUTHORITY_INVALID');
  const page = await others.newPage();
  await page.goto(barn.url.replace('https:', 'http:'));
  expect(await page.textContent('body')).toContain(certificates.shown.print);
  await page.close();
  await barn.clear();
});

test('a certificate that the trusted authority gives to a name of the internet is refused', async () => {
  const [bound, free] = await Promise.all([
    barnWith(await outside(authorityOf(folder))),
    barnWith(await outside(unbound())),
  ]);
  const url = ({ port }: TestBarn): string => `https://${OUTSIDE_NAME}:${port}/`;
  // With an authority that is trusted as much and has no constraints it opens: they alone are the difference.
  expect(await refusal(trusting, url(free))).toBe('opened');
  expect(await refusal(trusting, url(bound))).toMatch(/^net::ERR_CERT_/);
  await Promise.all([bound.clear(), free.clear()]);
});

/** The hub's own, with its key. */
function authorityOf(at: string): Certified {
  const [cert = '', key = ''] = readFileSync(join(at, 'tls/authority.pem'), 'utf8').split('\n\n');
  return { cert, key };
}
