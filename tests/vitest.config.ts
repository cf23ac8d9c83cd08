import { defineConfig } from 'vitest/config';

// workers take their locale from it when they start; a test has the same in every country
process.env.LC_ALL = 'en_GB.UTF-8';

/** `npm test` runs every *.test.ts; SOAK=1 lengthens the shares of long runs that tests read from it. */
export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/**/*.test.ts'],
    environment: 'node',
    env: { TZ: 'UTC' },
    // a busy machine may take several times as long; only a test that hangs runs into these
    testTimeout: 300_000,
    hookTimeout: 300_000,
    expect: { poll: { timeout: 60_000 } },
    pool: 'forks',
    // sources are read once per worker, not once per file; tests keep no state in modules
    isolate: false,
    maxWorkers: 2,
  },
});
