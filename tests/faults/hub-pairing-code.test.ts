/** Where the hub's own pairing code may be read, and where not: whoever reads logs is not whoever stands at the hub. */
import { execFile } from 'node:child_process';
import { readdir, readFile, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { consoleCode, keptCode } from '../../hub/gate/consoleCode.ts';
import { HubProcess, tempFolder } from './hubProcess.ts';
import { firstCoordinator } from './pairing.ts';

const COMMAND = join(import.meta.dirname, '../../hub/pairingCode.ts');

let data: { path: string; remove: () => Promise<void> };
beforeEach(async () => {
  data = await tempFolder();
});
afterEach(() => data.remove());

const command = async (): Promise<string> => {
  const run = promisify(execFile)(process.execPath, [COMMAND, '--data', data.path]);
  return run.then(
    ({ stdout }) => stdout,
    ({ stderr }: { stderr: string }) => stderr,
  );
};

test('a hub without a terminal prints and logs no code; the command shows it until there is a coordinator', async () => {
  const hub = await HubProcess.startGated(data.path);
  const code = await hub.code();
  const file = join(data.path, 'pairing-code.json');
  expect((await stat(file)).mode & 0o777).toBe(0o600);
  expect(await command()).toContain(`${code.slice(0, 3)} ${code.slice(3)}`);
  await expect.poll(() => hub.printed).toContain('npm run pairing-code');
  const found = new RegExp(`${code}|${code.slice(0, 3)} ${code.slice(3)}`);
  expect(hub.printed).not.toMatch(found);
  const logs = await readdir(join(data.path, 'log'));
  expect(logs.length).toBeGreaterThan(0);
  for (const log of logs) expect(await readFile(join(data.path, 'log', log), 'utf8')).not.toMatch(found);

  const { client } = await firstCoordinator(hub.port, code);
  await expect.poll(() => keptCode(data.path)).toBeNull();
  expect(await command()).toContain('Coordinator screen');
  client.close();
  await hub.end('SIGTERM');
});

test('a hub that is stopped takes its code along', async () => {
  const hub = await HubProcess.startGated(data.path);
  await hub.code();
  expect(await hub.end('SIGTERM')).toMatchObject({ code: 0 });
  expect(keptCode(data.path)).toBeNull();
});

test('whoever sits at the terminal sees the code there', () => {
  const seen: string[] = [];
  const logged: string[] = [];
  const show = consoleCode({
    data: data.path,
    terminal: ({ code, address }) => seen.push(`${address}/${code}`),
    log: (line) => logged.push(line),
  });
  show('123456', ['http://10.0.0.2:4610', 'http://hub.local:4610']);
  expect(seen).toEqual(['http://10.0.0.2:4610/123456']);
  expect(logged).toEqual([]);
  show(null, []);
  expect(keptCode(data.path)).toBeNull();
});

test('a folder that takes nothing is said, without the code', async () => {
  const logged: string[] = [];
  await writeFile(join(data.path, 'file'), '');
  const show = consoleCode({
    data: join(data.path, 'file'),
    terminal: null,
    log: (line) => logged.push(line),
  });
  show('123456', []);
  expect(logged[0]).toContain('could not be kept');
  expect(logged.join()).not.toContain('123456');
});
