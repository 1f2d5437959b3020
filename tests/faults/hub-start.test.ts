/** The launcher, as a process: what it says, which board it starts, and how it ends. */
import { spawn, type ChildProcess } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { HubProcess, tempFolder } from './hubProcess.ts';

const START = fileURLToPath(new URL('../../hub/start.mjs', import.meta.url));

let data: string;
let remove: () => Promise<void>;
let child: ChildProcess | null;

beforeEach(async () => {
  const temp = await tempFolder();
  data = temp.path;
  remove = temp.remove;
  child = null;
});
afterEach(async () => {
  if (child && child.exitCode === null) {
    const gone = new Promise((done) => child?.once('close', done));
    child.kill('SIGTERM');
    await gone;
  }
  await remove();
});

type Launch = {
  said: (pattern: RegExp) => Promise<RegExpExecArray>;
  ended: Promise<number | null>;
  text: () => string;
};

function launch(...args: string[]): Launch {
  const process_ = spawn(process.execPath, [START, ...args], { stdio: ['ignore', 'pipe', 'pipe'] });
  child = process_;
  let text = '';
  let heard = (): void => {};
  for (const stream of [process_.stdout, process_.stderr]) {
    stream.on('data', (more: Buffer) => {
      text += more.toString('utf8');
      heard();
    });
  }
  const ended = new Promise<number | null>((done) => process_.once('close', done));
  return {
    text: () => text,
    ended,
    said: (pattern) =>
      new Promise((done, fail) => {
        heard = () => {
          const found = pattern.exec(text);
          if (found) done(found);
        };
        heard();
        void ended.then((code) => fail(new Error(`ended with ${code}: ${text}`)));
      }),
  };
}

test('--help lists the options and starts nothing', async () => {
  const launched = launch('--help');
  expect(await launched.ended).toBe(0);
  for (const option of ['--port', '--host', '--data', '--demo-speed'])
    expect(launched.text()).toContain(option);
});

test('an option it does not know is answered in one sentence', async () => {
  const launched = launch('--prot', '1');
  expect(await launched.ended).toBe(1);
  expect(launched.text()).toMatch(/^Unknown option '--prot'[^\n]*\n$/);
});

test('a folder with a barn starts the barn, and Ctrl-C or SIGTERM ends it cleanly', async () => {
  await (await HubProcess.start(data)).end('SIGTERM');
  for (const signal of ['SIGTERM', 'SIGINT'] as const) {
    const launched = launch('--port', '0', '--host', '127.0.0.1', '--data', data, '--demo-speed', '5');
    const [, port] = await launched.said(/localhost:(\d+)/);
    expect(launched.text()).toContain('--demo-speed does nothing');
    const health = (await (await fetch(`http://127.0.0.1:${port}/health`)).json()) as { demo: boolean };
    expect(health.demo).toBe(false);
    child?.kill(signal);
    expect(await launched.ended).toBe(0);
  }
});

test('a hub that cannot start passes its reason and code on', async () => {
  await (await HubProcess.start(data)).end('SIGTERM');
  const hub = await HubProcess.start(data);
  const launched = launch('--port', '0', '--data', data);
  expect(await launched.ended).toBe(1);
  expect(launched.text()).toContain('Another hub is already running');
  await hub.end('SIGTERM');
});
