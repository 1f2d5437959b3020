import adapter from '@sveltejs/adapter-static';
import { sveltekit } from '@sveltejs/kit/vite';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';
import { drawnHere, firstScripts, hanging, historyAsJson, notesHanging } from './leaner.ts';

const root = fileURLToPath(new URL('..', import.meta.url));

/** What of Svelte only forms and waiting parts use: no board's first picture has any. None of it does anything by being read. */
const ONLY_FORMS =
  /svelte.src.internal.(client.dom.(elements.bindings.(select|input)|blocks.await)|shared.clone)\.js$/;

export default defineConfig({
  plugins: [
    historyAsJson,
    drawnHere,
    notesHanging,
    firstScripts,
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
