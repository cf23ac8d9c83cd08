import { defineConfig } from 'vite';

/** Builds the pages; the server serves them from the build folder. */
export default defineConfig({
  root: new URL('.', import.meta.url).pathname,
  logLevel: 'error',
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: { target: 'es2022', sourcemap: true },
});
