/** A newer build of the kiosk, made from the one that is there: other content, so other file names, as a real one has. */
import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const BUILT = fileURLToPath(new URL('../../kiosk/build', import.meta.url));

const TEXTS = new Set(['.js', '.css', '.html', '.json']);

/** Copies the build into a folder of its own under another version. Returns the folder; the caller removes it. */
export function newerBuild(): string {
  const folder = mkdtempSync(join(tmpdir(), 'aisle-board-build-'));
  cpSync(BUILT, folder, { recursive: true });
  const files = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));
  for (const file of files.filter((one) => /\.(br|gz)$/.test(one))) rmSync(file);
  const texts = files.filter((file) => TEXTS.has(extname(file)));
  const { version } = JSON.parse(readFileSync(join(folder, '_app/version.json'), 'utf8')) as {
    version: string;
  };
  const hashed = texts.filter((file) => file.includes('/immutable/')).map((file) => basename(file));
  const renamed = (text: string): string =>
    hashed.reduce(
      (all, name) => all.replaceAll(name, newName(name)),
      text.replaceAll(version, `${version}1`),
    );
  for (const file of texts) {
    const before = readFileSync(file, 'utf8');
    writeFileSync(file, withScriptHashes(before, renamed(before)));
    if (hashed.includes(basename(file)))
      renameSync(file, file.replace(basename(file), newName(basename(file))));
  }
  return folder;
}

const newName = (name: string): string => name.replace(/(\.\w+)$/, '-n$1');

/** The page's own policy names its inline scripts by hash. */
function withScriptHashes(before: string, after: string): string {
  const scripts = (html: string): string[] =>
    [...html.matchAll(/<script>([\s\S]*?)<\/script>/g)].map(([, script]) => script ?? '');
  const hash = (text: string): string => createHash('sha256').update(text).digest('base64');
  return scripts(before).reduce(
    (html, script, i) => html.replace(hash(script), hash(scripts(after)[i] ?? '')),
    after,
  );
}
