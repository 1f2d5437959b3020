/** Programs of the system that tests need: one that is here, or installed where that is allowed, or how to get one. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const CHROMIUM = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/snap/bin/chromium',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
];

const CERTUTIL = ['/usr/bin/certutil', '/usr/local/bin/certutil', '/opt/homebrew/bin/certutil'];

/** A real Chromium: its `path`, or null with `why` as one sentence. */
export function findChromium() {
  return find('Chromium', 'chromium', [process.env.CHROMIUM, ...CHROMIUM], ', or set CHROMIUM to its path,');
}

/** What puts a certificate into the list that Chromium on Linux trusts: as `findChromium`. */
export function findCertutil() {
  return find('certutil', 'libnss3-tools', CERTUTIL, '');
}

function find(name, debian, places, otherwise) {
  const here = places.find((path) => path && existsSync(path));
  if (here) return { path: here, why: '' };
  if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    console.log(`Installing ${name} for the browser tests (apt-get install ${debian}) …`);
    spawnSync('apt-get', ['update'], { stdio: 'ignore' });
    spawnSync('apt-get', ['install', '-y', '--no-install-recommends', debian], {
      stdio: 'ignore',
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    });
    const installed = places.find((path) => path && existsSync(path));
    if (installed) return { path: installed, why: '' };
  }
  return {
    path: null,
    why: `The browser tests need ${name}: install it (Debian: sudo apt-get install ${debian})${otherwise} and run npm test again.`,
  };
}
