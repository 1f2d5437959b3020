/**
 * A real Chromium and a real hub for the browser tests. Pages open the board under a name of the barn's network, as a
 * wall tablet does: there a page is no secure context, and service worker, Wake Lock, Web Locks, crypto.subtle and
 * crypto.randomUUID are missing.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Browser, type BrowserContext, type Locator, type Page } from 'playwright';
import type { Board } from '#core/day/board.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { openHub, type Hub } from '../../hub/main.ts';
import type { Certificates } from '../../hub/tls/certificates.ts';
import { PATIENCE_MS } from '../patience.ts';

/** The name the tests' tablets know the hub by. */
export const HUB_NAME = 'barn-hub.local';

/** A name that is no barn network's own, which leads to the hub in the tests' browsers (RFC 2606). */
export const OUTSIDE_NAME = 'barn-hub.example.org';

export const LANDSCAPE = { width: 1280, height: 800 };
export const PORTRAIT = { width: 800, height: 1280 };

/** `tests/run.mjs` has looked for a browser and says where it is. `home`: a home of its own, as `trust.ts` makes them. */
export function launch(home?: string): Promise<Browser> {
  return chromium.launch({
    executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
    ...(home !== undefined && { env: { ...process.env, HOME: home } }),
    args: [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--no-first-run',
      `--host-resolver-rules=MAP ${HUB_NAME} 127.0.0.1, MAP ${OUTSIDE_NAME} 127.0.0.1`,
    ],
  });
}

/** A hub over a data folder of its own, whose clock a test can set, that can be stopped and started again. */
export class TestBarn {
  readonly folder: string;
  readonly #first: Board;
  readonly #zero = performance.now();
  /** Folder of the pages it serves; default the built kiosk. To be set before `start`. */
  kiosk: string | null = null;
  /** Lets everybody in, for tests that are about something else than the gate. To be set before `start`. */
  isOpen = true;
  /** By https with these; null: plain http. To be set before `start`. */
  certificates: Certificates | null = null;
  /** The pairing code its console showed last. */
  code = '';
  #start: number;
  #hub: Hub | null = null;
  #port = 0;

  constructor(first: Board, start: number) {
    this.#first = first;
    this.#start = start;
    this.folder = mkdtempSync(join(tmpdir(), 'aisle-board-screens-'));
  }

  get url(): string {
    return `${this.certificates ? 'https' : 'http'}://${HUB_NAME}:${this.#port}`;
  }

  /** The same hub where browsers call the page a secure context: with service worker, Web Locks and Wake Lock. */
  get secureUrl(): string {
    return `http://localhost:${this.#port}`;
  }

  /** How many ops the hub has taken. */
  async taken(): Promise<number> {
    const answer = await fetch(`http://127.0.0.1:${this.#port}/health`);
    return ((await answer.json()) as { seq: number }).seq;
  }

  get port(): number {
    return this.#port;
  }

  async start(): Promise<void> {
    this.#hub = await openHub({
      open: this.isOpen,
      names: [HUB_NAME, OUTSIDE_NAME],
      showCode: (code) => (this.code = code ?? ''),
      port: this.#port,
      host: '127.0.0.1',
      folder: this.folder,
      first: this.#first,
      ...(this.kiosk === null ? {} : { kiosk: this.kiosk }),
      ...(this.certificates && { certificates: this.certificates }),
      clock: () => Math.round(this.#start + performance.now() - this.#zero),
      log: () => {},
    });
    this.#port = this.#hub.port;
  }

  async stop(): Promise<void> {
    await this.#hub?.close();
    this.#hub = null;
  }

  /** Lets the hub's clock jump ahead. */
  pass(ms: number): void {
    this.#start += ms;
  }

  async clear(): Promise<void> {
    await this.stop();
    rmSync(this.folder, { recursive: true, force: true });
  }
}

/** A tablet of its own, hung at this place, and its page's errors. */
export async function hang(
  browser: Browser,
  url: string,
  place: TabletPlace | null,
  viewport = LANDSCAPE,
): Promise<{ page: Page; context: BrowserContext; errors: string[] }> {
  const context = await browser.newContext({ viewport, hasTouch: true });
  if (place) {
    await context.addInitScript(
      ([key, value]) => {
        if (key && value && !localStorage.getItem(key)) localStorage.setItem(key, value);
      },
      ['aisle-board.place', JSON.stringify(place)],
    );
  }
  context.setDefaultTimeout(PATIENCE_MS);
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  await page.goto(url);
  return { page, context, errors };
}

const lastTap = new WeakMap<Page, number>();

/** Boards take two taps closer together than this for one that bounced; people are slower. In ms. */
const BETWEEN_TAPS_MS = 550;

/** A tap as a person makes it: on something that is there, and not at once after the last one. */
export async function tap(target: Locator): Promise<void> {
  const page = target.page();
  const since = performance.now() - (lastTap.get(page) ?? -Infinity);
  if (since < BETWEEN_TAPS_MS) await new Promise((done) => setTimeout(done, BETWEEN_TAPS_MS - since));
  await target.click();
  lastTap.set(page, performance.now());
}

/** Longer than any target on a board asks to be held, in ms. */
const HELD_MS = 1200;

/** A tap that is held, for what must not happen by accident. */
export async function hold(target: Locator): Promise<void> {
  await target.click({ delay: HELD_MS });
  lastTap.set(target.page(), performance.now());
}
