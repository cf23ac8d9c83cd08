import { randomUUID } from 'node:crypto';
import { mkdir, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

type Cell = string | number | null | undefined;

/** Rows of one kind under their column names. */
export interface EntryTable {
  /** the name that the source of the records carries */
  readonly name: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
}

function cellText(cell: Cell): string {
  const text = cell === null || cell === undefined ? '' : String(cell);
  return /[",\n\r]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/**
 * Writes what was entered on a page as files of the own layout, so that it takes the way of every other record.
 * @returns the files, and what removes them again
 */
export async function writeEntryFiles(
  folder: string,
  tables: readonly EntryTable[],
): Promise<{ files: { name: string; path: string }[]; remove(): Promise<void> }> {
  await mkdir(folder, { recursive: true });
  const files: { name: string; path: string }[] = [];
  for (const { name, columns, rows } of tables) {
    const path = join(folder, `${randomUUID()}__${name.replace(/[^\w.-]+/g, '_')}`);
    const text = [columns, ...rows].map((row) => row.map(cellText).join(',')).join('\n');
    await writeFile(path, `${text}\n`);
    files.push({ name, path });
  }
  return {
    files,
    remove: async () => void (await Promise.all(files.map(({ path }) => rm(path, { force: true })))),
  };
}
