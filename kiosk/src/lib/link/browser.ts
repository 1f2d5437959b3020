/** The browser behind the link: its sockets, clocks and timers, and how the page is loaded anew. */
import type { Clocks } from './clock.ts';
import { heard } from './heard.ts';
import type { Surroundings } from './socket.ts';

export const browserClocks: Clocks = { mono: () => performance.now(), wall: () => Date.now() };

export const browserSurroundings: Surroundings = {
  dial: (on) => {
    const scheme = location.protocol === 'https:' ? 'wss' : 'ws';
    const socket = new WebSocket(`${scheme}://${location.host}/live`);
    socket.onopen = on.opened;
    socket.onclose = on.closed;
    socket.onmessage = ({ data }: MessageEvent<unknown>) => {
      if (typeof data === 'string') on.said(data);
    };
    return {
      send: (text) => socket.send(text),
      close: () => {
        socket.onclose = null;
        socket.close();
      },
    };
  },
  read: heard,
  after: (ms, run) => {
    const timer = setTimeout(run, ms);
    return () => clearTimeout(timer);
  },
  random: Math.random,
};

/** Calls back once before the next paint; at once where nothing is painted. */
export function beforePaint(run: () => void): void {
  if (document.visibilityState === 'hidden') run();
  else requestAnimationFrame(run);
}

/** Calls back once after the next paint; at once where nothing is painted. */
export function afterPaint(run: () => void): void {
  if (document.visibilityState === 'hidden') run();
  else requestAnimationFrame(() => setTimeout(run));
}

/** Whether this page would open again while the hub is away. */
export function opensWithoutHub(): boolean {
  return 'serviceWorker' in navigator && navigator.serviceWorker.controller !== null;
}

/** Longest the hub may take to show that it serves pages, in ms. */
const PROBE_MS = 4000;

/** Loads the page anew, at `path` or where it is, but never into nothing: only once the hub shows that it serves pages. */
export async function loadAnew(path: string | null): Promise<boolean> {
  try {
    const there = await fetch('/health', { cache: 'no-store', signal: AbortSignal.timeout(PROBE_MS) });
    if (!there.ok) return false;
    await updateWorker();
  } catch {
    return false;
  }
  if (path === null) location.reload();
  else location.assign(path);
  return true;
}

/** Fetches the newer build's worker, so that it is there when the hub is away next. The page does not wait for it. */
async function updateWorker(): Promise<void> {
  const registration =
    'serviceWorker' in navigator ? await navigator.serviceWorker.getRegistration() : undefined;
  await registration?.update().catch(() => {});
}
