/**
 * `npm start`: installs and builds what is missing, then runs the board. Plain JavaScript that needs no package, since it
 * runs on whatever Node (20 or later) the computer has; the board itself runs on the Node among the packages.
 * A network is needed for installing only.
 */
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { constants } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const PACKAGES = join(ROOT, 'node_modules');
const LOCK = join(ROOT, 'package-lock.json');
const INSTALLED_FROM = join(PACKAGES, '.aisle-board-lock');
const NODE = join(PACKAGES, 'node', 'bin', process.platform === 'win32' ? 'node.exe' : 'node');

/** What is built: from what, by which program of the packages or our own, and where that runs and puts it. */
const BUILDS = [
  {
    what: 'the pages',
    sources: ['kiosk', 'src', 'package-lock.json'],
    by: [join(PACKAGES, 'vite', 'bin', 'vite.js'), 'build', '--logLevel', 'warn'],
    folder: join(ROOT, 'kiosk'),
  },
  {
    what: 'the hub',
    sources: ['hub', 'src', 'package-lock.json'],
    by: [join(ROOT, 'hub', 'bundle.ts')],
    folder: join(ROOT, 'hub'),
  },
];
/** What in those sources is made from them. */
const MADE = new Set(['build', '.svelte-kit', 'node_modules']);

const OPTIONS = {
  port: { type: 'string' },
  host: { type: 'string' },
  data: { type: 'string' },
  name: { type: 'string', multiple: true },
  tls: { type: 'boolean' },
  'tls-cert': { type: 'string' },
  'tls-key': { type: 'string' },
  metrics: { type: 'boolean' },
  'demo-speed': { type: 'string' },
  help: { type: 'boolean' },
};

const USAGE = `Usage: npm start -- [options]

  --port 4610        port to open the board on
  --host 0.0.0.0     address to listen on; 127.0.0.1 keeps it to this computer
  --data ./data      folder for the barn's records
  --name NAME        a name besides the computer's own that tablets use for it; may be given again
  --tls              by https, with a certificate of the hub's own (not in the demo)
  --tls-cert FILE    by https with the barn's own certificate, and
  --tls-key FILE     its key
  --metrics          other computers may ask for figures at /metrics
  --demo-speed 20    how fast the demo's clock runs
  --help             these lines

Starts the barn in the data folder, or the demo when there is none yet.`;

/** Why the board cannot start, in words for the person at the terminal. */
class CannotStart extends Error {}

/**
 * Makes node_modules fit package-lock.json. `forTests` asks for the packages that only checks and tests need, too.
 * Needs a network when something is missing, and throws when that fails.
 */
export async function ensureInstalled({ forTests = true } = {}) {
  const wanted = createHash('sha256').update(readFileSync(LOCK)).digest('hex');
  const [have, extent] = readIfThere(INSTALLED_FROM).trim().split(' ');
  if (have === wanted && (extent === 'all' || !forTests) && existsSync(NODE)) return;
  const missing = firstMissing(forTests);
  if (missing !== null) {
    say(`Installing packages (${missing}); this needs a network once and takes a minute or two.`);
    await npmCi(forTests);
  }
  writeFileSync(INSTALLED_FROM, `${wanted} ${firstMissing(true) === null ? 'all' : 'run'}\n`);
}

/** Builds pages and hub unless they were built from the very sources that are here. Throws when that fails. */
export async function ensureBuilt() {
  for (const { what, sources, by, folder } of BUILDS) {
    const builtFrom = join(folder, 'build', '.built-from');
    const wanted = hashOf(sources);
    if (readIfThere(builtFrom).trim() === wanted) continue;
    say(`Building ${what}; this takes a few seconds.`);
    const { code, output } = await gather(NODE, by, folder);
    if (code !== 0) throw new CannotStart(`${what} could not be built:\n${output}`);
    writeFileSync(builtFrom, `${wanted}\n`);
  }
}

/** What of package-lock.json is not installed, in a few words; null when all of it is. */
function firstMissing(forTests) {
  if (!existsSync(NODE)) return existsSync(PACKAGES) ? 'Node itself is missing' : 'none are installed yet';
  const installed = JSON.parse(readIfThere(join(PACKAGES, '.package-lock.json')) || '{}').packages ?? {};
  for (const [path, wanted] of Object.entries(JSON.parse(readFileSync(LOCK, 'utf8')).packages)) {
    // Optional ones are for other kinds of computer.
    if (path === '' || wanted.optional || wanted.devOptional || (wanted.dev && !forTests)) continue;
    if (installed[path]?.version !== wanted.version)
      return `${path.replace(/^.*node_modules\//, '')} is missing or old`;
  }
  return null;
}

async function npmCi(forTests) {
  const args = ['ci', '--no-audit', '--no-fund', '--loglevel=error', ...(forTests ? [] : ['--omit=dev'])];
  const npm = process.env.npm_execpath;
  const { code, output } = npm?.endsWith('.js')
    ? await gather(process.execPath, [npm, ...args], ROOT)
    : await gather('npm', args, ROOT, { shell: process.platform === 'win32' });
  if (code === 0) return;
  throw new CannotStart(
    `The packages could not be installed. Connect this computer to the internet and start again.\n${output}`,
  );
}

/** SHA-256 over names and contents, so that a copied or checked-out folder counts as the same. */
function hashOf(paths) {
  const hash = createHash('sha256');
  const add = (path) => {
    for (const entry of readdirSync(join(ROOT, path), { withFileTypes: true }).sort(byName)) {
      const inside = `${path}/${entry.name}`;
      if (entry.isDirectory() && !MADE.has(entry.name)) add(inside);
      else if (entry.isFile()) addFile(inside);
    }
  };
  const addFile = (path) => {
    const content = readFileSync(join(ROOT, path));
    hash.update(`${path}\0${content.length}\0`).update(content);
  };
  for (const path of paths) {
    if (path.includes('.')) addFile(path);
    else add(path);
  }
  return hash.digest('hex');
}

function byName(a, b) {
  return a.name < b.name ? -1 : 1;
}

function readIfThere(path) {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return '';
  }
}

function gather(command, args, cwd, more = {}) {
  return new Promise((done) => {
    const child = spawn(command, args, { cwd, stdio: ['ignore', 'pipe', 'pipe'], ...more });
    let output = '';
    child.stdout.on('data', (text) => (output += text));
    child.stderr.on('data', (text) => (output += text));
    child.on('error', (error) => done({ code: 1, output: String(error) }));
    child.on('close', (code) => done({ code, output }));
  });
}

/**
 * How the board's Node is run on a small computer: it keeps its heaps small, the young one too (a larger one grows with every
 * burst and stays), does without the middle one of its compilers (6 MB of program and code), and what was compiled once is kept.
 * Where sources run as they are, as in the demo, that keeps main thread and planner from loading the compiler that strips
 * their types, some 30 MB each.
 */
export const NODE_FLAGS = ['--optimize-for-size', '--no-maglev', '--max-semi-space-size=1'];
export const NODE_ENV = {
  NODE_COMPILE_CACHE: join(PACKAGES, '.cache', 'aisle-board'),
  MALLOC_ARENA_MAX: '1',
};

/** Runs the board until it ends; answers with its exit code. */
function run(script, args) {
  return new Promise((done, fail) => {
    const child = spawn(NODE, [...NODE_FLAGS, join(ROOT, script), ...args], {
      stdio: 'inherit',
      env: { ...NODE_ENV, ...process.env },
    });
    const pass = (signal) => child.kill(signal);
    process.on('SIGINT', pass).on('SIGTERM', pass);
    child.on('error', fail);
    child.on('exit', (code, signal) => done(code ?? 128 + constants.signals[signal]));
  });
}

/** The options as given, or a plain sentence why not. */
function readOptions(args) {
  try {
    return parseArgs({ args, options: OPTIONS }).values;
  } catch (error) {
    throw new CannotStart(`${error.message.split('. ')[0]}. npm start -- --help lists them all.`);
  }
}

async function main(args) {
  const { help, 'demo-speed': speed, ...passedOn } = readOptions(args);
  if (help) {
    console.log(USAGE);
    return 0;
  }
  await ensureInstalled({ forTests: false });
  await ensureBuilt();
  const on = Object.entries(passedOn).flatMap(([name, value]) =>
    value === true ? [`--${name}`] : [value].flat().flatMap((one) => [`--${name}`, one]),
  );
  const data = resolve(passedOn.data ?? 'data');
  // A restore that was cut off just before its end is ended by the hub.
  const isReal = ['barn', 'barn.new'].some((name) => existsSync(join(data, name, 'snapshot.json')));
  if (isReal && speed !== undefined) say('The data folder holds a real barn, so --demo-speed does nothing.');
  if (isReal) return run('hub/build/run.js', on);
  const { tls, metrics, 'tls-cert': cert, 'tls-key': key } = passedOn;
  if (tls || metrics || cert || key)
    say('The demo is by plain http and without figures: those options count for a real barn.');
  const forDemo = on.filter(
    (one) => !['--tls', '--metrics', '--tls-cert', '--tls-key', cert, key].includes(one),
  );
  return run('demo/main.ts', speed === undefined ? forDemo : [...forDemo, '--demo-speed', speed]);
}

function say(line) {
  console.error(line);
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  try {
    process.exitCode = await main(process.argv.slice(2));
  } catch (error) {
    if (!(error instanceof CannotStart)) throw error;
    say(error.message);
    process.exitCode = 1;
  }
}
