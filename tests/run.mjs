/**
 * `npm test`: the house checks and every test, on any Node from 20 up. Last line: `N passed, N failed`.
 * Plain JavaScript, since it runs before anything is installed.
 *
 *   node tests/run.mjs [checks] [core] [faults] [screens]     nothing named: all of them
 */
import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureBuilt, ensureInstalled } from '../hub/start.mjs';
import { findCertutil, findChromium } from './debian.mjs';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const BIN = join(ROOT, 'node_modules', '.bin');
const PARTS = ['checks', 'core', 'faults', 'screens'];

/** The house checks: a name and the command that must exit with 0. */
const CHECKS = [
  ['format', 'prettier', '--check', '--log-level', 'warn', '.'],
  ['types: src', 'tsc', '-p', 'src'],
  ['types: hub', 'tsc', '-p', 'hub'],
  ['types: demo', 'tsc', '-p', 'demo'],
  ['types: tests', 'tsc', '-p', 'tests'],
  ['types: kiosk', 'svelte-check', '--workspace', 'kiosk', '--fail-on-warnings', '--output', 'human'],
  [
    'lint',
    'oxlint',
    '-c',
    'tests/house/oxlint.json',
    '--type-aware',
    'src',
    'hub',
    'demo',
    'tests',
    'kiosk/src',
  ],
  ['lint: svelte', 'eslint', '--config', 'tests/house/eslint.config.js', 'kiosk/src'],
  [
    'one-way imports',
    'depcruise',
    '--config',
    'tests/house/dependencies.cjs',
    'src',
    'hub',
    'demo',
    'tests',
    'kiosk/src',
  ],
  ['unused code', 'knip', '--no-progress'],
];

const asked = process.argv.slice(2);
const unknown = asked.find((part) => !PARTS.includes(part));
if (unknown !== undefined) {
  console.error(`Unknown part "${unknown}": choose from ${PARTS.join(', ')}.`);
  finish(0, 1);
}
const parts = asked.length > 0 ? asked : PARTS;

let passed = 0;
let failed = 0;
const env = await madeReady(parts);
// Browser tests wait more than they work, so the others run beside them and are told before them.
const isAlone = parts.length === 1;
const screens = parts.includes('screens') ? runTests('screens', isAlone ? 'shown' : 'gathered') : null;
if (parts.includes('checks')) await runChecks();
// Faults own processes and pure tests take both processors: one after the other.
for (const name of ['core', 'faults']) if (parts.includes(name)) await runTests(name, 'shown');
if (screens) console.log((await screens) ?? '');
finish(passed, failed);

async function runChecks() {
  for (const [name, command, ...args] of CHECKS) {
    const started = Date.now();
    const { code, output } = await run(join(BIN, command), args, 'gathered');
    const seconds = ((Date.now() - started) / 1000).toFixed(1);
    if (code === 0) passed += 1;
    else failed += 1;
    console.log(`${code === 0 ? 'ok  ' : 'FAIL'} ${name} (${seconds} s)`);
    if (code !== 0) console.log(output);
  }
}

/** One of Vitest's projects, counted; resolves to its output where it was gathered. */
async function runTests(name, how) {
  const folder = mkdtempSync(join(tmpdir(), 'aisle-board-tests-'));
  const { output, counts, checks } = await runVitest(name, folder, how);
  rmSync(folder, { recursive: true, force: true });
  passed += counts.passed;
  failed += counts.failed;
  if (name === 'core') failed += tellSources(checks);
  return output;
}

/** What tests need of the computer; the environment to run them in. */
async function madeReady(names) {
  await ensureInstalled();
  if (names.some((name) => name === 'faults' || name === 'screens')) await ensureBuilt();
  if (!names.includes('screens')) return process.env;
  const [chromium, certutil] = [findChromium(), findCertutil()];
  // Without either the tests that need it fail by themselves, and say why.
  for (const { path, why } of [chromium, certutil]) if (!path) console.error(why);
  return {
    ...process.env,
    ...(chromium.path && { CHROMIUM: chromium.path }),
    ...(certutil.path && { CERTUTIL: certutil.path }),
  };
}

/** Vitest reports to files in `folder`, so that the counts do not depend on how its console output looks. */
async function runVitest(name, folder, how) {
  const [report, sources] = ['report.json', 'sources.json'].map((file) => join(folder, file));
  const { code, output } = await run(
    join(BIN, 'vitest'),
    [
      'run',
      '--config',
      'tests/vitest.config.ts',
      '--project',
      name,
      '--reporter=default',
      '--reporter=json',
      `--reporter=${join(ROOT, 'tests/house/sources.mjs')}`,
      `--outputFile.json=${report}`,
    ],
    how,
    { ...env, SOURCES_FILE: sources },
  );
  const counts = readReport(report);
  // A crash of the runner, a file that would not load or a skipped test must not look like success.
  if (code !== 0 && counts.failed === 0) counts.failed = 1;
  return { output, counts, checks: readSources(sources) };
}

function readSources(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return [];
  }
}

/** The published checks by source, most first. Answers how many checks name none: each counts as failed. */
function tellSources(checks) {
  if (checks.length === 0) {
    console.error('No list of the published checks was written.');
    return 1;
  }
  const bySource = new Map();
  for (const { sources } of checks) {
    for (const source of sources) bySource.set(source, (bySource.get(source) ?? 0) + 1);
  }
  const rows = [...bySource].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1));
  console.log(`\nPublished checks, by source (${checks.length} checks, some on several sources):`);
  for (const [source, count] of rows) console.log(`${String(count).padStart(5)}  ${source}`);
  const bare = checks.filter(({ sources }) => sources.length === 0);
  for (const { name } of bare) console.error(`A check without a source (tests/reference/source.ts): ${name}`);
  return bare.length;
}

function readReport(file) {
  try {
    const report = JSON.parse(readFileSync(file, 'utf8'));
    const left = report.numPendingTests + report.numTodoTests;
    if (left > 0) console.error(`${left} tests were skipped; a skipped test counts as failed.`);
    return { passed: report.numPassedTests, failed: report.numFailedTests + left };
  } catch {
    return { passed: 0, failed: 1 };
  }
}

/** Runs a command of ours with Node 24 first on the path. */
function run(command, args, output, env = process.env) {
  return new Promise((resolve) => {
    const child = spawn(command, args, {
      cwd: ROOT,
      env: { ...env, PATH: `${BIN}:${env.PATH}` },
      stdio: output === 'shown' ? ['ignore', 'inherit', 'inherit'] : ['ignore', 'pipe', 'pipe'],
    });
    let text = '';
    child.stdout?.on('data', (data) => (text += data));
    child.stderr?.on('data', (data) => (text += data));
    child.on('error', (error) => resolve({ code: 1, output: error.message }));
    child.on('close', (code) => resolve({ code: code ?? 1, output: text }));
  });
}

function finish(good, bad) {
  console.log(`\n${good} passed, ${bad} failed`);
  process.exit(bad > 0 ? 1 : 0);
}
