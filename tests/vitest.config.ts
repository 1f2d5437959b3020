/** Test projects, of as many files at a time as two processors bear when all run beside each other. */
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'core',
          include: ['tests/{unit,properties,reference}/**/*.test.ts'],
          environment: 'node',
          // A busy machine is no failure.
          testTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'faults',
          include: ['tests/faults/**/*.test.ts'],
          environment: 'node',
          // Each with processes and ports of its own.
          maxWorkers: 2,
          testTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'screens',
          include: ['tests/screens/**/*.test.ts'],
          environment: 'node',
          // Each file has a browser, a hub and a port of its own, and most of its time is waiting between taps.
          maxWorkers: 2,
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
