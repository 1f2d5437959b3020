/** Plugins of the build that leave out of a board's first picture what it never needs: a cheap tablet reads a kB in some ms. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { minifySync, type Plugin } from 'vite';

/**
 * Kit writes what a page leaves in the browser's history with a library that can say more than JSON. These pages leave
 * nothing there and their data comes from the hub alone, so a board does without it: 4 kB.
 */
export const historyAsJson: Plugin = {
  name: 'history-as-json',
  enforce: 'pre',
  resolveId(source) {
    return this.environment.name === 'client' && source === 'devalue' ? '\0history-as-json' : undefined;
  },
  load: (id) =>
    id === '\0history-as-json'
      ? 'export const stringify = (data) => JSON.stringify(data ?? null);' +
        'export const parse = (text) => JSON.parse(text);' +
        'export const uneval = stringify;' +
        'export const stringifyAsync = async (data) => stringify(data);' +
        'export const unflatten = () => { throw new Error("no data comes from a server of pages"); };'
      : undefined,
};

/**
 * Svelte and Kit can take over a page that a server has drawn. These are drawn in the browser alone, so a board does without
 * it: 2.4 kB. Throws when a newer version of them asks otherwise whether it is so.
 */
const DRAWN_HERE: readonly { readonly file: RegExp; readonly says: string; readonly means: string }[] = [
  {
    file: /svelte.src.internal.client.dom.hydration\.js$/,
    says: 'export let hydrating = false;',
    means: 'export const hydrating = false;',
  },
  { file: /svelte.src.internal.client.dom.hydration\.js$/, says: '\thydrating = value;', means: '' },
  {
    file: /kit.src.runtime.client.client\.js$/,
    says: 'should_hydrate ? hydrate : mount',
    means: 'mount',
  },
  { file: /kit.src.runtime.client.client\.js$/, says: 'await _hydrate(target, data);', means: '' },
];

export const drawnHere: Plugin = {
  name: 'drawn-here',
  apply: 'build',
  transform(code, id) {
    if (this.environment.name !== 'client') return undefined;
    const known = DRAWN_HERE.filter(({ file }) => file.test(id));
    if (known.length === 0) return undefined;
    for (const { says } of known) if (!code.includes(says)) throw new Error(`${id} no longer says: ${says}`);
    return { code: known.reduce((text, { says, means }) => text.replace(says, means), code), map: null };
  },
};

const HANGING = /routes.(aisle|door).\+page\.svelte$/;

/**
 * The pages of boards that hang. All that such a page is made of is named beside it and asked for at once; of any other page a
 * board would have to fetch the list before its own first picture: 1 kB.
 */
export const hanging = new Set<string>();

export const notesHanging: Plugin = {
  name: 'notes-hanging',
  generateBundle: {
    order: 'pre',
    handler(_, bundle) {
      for (const file of Object.values(bundle)) {
        const isPage = file.type === 'chunk' && file.moduleIds.some((id) => HANGING.test(id));
        if (isPage) hanging.add(file.fileName);
      }
    },
  },
};

const STATIC = new URL('static/', import.meta.url);

/** The scripts that run before there are any modules, as short as the others: they take the place of the copies as written. */
export const firstScripts: Plugin = {
  name: 'first-scripts',
  apply: 'build',
  writeBundle({ dir }) {
    // Built last: by then Kit has put its copies there.
    if (this.environment.name !== 'serviceWorker' || dir === undefined) return;
    for (const name of readdirSync(STATIC).filter((one) => one.endsWith('.js'))) {
      const { code, errors } = minifySync(name, readFileSync(new URL(name, STATIC), 'utf8'));
      if (errors.length > 0) throw new Error(`${name}: ${errors[0]?.message}`);
      writeFileSync(join(dir, name), code);
    }
  },
};
