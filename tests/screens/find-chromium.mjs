/** A real Chromium for the browser tests: one that is here, or installed where that is allowed, or how to get one. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const USUAL_PLACES = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/snap/bin/chromium',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
];

/** `path` of the browser, or null with `why` as one sentence. */
export async function findChromium() {
  const here = [process.env.CHROMIUM, ...USUAL_PLACES].find((path) => path && existsSync(path));
  if (here) return { path: here, why: '' };
  if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    console.log('Installing Chromium for the browser tests (apt-get install chromium) …');
    spawnSync('apt-get', ['update'], { stdio: 'ignore' });
    spawnSync('apt-get', ['install', '-y', '--no-install-recommends', 'chromium'], {
      stdio: 'ignore',
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    });
    if (existsSync('/usr/bin/chromium')) return { path: '/usr/bin/chromium', why: '' };
  }
  return {
    path: null,
    why: 'The browser tests need Chromium: install it (Debian: sudo apt-get install chromium), or set CHROMIUM to its path, and run npm test again.',
  };
}
