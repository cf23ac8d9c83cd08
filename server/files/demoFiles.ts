import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** The CSV files of the demo fleet with a hash over their content. */
export function demoFiles(folder: string): { files: { name: string; path: string }[]; hash: string } {
  const names = readdirSync(folder)
    .filter((name) => name.endsWith('.csv'))
    .sort();
  const hash = createHash('sha256');
  for (const name of names) hash.update(name).update(readFileSync(join(folder, name)));
  return { files: names.map((name) => ({ name, path: join(folder, name) })), hash: hash.digest('hex') };
}

/** Removes a store and its side files. */
export function removeStoreFiles(file: string): void {
  for (const suffix of ['', '-wal', '-shm']) rmSync(file + suffix, { force: true });
}

/** Puts a freshly made store in its place in one step, so that a crash leaves the old one or the new one. */
export function putInPlace(fresh: string, place: string): void {
  mkdirSync(dirname(place), { recursive: true });
  removeStoreFiles(place);
  renameSync(fresh, place);
  for (const suffix of ['-wal', '-shm']) if (existsSync(fresh + suffix)) rmSync(fresh + suffix);
}
