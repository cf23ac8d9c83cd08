import { defineConfig } from 'vitest/config';

/** `npm run bench`: every figure in one run, printed; nothing is asserted on time. */
export default defineConfig({
  root: new URL('../..', import.meta.url).pathname,
  test: {
    include: ['tests/bench/figures.ts'],
    environment: 'node',
    env: { TZ: 'UTC' },
    testTimeout: 1_200_000,
    fileParallelism: false,
  },
});
