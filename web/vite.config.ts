import { defineConfig } from 'vite';
import { shellPlugin } from './offline/shellPlugin.ts';

const place = (name: string): string => new URL(name, import.meta.url).pathname;

/** Builds the pages and their service worker; the server serves them from the build folder. */
export default defineConfig({
  root: place('.'),
  logLevel: 'error',
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  plugins: [shellPlugin(place('./public'))],
  build: {
    target: 'es2022',
    sourcemap: true,
    rollupOptions: {
      input: { index: place('./index.html'), worker: place('./offline/worker.ts') },
      output: {
        // the worker's address must not change from build to build
        entryFileNames: ({ name }) => (name === 'worker' ? 'worker.js' : 'assets/[name]-[hash].js'),
        // the setting in strict.ts must hold before any schema is made: it lives in the chunk of the schema library
        codeSplitting: { groups: [{ name: 'schema', test: /node_modules[\\/]zod|web[\\/]strict\.ts/ }] },
      },
    },
  },
});
