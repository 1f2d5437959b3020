/** Root at work on a hub's folder: what it leaves there must be the hub's, or the hub could not open it again. */
import { chown, lstat, readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';

type Owner = { readonly uid: number; readonly gid: number };

/** What is asked of the system. */
export type Rights = {
  readonly isRoot: boolean;
  /** Null: there is no such folder. */
  readonly ownerOf: (folder: string) => Promise<Owner | null>;
  readonly chown: (path: string, uid: number, gid: number) => Promise<void>;
};

const RIGHTS: Rights = {
  isRoot: process.getuid?.() === 0,
  ownerOf: (folder) => stat(folder).catch(() => null),
  chown,
};

/** Does `work`; then all in `data` belongs to whom `data` belonged before, also when the work failed. */
export async function asOwner<T>(data: string, work: () => Promise<T>, rights = RIGHTS): Promise<T> {
  const owner = rights.isRoot ? await rights.ownerOf(data) : null;
  try {
    return await work();
  } finally {
    if (owner) await give(data, owner, rights);
  }
}

async function give(path: string, owner: Owner, rights: Rights): Promise<void> {
  const own = await lstat(path);
  // A link leads out of the folder; what it leads to is somebody else's.
  if (own.isSymbolicLink()) return;
  if (own.uid !== owner.uid || own.gid !== owner.gid) await rights.chown(path, owner.uid, owner.gid);
  if (!own.isDirectory()) return;
  for (const name of await readdir(path)) await give(join(path, name), owner, rights);
}
