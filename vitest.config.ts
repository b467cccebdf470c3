import { defineConfig } from 'vitest/config';

/** `unit` runs in Node alone; `browser` drives the built page in Chromium (started by scripts/browser-tests.mjs). */
export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'unit',
          environment: 'node',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/browser/**'],
          setupFiles: ['tests/setup.ts'],
          testTimeout: 20_000,
        },
      },
      {
        test: {
          name: 'browser',
          environment: 'node',
          include: ['tests/browser/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
          fileParallelism: false,
          // Once more where one fails, and it is said: a machine shared with others stalls a browser for seconds.
          retry: 1,
          // A busy machine is no failure: what is waited for has as long as an action of the browser.
          expect: { poll: { timeout: 30_000 } },
        },
      },
    ],
  },
});
