/**
 * The hub's program as a few files of plain JavaScript, in `hub/build`: as it stands, with hundreds of modules and the compiler that
 * strips their types, it takes a tenth more memory and twice as long to start. `npm start` makes it where it is missing or
 * older than the sources; tests, the demo and the other commands run the sources themselves.
 */
import { readdirSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, type Plugin } from 'vite';

const HUB = fileURLToPath(new URL('.', import.meta.url));

/** Threads are files of their own. */
const THREAD = /Worker\.ts$/;

/** Bundles `program`, a path, and the hub's threads into `folder`. Rejects when it cannot be done. */
export async function bundle(program: string, folder: string): Promise<void> {
  const threads = readdirSync(HUB)
    .filter((file) => THREAD.test(file))
    .map((file): [string, string] => [basename(file, '.ts'), join(HUB, file)]);
  await build({
    configFile: false,
    root: HUB,
    logLevel: 'warn',
    plugins: [asPart(program)],
    // Everything is in it but Node's own modules.
    ssr: { noExternal: true },
    build: {
      ssr: true,
      outDir: folder,
      emptyOutDir: true,
      target: 'node24',
      // A log's lines name functions as they are.
      minify: false,
      rolldownOptions: {
        input: { run: program, ...Object.fromEntries(threads) },
        output: { entryFileNames: '[name].js', chunkFileNames: '[name].js' },
      },
    },
  });
}

/** Modules that are programs by themselves are parts in the bundle, and threads have other names there. */
function asPart(program: string): Plugin {
  return {
    name: 'as-part',
    enforce: 'pre',
    transform: (code, id) =>
      id === program
        ? null
        : code
            .replaceAll('import.meta.main', 'false')
            .replaceAll(
              /new URL\('\.\/(\w+Worker)\.ts', import\.meta\.url\)/g,
              "new URL('./$1.js', import.meta.url)",
            ),
  };
}

if (import.meta.main) await bundle(join(HUB, 'run.ts'), join(HUB, 'build'));
