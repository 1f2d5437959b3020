/**
 * Opens the board while the hub is away, where the page is a secure context; elsewhere browsers have no service worker.
 * The hub's own page comes first whenever it answers, so no tablet stays on an old build; what is kept serves without it.
 */
import { version } from '$app/env';
import { assets, immutable } from '$app/manifest';
import { self } from '$app/service-worker';

/** One cache for each build: a page and its files always belong together. */
const CACHE = `aisle-board-${version}`;

/** Build caches kept: this one, and the one before it for a page that is still open. */
const KEPT = 2;

/** A hub that has not answered by then is away, in ms. */
const PATIENCE_MS = 3000;

const PAGE = '/';

/** No screen, though a browser goes there to fetch it. */
const BACKUP = '/backup';

self.addEventListener('install', (event) => event.waitUntil(keepBuild()));
self.addEventListener('activate', (event) => event.waitUntil(takeOver()));
self.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== location.origin || pathname === BACKUP) return;
  if (request.mode === 'navigate') event.respondWith(page());
  else if (FILES.has(pathname) || pathname.startsWith('/_app/immutable/')) event.respondWith(file(request));
});

const FILES = new Set([...immutable, ...assets].map(({ path }) => new URL(path, location.origin).pathname));

async function keepBuild(): Promise<void> {
  const cache = await caches.open(CACHE);
  const keep = (paths: readonly string[]): Promise<void> =>
    cache.addAll(paths.map((path) => new Request(path, { cache: 'no-cache' })));
  await keep([PAGE, ...FILES]);
  // What begins the page the hub makes a file of; the build does not know it.
  const text = (await (await cache.match(PAGE))?.text()) ?? '';
  await keep([...text.matchAll(/<script src="([^"]+)"/g)].map(([, path = PAGE]) => path));
  await self.skipWaiting();
}

async function takeOver(): Promise<void> {
  const names = (await caches.keys()).filter((name) => name.startsWith('aisle-board-'));
  // In the order they were made; this build's may be older than it looks, when a build came back.
  const others = names.filter((name) => name !== CACHE).slice(0, -(KEPT - 1));
  await Promise.all(others.map((name) => caches.delete(name)));
  await self.clients.claim();
}

/** Any address without a file is a screen of the one page. */
async function page(): Promise<Response> {
  try {
    const answer = await fetch(PAGE, { cache: 'no-cache', signal: AbortSignal.timeout(PATIENCE_MS) });
    if (answer.ok) return answer;
  } catch {
    // The hub is away.
  }
  const cache = await caches.open(CACHE);
  return (await cache.match(PAGE)) ?? Response.error();
}

/** A file's name changes with its content, so what is kept is right. */
async function file(request: Request): Promise<Response> {
  return (await caches.match(request)) ?? fetch(request);
}
