/** Pictures as files in a folder. A picture's name is made from its bytes, so one name always shows the same picture. */
import { createHash } from 'node:crypto';
import { mkdir, readdir, readFile, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { PhotoName } from '#core/barn/horse.ts';
import { writeWhole } from './files.ts';

/** Beside the barn's records. */
export const PHOTOS_FOLDER = 'photos';

/** A picture no record names is dropped after this: until then a form that failed to save may be sent again. */
const UNUSED_FOR_MS = 30 * 86_400_000;

/** Where pictures are kept. */
export interface PhotoShelf {
  get(name: string): Promise<Buffer | null>;
  put(name: string, bytes: Buffer): Promise<void>;
  count(): Promise<number>;
  /** Drops what is older than `UNUSED_FOR_MS` at `now` and not in `used`. */
  sweep(used: ReadonlySet<string>, now: number): Promise<void>;
}

/** The name of a picture of these bytes. */
export function photoName(bytes: Buffer): string {
  return createHash('sha256').update(bytes).digest('hex').slice(0, 32);
}

/** In `folder`, made with the first picture. */
export function photoFolder(folder: string): PhotoShelf {
  const names = async (): Promise<string[]> => {
    const found = await readdir(folder).catch(() => []);
    return found.filter((name) => PhotoName.safeParse(name).success);
  };
  return {
    get: (name) => readFile(join(folder, name)).catch(() => null),
    put: async (name, bytes) => {
      await mkdir(folder, { recursive: true, mode: 0o700 });
      await writeWhole(join(folder, name), bytes);
    },
    count: async () => (await names()).length,
    sweep: async (used, now) => {
      for (const name of await names()) {
        if (used.has(name)) continue;
        const path = join(folder, name);
        const { mtimeMs } = await stat(path);
        if (now - mtimeMs > UNUSED_FOR_MS) await rm(path);
      }
    },
  };
}
