import { defineConfig } from 'vite';

/** Builds the pages; the server serves them from the build folder. */
export default defineConfig({
  root: new URL('.', import.meta.url).pathname,
  logLevel: 'error',
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    target: 'es2022',
    sourcemap: true,
    rollupOptions: {
      output: {
        // the setting in strict.ts must hold before any schema is made: it lives in the chunk of the schema library
        codeSplitting: { groups: [{ name: 'schema', test: /node_modules[\\/]zod|web[\\/]strict\.ts/ }] },
      },
    },
  },
});
