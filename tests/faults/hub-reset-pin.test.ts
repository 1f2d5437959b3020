/** The way back from a forgotten PIN, and what a restore does with the list of tablets; the project's own demands. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { takeBackup, writeBackup } from '../../hub/backup.ts';
import { openHub, type Hub } from '../../hub/main.ts';
import { resetPins } from '../../hub/resetPin.ts';
import { restore } from '../../hub/restore.ts';
import { StartError } from '../../hub/startError.ts';
import { tempFolder } from './hubProcess.ts';
import { ask, codeFrom, connect, firstCoordinator, hung, pair, PIN } from './pairing.ts';

let data: { path: string; remove: () => Promise<void> };
beforeEach(async () => {
  data = await tempFolder();
});
afterEach(() => data.remove());

async function open(firstCode: string | null = null): Promise<{ hub: Hub; code: () => Promise<string> }> {
  const shown = Promise.withResolvers<string>();
  const hub = await openHub({
    port: 0,
    host: '127.0.0.1',
    folder: join(data.path, 'barn'),
    firstCode,
    showCode: (code) => code !== null && shown.resolve(code),
    log: () => {},
  });
  return { hub, code: () => shown.promise };
}

test('PINs are taken away with the hub stopped; the tablet stays, and becomes the coordinator’s by the console’s code', async () => {
  const first = await open();
  const c = await firstCoordinator(first.hub.port, await first.code());
  await expect(resetPins(data.path, 0)).rejects.toThrow(StartError);
  await first.hub.close();
  expect(await resetPins(data.path, 0)).toBe(1);
  expect(await readFile(join(data.path, 'barn/gate.log'), 'utf8')).toContain('pinsReset');

  const second = await open();
  const { port } = second.hub;
  // The cookie's name has the port, which is another one here.
  const cookie = c.cookie.replace(/^aisle-board-\d+/, `aisle-board-${port}`);
  const again = await connect(port, cookie);
  expect(again.welcome.here?.coordinators).toEqual([]);
  expect(await ask(again.client, { to: 'unlock', by: c.by, pin: PIN })).toMatchObject({ why: 'wrongPin' });
  again.client.close();
  const fresh = await connect(port, await pair(port, await second.code()));
  expect(await ask(fresh.client, { to: 'begin', name: 'Ines', pin: '905173' })).toEqual({ is: 'done' });
  await second.hub.close();
});

test('the console’s code counts no longer once there is a coordinator', async () => {
  const { hub, code } = await open('314159');
  const shown = await code();
  const tablet = await connect(hub.port, await pair(hub.port, '314159'));
  await firstHang(tablet.client, tablet.device);
  expect(await ask(tablet.client, { to: 'begin', name: 'Ines', pin: PIN })).toEqual({ is: 'done' });
  await expect(pair(hub.port, shown)).rejects.toThrow('403');
  await hub.close();
});

test('a restore keeps the tablets and PINs that are there, not those of the backup’s day', async () => {
  const before = await open();
  const c = await firstCoordinator(before.hub.port, await before.code());
  const file = join(data.path, 'barn.backup');
  await writeBackup(file, await takeBackup(join(data.path, 'barn'), Date.UTC(2026, 4, 12)));
  const lost = await hung(before.hub.port, await codeFrom(c.client), { role: 'aisle', stalls: [] });
  expect(await ask(c.client, { to: 'strikeOff', tablet: lost.device })).toEqual({ is: 'done' });
  await before.hub.close();
  await restore(file, data.path, 0);

  const { hub } = await open();
  const named = (cookie: string) => cookie.replace(/^aisle-board-\d+/, `aisle-board-${hub.port}`);
  await expect(connect(hub.port, named(lost.cookie))).rejects.toThrow('1008');
  const back = await connect(hub.port, named(c.cookie));
  expect(back.welcome.here?.coordinators.map(({ name }) => name)).toEqual(['Ines']);
  expect(await ask(back.client, { to: 'unlock', by: c.by, pin: PIN })).toEqual({ is: 'done' });
  await hub.close();
});

async function firstHang(client: Parameters<typeof ask>[0], tablet: string): Promise<void> {
  await ask(client, { to: 'hang', tablet, name: 'first', place: { role: 'coordinator' } });
}
