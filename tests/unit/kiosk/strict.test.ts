/** zod 4: what is set before it is loaded holds (`zod/v4/core/core.js`, `globalConfig`). */
import { expect, test } from 'vitest';
import '../../../kiosk/src/lib/link/strict.ts';
import { config } from 'zod/mini';

test('zod compiles no checks: the page’s content policy forbids `new Function`', () => {
  expect(config().jitless).toBe(true);
});
