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

/** Enough to know what is wrong; the rest stands above. */
const LINES_OF_WHY = 12;
const WIDTH_OF_WHY = 240;

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
const parts = asked.length > 0 ? asked : PARTS;

let passed = 0;
/** What failed: its name, where it stands, and why. */
const failed = [];

const unknown = asked.find((part) => !PARTS.includes(part));
if (unknown !== undefined) {
  failed.push({
    name: unknown,
    file: 'parts',
    why: `There is no such part: choose from ${PARTS.join(', ')}.`,
  });
  finish();
}
const env = await madeReady(parts);
// Browser tests wait more than they work, so the others run beside them and are told before them.
const isAlone = parts.length === 1;
const screens = parts.includes('screens') ? runTests('screens', isAlone ? 'shown' : 'gathered') : null;
if (parts.includes('checks')) await runChecks();
// Faults own processes and pure tests take both processors: one after the other.
for (const name of ['core', 'faults']) if (parts.includes(name)) await runTests(name, 'shown');
if (screens) console.log((await screens) ?? '');
finish();

async function runChecks() {
  for (const [name, command, ...args] of CHECKS) {
    const started = Date.now();
    const { code, output } = await run(join(BIN, command), args, 'gathered');
    const seconds = ((Date.now() - started) / 1000).toFixed(1);
    if (code === 0) passed += 1;
    else failed.push({ name, file: 'checks', why: output });
    console.log(`${code === 0 ? 'ok  ' : 'FAIL'} ${name} (${seconds} s)`);
    if (code !== 0) console.log(output);
  }
}

/** One of Vitest's projects, counted; resolves to its output where it was gathered. */
async function runTests(name, how) {
  const folder = mkdtempSync(join(tmpdir(), 'aisle-board-tests-'));
  const { output, report } = await runVitest(name, join(folder, 'report.json'), how);
  rmSync(folder, { recursive: true, force: true });
  passed += report.passed;
  failed.push(...report.failed);
  if (name === 'core') tellSources(report.checks);
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

/** Vitest reports to `file`, so that the counts do not depend on how its console output looks. */
async function runVitest(name, file, how) {
  const { code, output } = await run(
    join(BIN, 'vitest'),
    [
      'run',
      '--config',
      'tests/vitest.config.ts',
      '--project',
      name,
      '--reporter=default',
      `--reporter=${join(ROOT, 'tests/house/report.mjs')}`,
    ],
    how,
    { ...env, REPORT_FILE: file },
  );
  const report = readReport(file);
  if (code !== 0 && report.failed.length === 0)
    report.failed.push({ name, file: 'vitest', why: `It ended with ${code}, and no test has failed.` });
  return { output, report };
}

/** The published checks by source, most first; each that names none counts as failed. */
function tellSources(checks) {
  if (checks.length === 0)
    failed.push({ name: 'published checks', file: 'tests/reference', why: 'There are none.' });
  const bySource = new Map();
  for (const { sources } of checks) {
    for (const source of sources) bySource.set(source, (bySource.get(source) ?? 0) + 1);
  }
  const rows = [...bySource].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1));
  console.log(`\nPublished checks, by source (${checks.length} checks, some on several sources):`);
  for (const [source, count] of rows) console.log(`${String(count).padStart(5)}  ${source}`);
  const bare = checks.filter(({ sources }) => sources.length === 0);
  const why = 'A check without a source: see tests/reference/source.ts.';
  failed.push(...bare.map(({ name }) => ({ name, file: 'tests/reference', why })));
}

function readReport(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return { passed: 0, failed: [{ name: 'the whole part', file, why: 'It wrote no report.' }], checks: [] };
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

/** What failed stands at the end, where a log that was cut short still has it. */
function finish() {
  for (const { name, file, why } of failed) {
    console.log(`\nFAILED ${name} (${file})`);
    const lines = why.split('\n').filter((line) => line.trim() !== '');
    for (const line of lines.slice(0, LINES_OF_WHY)) console.log(`  ${line.slice(0, WIDTH_OF_WHY)}`);
  }
  console.log(`\n${passed} passed, ${failed.length} failed`);
  process.exit(failed.length > 0 ? 1 : 0);
}
