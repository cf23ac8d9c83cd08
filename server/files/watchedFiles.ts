import { lstat, mkdir, readdir, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

/** Where watched files go. */
export type Outcome = 'done' | 'refused';

/** Files that are still being written go by such names. */
const unfinished = /^[.~]|\.(part|partial|tmp|temp|crdownload|filepart)$/i;

/** Makes the folders for outcomes; throws when the folder can't be read or written. */
export async function prepareWatched(folder: string): Promise<void> {
  for (const name of ['done', 'refused']) await mkdir(join(folder, name), { recursive: true });
  await readdir(folder);
}

/** Names that may be files to take in, in order. */
export async function namesWatched(folder: string): Promise<string[]> {
  return (await readdir(folder)).filter((name) => !unfinished.test(name)).sort();
}

/** What changes while a file is being written; null for what is no file, or an empty one. */
export async function writingMark(folder: string, name: string): Promise<string | null> {
  const entry = await lstat(join(folder, name)).catch(() => null);
  if (entry === null || !entry.isFile() || entry.size === 0) return null;
  return `${entry.size} ${entry.mtimeMs} ${entry.ino}`;
}

/** Moves a file to its outcome, without covering an earlier one of its name, and writes a note beside it. */
export async function putAside(
  folder: string,
  name: string,
  to: Outcome,
  note: { ending: string; text: string },
): Promise<void> {
  await mkdir(join(folder, to), { recursive: true });
  const taken = new Set(await readdir(join(folder, to)));
  const cut = name.lastIndexOf('.') > 0 ? name.lastIndexOf('.') : name.length;
  let free = name;
  for (let count = 2; taken.has(free); count += 1) free = `${name.slice(0, cut)}-${count}${name.slice(cut)}`;
  const target = join(folder, to, free);
  await rename(join(folder, name), target);
  await writeFile(`${target}${note.ending}`, note.text);
}
