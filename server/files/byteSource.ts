import { createReadStream } from 'node:fs';
import { open, stat } from 'node:fs/promises';

/** A file on disk or bytes in memory, readable from the start as often as wanted. */
export interface ByteSource {
  readonly size: number;
  chunks(): AsyncIterable<Buffer>;
  /** the last few bytes */
  tail(): Promise<Buffer>;
}

const chunkBytes = 1 << 18;

async function* slices(bytes: Buffer): AsyncGenerator<Buffer> {
  for (let at = 0; at < bytes.length; at += chunkBytes) yield bytes.subarray(at, at + chunkBytes);
}

async function lastBytes(path: string, size: number): Promise<Buffer> {
  const file = await open(path);
  try {
    const bytes = Buffer.alloc(Math.min(4, size));
    await file.read(bytes, 0, bytes.length, size - bytes.length);
    return bytes;
  } finally {
    await file.close();
  }
}

/** Opens a path or buffer; null when there is no such file. */
export async function byteSource(pathOrBuffer: string | Uint8Array): Promise<ByteSource | null> {
  if (typeof pathOrBuffer !== 'string') {
    const bytes = Buffer.from(pathOrBuffer.buffer, pathOrBuffer.byteOffset, pathOrBuffer.byteLength);
    return {
      size: bytes.length,
      chunks: () => slices(bytes),
      tail: () => Promise.resolve(bytes.subarray(-4)),
    };
  }
  const found = await stat(pathOrBuffer).catch(() => null);
  if (found === null || !found.isFile()) return null;
  return {
    size: found.size,
    chunks: () => createReadStream(pathOrBuffer, { highWaterMark: chunkBytes }) as AsyncIterable<Buffer>,
    tail: () => lastBytes(pathOrBuffer, found.size),
  };
}

/** The first bytes of a source. */
export async function firstBytes(source: ByteSource, count: number): Promise<Buffer> {
  const parts: Buffer[] = [];
  let length = 0;
  for await (const chunk of source.chunks()) {
    parts.push(chunk);
    length += chunk.length;
    if (length >= count) break;
  }
  return Buffer.concat(parts).subarray(0, count);
}

/** All bytes of a source; only for sizes that were checked. */
export async function allBytes(source: ByteSource): Promise<Buffer> {
  const parts: Buffer[] = [];
  for await (const chunk of source.chunks()) parts.push(chunk);
  return Buffer.concat(parts);
}
