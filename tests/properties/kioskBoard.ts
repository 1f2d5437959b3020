/** The kiosk's own board state, outside a browser: its runes compiled as for a server, where they are plain fields. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { stripTypeScriptTypes } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { compileModule } from 'svelte/compiler';
import type { BoardState } from '../../kiosk/src/lib/state/board.svelte.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const SOURCE = join(ROOT, 'kiosk/src/lib/state/board.svelte.ts');

/** The class as it stands in the kiosk. */
export async function loadBoardState(): Promise<typeof BoardState> {
  const plain = stripTypeScriptTypes(readFileSync(SOURCE, 'utf8'));
  const { js } = compileModule(plain, { generate: 'server', filename: SOURCE });
  // Beside the packages it imports, so that they are found.
  const folder = mkdtempSync(join(ROOT, 'node_modules/.board-state-'));
  try {
    const file = join(folder, 'board.mjs');
    writeFileSync(
      file,
      js.code.replaceAll(/from\s+['"]([#.][^'"]*)['"]/g, (_all, path: string) => `from '${urlOf(path)}'`),
    );
    const { BoardState: Loaded } = (await import(/* @vite-ignore */ pathToFileURL(file).href)) as {
      BoardState: typeof BoardState;
    };
    return Loaded;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function urlOf(path: string): string {
  const full = path.startsWith('#core/') ? join(ROOT, 'src', path.slice(6)) : resolve(dirname(SOURCE), path);
  return pathToFileURL(full).href;
}
