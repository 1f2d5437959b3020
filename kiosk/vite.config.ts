import adapter from '@sveltejs/adapter-static';
import { sveltekit } from '@sveltejs/kit/vite';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

const root = fileURLToPath(new URL('..', import.meta.url));

export default defineConfig({
  plugins: [
    sveltekit({
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
        moduleSideEffects: [{ test: /@date-fns\/tz/, sideEffects: false }],
        // Making a schema changes nothing: one that no screen parses with is left out, though its types are used.
        manualPureFunctions: ['z'],
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
