/**
 * A copy of the program that runs by itself: the sources, the built pages and the packages it needs at run time, with no
 * network. Both a clone after its first `npm start` and a folder on a stick are one.
 */
import { cp, mkdir, readFile, rm, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import * as z from 'zod/mini';
import { StartError } from '../startError.ts';

/** What is copied; packages are picked one by one. */
const PARTS = [
  'package.json',
  'package-lock.json',
  'README.md',
  'DEVELOPERS.md',
  'src',
  'hub',
  'demo',
  'hardware-notes',
  'kiosk/build',
];

/** What runs; it is copied with the hub. */
const BUNDLE = 'hub/build/run.js';

const Manifest = z.object({ name: z.literal('aisle-board'), version: z.string() });
const Lock = z.object({
  packages: z.record(
    z.string(),
    z.object({
      dev: z.optional(z.boolean()),
      devOptional: z.optional(z.boolean()),
      optional: z.optional(z.boolean()),
    }),
  ),
});

export type Program = { readonly folder: string; readonly version: string };

/** The program in `folder`. Throws StartError when it is none, or could not run without a network. */
export async function readProgram(folder: string): Promise<Program> {
  const manifest = Manifest.safeParse(await readJson(join(folder, 'package.json')));
  if (!manifest.success) throw new StartError(`${folder} does not hold an Aisle Board.`);
  const missing: string[] = [];
  for (const part of [...PARTS, BUNDLE, ...(await runtimePackages(folder))]) {
    if (!(await isThere(join(folder, part)))) missing.push(part);
  }
  if (missing[0] !== undefined) {
    throw new StartError(
      `${folder} is not complete (${missing[0]}${missing.length > 1 ? ` and ${missing.length - 1} more` : ''}). ` +
        'Run "npm start" in it once where there is a network, then try again.',
    );
  }
  return { folder, version: manifest.data.version };
}

/** Copies the program to `to`, which must not be there; nothing is left there when that fails. */
export async function copyProgram(program: Program, to: string): Promise<void> {
  if (await isThere(to)) throw new StartError(`${to} is there already.`);
  try {
    await mkdir(to, { recursive: true });
    for (const part of [...PARTS, ...(await runtimePackages(program.folder))]) {
      // Packages inside a package are picked by their own line. A stick cannot hold links, so what they lead to is copied.
      await cp(join(program.folder, part), join(to, part), {
        recursive: true,
        dereference: true,
        filter: (from) => basename(from) !== 'node_modules',
      });
    }
  } catch (error) {
    await rm(to, { recursive: true, force: true });
    throw error;
  }
}

/** Paths of the packages that are there at run time, as the lock file has them. */
async function runtimePackages(folder: string): Promise<string[]> {
  const lock = Lock.safeParse(await readJson(join(folder, 'package-lock.json')));
  if (!lock.success) throw new StartError(`${join(folder, 'package-lock.json')} cannot be read.`);
  const paths: string[] = [];
  for (const [path, { dev, devOptional, optional }] of Object.entries(lock.data.packages)) {
    if (path === '' || dev || devOptional) continue;
    // Optional ones are for other kinds of computer; those for this one are there.
    if (!optional || (await isThere(join(folder, path)))) paths.push(path);
  }
  return paths;
}

async function readJson(path: string): Promise<unknown> {
  try {
    return JSON.parse(await readFile(path, 'utf8')) as unknown;
  } catch {
    return null;
  }
}

export async function isThere(path: string): Promise<boolean> {
  return stat(path).then(
    () => true,
    () => false,
  );
}
