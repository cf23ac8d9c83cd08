import { defineConfig } from 'vite';

/** Bundles our own server code; libraries stay in node_modules. */
export default defineConfig({
  root: new URL('.', import.meta.url).pathname,
  logLevel: 'error',
  build: {
    ssr: true,
    target: 'node20',
    minify: false,
    sourcemap: true,
    rollupOptions: {
      input: {
        main: new URL('./main.ts', import.meta.url).pathname,
        background: new URL('./workers/background.ts', import.meta.url).pathname,
        fleetHand: new URL('./workers/fleetHand.ts', import.meta.url).pathname,
        sitePlanner: new URL('./workers/sitePlanner.ts', import.meta.url).pathname,
      },
      output: { entryFileNames: '[name].js', chunkFileNames: '[name]-[hash].js' },
    },
  },
});
