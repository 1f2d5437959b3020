/** Where the program lies. */
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** Folder of the whole program: the same for the sources and for the bundle, which lies elsewhere. */
export const ROOT = above(import.meta.dirname);

function above(folder: string): string {
  return existsSync(join(folder, 'package.json')) ? folder : above(dirname(folder));
}
