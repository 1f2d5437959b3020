/** Root's work on the folder of a hub that runs as somebody else; that it must stay that one's is the project's own demand. */
import { chmodSync, mkdirSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { asOwner, type Rights } from '../../hub/owner.ts';
import { tempFolder } from './hubProcess.ts';

let data: { path: string; remove: () => Promise<void> };
let changed: string[];
let rights: Rights;
beforeEach(async () => {
  data = await tempFolder();
  changed = [];
  // Whoever runs the tests: to the system the folder belongs to user 4711, as if root had not made it.
  rights = {
    isRoot: true,
    ownerOf: async () => ({ uid: 4711, gid: 4712 }),
    chown: async (path, uid, gid) => void changed.push(`${path.slice(data.path.length)} ${uid}:${gid}`),
  };
});
afterEach(() => data.remove());

test('what root makes is given to whom the folder belongs, whatever comes of the work, and nothing outside it', async () => {
  const work = async (): Promise<void> => {
    mkdirSync(join(data.path, 'barn'));
    writeFileSync(join(data.path, 'barn/journal'), '');
    symlinkSync('/etc', join(data.path, 'barn/elsewhere'));
    throw new Error('broken off');
  };
  await expect(asOwner(data.path, work, rights)).rejects.toThrow('broken off');
  expect(changed.sort()).toEqual([' 4711:4712', '/barn 4711:4712', '/barn/journal 4711:4712']);
});

test('who is not root changes nobody’s rights', async () => {
  chmodSync(data.path, 0o700);
  expect(await asOwner(data.path, async () => 7, { ...rights, isRoot: false })).toBe(7);
  expect(changed).toEqual([]);
  expect(statSync(data.path).uid).toBe(process.getuid?.());
});
