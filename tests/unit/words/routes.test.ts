/** Each screen learns the words it says: whatever a route imports, its `load` has fetched. The project's own rule. */
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { ENGLISH } from '#core/words/en/all.ts';

const ROUTES = fileURLToPath(new URL('../../../kiosk/src/routes', import.meta.url));

/** By name: the subject it stands in. */
const SUBJECT_OF = new Map(
  (
    await Promise.all(
      Object.entries(ENGLISH).map(async ([subject, load]) =>
        Object.keys(await load()).map((name) => [name, subject] as const),
      ),
    )
  ).flat(),
);

const AT_ONCE = /^ *(?:import|export) (?!type\b)(?:[^;']*from )?'(\.[^']+)'/gm;
const AT_ONCE_OR_LATER = /(?:from|import)\s*\(?\s*'(\.[^']+)'/g;

/** A file and all of the kiosk it imports. */
function reached(file: string, how: RegExp, seen = new Set<string>()): Set<string> {
  if (seen.has(file) || !existsSync(file)) return seen;
  seen.add(file);
  for (const [, path] of readFileSync(file, 'utf8').matchAll(how))
    if (path) reached(resolve(dirname(file), path), how, seen);
  return seen;
}

/** Subjects of the words in these files: `say.NAME`. A name nobody has stands for itself. */
function said(files: Iterable<string>): Set<string> {
  const names = [...files].flatMap((file) =>
    [...readFileSync(file, 'utf8').matchAll(/\bsay\.(\w+)/g)].map(([, name]) => name ?? ''),
  );
  return new Set(names.flatMap((name) => SUBJECT_OF.get(name) ?? []));
}

function learned(file: string): string[] {
  const text = existsSync(file) ? readFileSync(file, 'utf8') : '';
  const [, list = ''] = /learn\(([^)]*)\)/.exec(text) ?? [];
  return [...list.matchAll(/'(\w+)'/g)].map(([, name]) => name ?? '');
}

/** Subjects that parts opened later learn themselves. */
const learnedLater = (files: Iterable<string>): string[] =>
  [...files].flatMap((file) =>
    [...readFileSync(file, 'utf8').matchAll(/learnLater\(([^)]*)\)/g)].flatMap(([, list = '']) =>
      [...list.matchAll(/'(\w+)'/g)].map(([, name]) => name ?? ''),
    ),
  );

const layout = learned(join(ROUTES, '+layout.ts'));
const screens = readdirSync(ROUTES, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('+page.svelte'))
  .map((name) => dirname(name));

const LAYOUT = join(ROUTES, '+layout.svelte');
const layoutLater = learnedLater(reached(LAYOUT, AT_ONCE_OR_LATER));

test('the layout learns what it says itself, at once or with the parts that say it', () => {
  expect([...said(reached(LAYOUT, AT_ONCE))].filter((one) => !layout.includes(one))).toEqual([]);
  const known = [...layout, ...layoutLater];
  expect([...said(reached(LAYOUT, AT_ONCE_OR_LATER))].filter((one) => !known.includes(one))).toEqual([]);
});

describe.each(screens)('%s', (screen) => {
  const page = join(ROUTES, screen, '+page.svelte');
  const files = reached(page, AT_ONCE_OR_LATER);
  const own = learned(join(ROUTES, screen, '+page.ts'));
  const known = [...layout, ...own];

  test('learns every subject of its first picture', () => {
    expect([...said(reached(page, AT_ONCE))].filter((one) => !known.includes(one))).toEqual([]);
  });

  test('learns the others with the parts that say them', () => {
    const later = [...known, ...layoutLater, ...learnedLater(files)];
    expect([...said(files)].filter((one) => !later.includes(one))).toEqual([]);
  });

  test('learns no other', () => expect(own.filter((one) => !said(files).has(one))).toEqual([]));
});

test('no word is read at a module’s top level, before it is there', () => {
  const kept = readdirSync(join(ROUTES, '../lib'), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .flatMap((name) =>
      readFileSync(join(ROUTES, '../lib', name), 'utf8')
        .split('\n')
        .filter((line) => /^(export )?const [^(=]*=[^=>]*\bsay\.[A-Z]\w*/.test(line))
        .map((line) => `${name}: ${line}`),
    );
  expect(kept).toEqual([]);
});
