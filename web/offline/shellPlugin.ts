import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import type { Plugin } from 'vite';
import { offlineNames } from './names.ts';

/** Writes into the service worker which files the pages consist of, and a hash that changes with any of them. */
export function shellPlugin(publicFolder: string): Plugin {
  return {
    name: 'shell-of-the-pages',
    enforce: 'post',
    generateBundle(_options, bundle) {
      const hash = createHash('sha256');
      const files = ['/'];
      for (const name of Object.keys(bundle).sort()) {
        const part = bundle[name];
        if (name === 'worker.js' || /\.(map|woff)$/.test(name)) continue;
        hash.update(name).update(part.type === 'chunk' ? part.code : part.source);
        if (name !== 'index.html') files.push(`/${name}`);
      }
      for (const name of readdirSync(publicFolder).sort()) {
        hash.update(name).update(readFileSync(`${publicFolder}/${name}`));
        files.push(`/${name}`);
      }
      const worker = bundle['worker.js'];
      if (worker === undefined || worker.type !== 'chunk' || worker.imports.length > 0)
        throw new Error('worker.js: must be one file that imports nothing');
      if (!worker.code.includes('__shell__')) throw new Error('worker.js: must ask for __shell__');
      const shell = JSON.stringify({ ...offlineNames, hash: hash.digest('hex').slice(0, 16), files });
      worker.code = worker.code.replaceAll('__shell__', shell);
    },
  };
}
