import adapter from '@sveltejs/adapter-static';
import { sveltekit } from '@sveltejs/kit/vite';
import { fileURLToPath } from 'node:url';
import { defineConfig, type Plugin } from 'vite';

const root = fileURLToPath(new URL('..', import.meta.url));

/**
 * Kit writes what a page leaves in the browser's history with a library that can say more than JSON. These pages leave
 * nothing there and their data comes from the hub alone, so a board does without it: 4 kB.
 */
const historyAsJson: Plugin = {
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

const drawnHere: Plugin = {
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

/**
 * The pages of boards that hang. All that such a page is made of is named beside it and asked for at once; of any other page a
 * board would have to fetch the list before its own first picture: 1 kB.
 */
const hanging = new Set<string>();

const notesHanging: Plugin = {
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

const HANGING = /routes.(aisle|door).\+page\.svelte$/;

/** What of Svelte only forms and waiting parts use: no board's first picture has any. None of it does anything by being read. */
const ONLY_FORMS =
  /svelte.src.internal.(client.dom.(elements.bindings.(select|input)|blocks.await)|shared.clone)\.js$/;

export default defineConfig({
  plugins: [
    historyAsJson,
    drawnHere,
    notesHanging,
    sveltekit({
      compilerOptions: { runes: true },
      adapter: adapter({ fallback: 'index.html', precompress: true }),
      // The hub is the page's only source; sockets are named for browsers that do not count them under 'self'.
      csp: {
        mode: 'hash',
        directives: {
          'default-src': ['self'],
          'script-src': ['self'],
          'style-src': ['self'],
          // The one style attribute there is: Kit's own line for screen readers, by its hash.
          'style-src-attr': ['unsafe-hashes', 'sha256-S8qMpvofolR8Mpjy4kQvEm7m1q8clzU4dfDH0AmvZjo='],
          'img-src': ['self', 'data:'],
          'connect-src': ['self', 'ws:', 'wss:'],
          'object-src': ['none'],
          'base-uri': ['self'],
        },
      },
    }),
  ],
  build: {
    rolldownOptions: {
      treeshake: {
        // Says nothing of side effects of its own and has none that anybody needs: left out where nothing uses it.
        moduleSideEffects: [
          { test: /@date-fns\/tz/, sideEffects: false },
          { test: ONLY_FORMS, sideEffects: false },
        ],
        // Making a schema changes nothing: one that no screen parses with is left out, though its types are used.
        manualPureFunctions: ['z'],
      },
    },
  },
  environments: {
    client: {
      build: {
        modulePreload: {
          resolveDependencies: (file, deps) =>
            hanging.has(file) ? deps : deps.filter((one) => one.endsWith('.css')),
        },
        rolldownOptions: {
          // What pages start with may give away more than they are asked for: else a file of their own stands between.
          preserveEntrySignatures: 'allow-extension',
          output: {
            // Many small files are a tenth larger together and take longer to come: one for what every screen needs, one
            // for what a board shows of the day.
            codeSplitting: {
              groups: [
                // Apart: Kit hands its settings over before anything that reads them may run.
                { name: 'start', test: /vite.preload-helper|runtime.client.payload\.js$/, priority: 4 },
                { name: 'forms', test: ONLY_FORMS, includeDependenciesRecursively: false, priority: 3 },
                {
                  name: 'base',
                  test: /routes.\+layout|runtime.client.client\.js$|parts.(Hung|ForecastAge|WordChip|press|format|fit|layers)\./,
                  priority: 2,
                },
                {
                  name: 'day',
                  test: /day.views.(aisle|shared)\.ts$|marks.StageMark|parts.aisle.tile\./,
                  priority: 1,
                },
                { name: 'aisle', test: /parts.aisle.AisleScreen/ },
              ],
            },
          },
        },
      },
    },
  },
  server: {
    fs: { allow: [root] },
    // `vite dev` serves the page, a hub beside it the data.
    proxy: {
      '/live': { target: 'http://localhost:4610', ws: true },
      '/gate': { target: 'http://localhost:4610' },
    },
  },
});
