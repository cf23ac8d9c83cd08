import { randomUUID } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { mkdir, readdir, rm, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';

/** The largest file taken over HTTP, bytes. */
export const maxUploadBytes = 400_000_000;
const keepHours = 24;
/** Longest name of an uploaded file, bytes: with the id before it, it still is a name for the disk. */
export const maxNameBytes = 200;

export interface Upload {
  readonly upload: string;
  readonly name: string;
  readonly bytes: number;
}

/**
 * Writes a body to disk under a new id; removes it again when it is too large. Uploads older than a day go.
 * @returns what was kept, or why nothing was: the body is too large, the name no name that a disk takes
 */
export async function keepUpload(
  folder: string,
  name: string,
  body: Readable,
): Promise<Upload | 'too_large' | 'bad_name'> {
  const plainName = basename(name.replaceAll('\\', '/'));
  if (Buffer.byteLength(plainName) > maxNameBytes || plainName.includes('\0')) return 'bad_name';
  await mkdir(folder, { recursive: true });
  await removeOld(folder);
  const id = randomUUID();
  const file = join(folder, `${id}__${plainName}`);
  let bytes = 0;
  let tooLarge = false;
  try {
    await pipeline(
      body,
      async function* (chunks: AsyncIterable<Buffer>) {
        for await (const chunk of chunks) {
          bytes += chunk.length;
          if (bytes > maxUploadBytes) {
            tooLarge = true;
            return;
          }
          yield chunk;
        }
      },
      createWriteStream(file),
    );
  } catch (error) {
    await rm(file, { force: true });
    throw error;
  }
  if (tooLarge) {
    await rm(file, { force: true });
    return 'too_large';
  }
  return { upload: id, name: plainName, bytes };
}

/** The file of an upload with its original name, or null when it is not there any more. */
export async function findUpload(folder: string, id: string): Promise<{ name: string; path: string } | null> {
  if (!/^[0-9a-f-]{36}$/.test(id)) return null;
  const names = await readdir(folder).catch(() => [] as string[]);
  const found = names.find((name) => name.startsWith(`${id}__`));
  return found === undefined ? null : { name: found.slice(id.length + 2), path: join(folder, found) };
}

/** Removes an upload that has been dealt with. */
export async function removeUpload(path: string): Promise<void> {
  await rm(path, { force: true });
}

async function removeOld(folder: string): Promise<void> {
  for (const name of await readdir(folder)) {
    const file = join(folder, name);
    const age =
      Date.now() -
      (await stat(file).then(
        (entry) => entry.mtimeMs,
        () => Date.now(),
      ));
    if (age > keepHours * 3_600_000) await rm(file, { force: true });
  }
}
