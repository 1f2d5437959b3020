/** ESLint looks at .svelte files alone; everything else is oxlint's. */
import svelte from 'eslint-plugin-svelte';
import ts from 'typescript-eslint';

export default [
  { ignores: ['**/build/**', '**/.svelte-kit/**', '**/node_modules/**', '**/*.{js,ts,cjs,mjs}'] },
  ...svelte.configs.recommended,
  {
    files: ['**/*.svelte'],
    languageOptions: { parserOptions: { parser: ts.parser } },
    rules: {
      'svelte/no-at-html-tags': 'error',
      'svelte/no-inline-styles': 'off',
      'svelte/no-unused-svelte-ignore': 'error',
      'svelte/require-each-key': 'error',
      // The board is served at the root of its hub, never under a base path.
      'svelte/no-navigation-without-resolve': 'off',
      'max-lines': ['error', { max: 150, skipBlankLines: true, skipComments: true }],
    },
  },
];
