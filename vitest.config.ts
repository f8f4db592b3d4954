import { defineConfig } from 'vitest/config';

/** On two cores the runner would by itself work with one. */
const EVERY_CORE = { maxWorkers: '100%', sequence: { groupOrder: 1 } };

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'unit',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/browser/**', 'tests/build/**'],
          testTimeout: 30_000,
          ...EVERY_CORE,
        },
      },
      {
        test: {
          name: 'build',
          include: ['tests/build/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
          ...EVERY_CORE,
        },
      },
      {
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
          fileParallelism: false,
          sequence: { groupOrder: 2 },
        },
      },
    ],
  },
});
