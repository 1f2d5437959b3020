/** What is left of somebody in a folder. */
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';

/** Names of the files below `at` that have any of these texts in them, in any case. */
export async function filesWith(at: string, ...texts: string[]): Promise<string[]> {
  const files = (await readdir(at, { recursive: true, withFileTypes: true })).filter((one) => one.isFile());
  const found = await Promise.all(
    files.map(async ({ parentPath, name }) => {
      const bytes = (await readFile(join(parentPath, name), 'latin1')).toLowerCase();
      return texts.some((text) => bytes.includes(text.toLowerCase())) ? [name] : [];
    }),
  );
  return found.flat();
}
