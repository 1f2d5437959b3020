/** Test projects: pure tests run side by side; faults and screens own processes and ports, so two files at a time. */
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
