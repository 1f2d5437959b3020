/** The demo's own folder inside the data folder: emptied at each start, and never anything that is not the demo's. */
import { mkdir, readdir, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { StartError } from '../hub/startError.ts';
import { takeLock } from '../hub/storage/lock.ts';

/** Says that everything in this folder may go. */
const MARK = 'made-by-the-demo';

const LOCK = 'lock';

/**
 * An empty folder `demo` in `data`. Throws StartError when there is such a folder that is somebody else's, or when
 * another demo runs on it.
 */
export async function freshDemoFolder(data: string): Promise<string> {
  const folder = join(data, 'demo');
  try {
    await mkdir(folder, { recursive: true, mode: 0o700 });
    const inside = await readdir(folder);
    if (inside.length > 0 && !inside.includes(MARK)) {
      throw new StartError(
        `The folder ${folder} holds something that is not the demo's. Choose another folder with --data.`,
      );
    }
    if (inside.includes(LOCK)) takeLock(join(folder, LOCK), folder)();
    // The mark goes last, so that a wipe cut short can be taken up again.
    for (const name of inside) if (name !== MARK) await rm(join(folder, name), { recursive: true });
    await writeFile(join(folder, MARK), 'The demo empties this folder at each start.\n');
  } catch (error) {
    if (error instanceof StartError || !(error instanceof Error && 'code' in error)) throw error;
    throw new StartError(`The demo's folder ${folder} cannot be made ready (${String(error.code)}).`, {
      cause: error,
    });
  }
  return folder;
}
