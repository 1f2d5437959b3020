/** zod 4: what is set before it is loaded holds (`zod/v4/core/core.js`, `globalConfig`). */
import { execFileSync } from 'node:child_process';
import { expect, test } from 'vitest';

/** In a process of its own, where nothing has loaded zod before. */
const PAGE = `
  await import('./kiosk/src/lib/link/strict.ts');
  const { config } = await import('zod/mini');
  console.log(config().jitless);
`;

test('zod compiles no checks: the page’s content policy forbids `new Function`', () => {
  const said = execFileSync(process.execPath, ['--input-type=module', '--eval', PAGE], { encoding: 'utf8' });
  expect(said.trim()).toBe('true');
});
