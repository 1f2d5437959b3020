/** Test projects, of as many files at a time as two processors bear when all run beside each other. */
import { defineConfig } from 'vitest/config';
import { PATIENCE_MS, TEST_MS } from './patience.ts';

const EVERYWHERE = {
  environment: 'node',
  testTimeout: TEST_MS,
  hookTimeout: TEST_MS,
  teardownTimeout: PATIENCE_MS,
  expect: { poll: { timeout: PATIENCE_MS } },
} as const;

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          ...EVERYWHERE,
          name: 'core',
          include: ['tests/{unit,properties,reference}/**/*.test.ts'],
        },
      },
      {
        test: {
          ...EVERYWHERE,
          name: 'faults',
          include: ['tests/faults/**/*.test.ts'],
          // Each with processes and ports of its own.
          maxWorkers: 2,
        },
      },
      {
        test: {
          ...EVERYWHERE,
          name: 'screens',
          include: ['tests/screens/**/*.test.ts'],
          // Each file has a browser, a hub and a port of its own, and most of its time is waiting between taps.
          maxWorkers: 2,
        },
      },
    ],
  },
});
