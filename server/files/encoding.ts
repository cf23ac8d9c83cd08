import { isAscii, isUtf8 } from 'node:buffer';
import iconv from 'iconv-lite';
import type { ByteSource } from './byteSource.ts';

export type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';

/** Length of the whole UTF-8 characters at the front; the rest is the beginning of one cut by the chunk's end. */
function wholeLength(bytes: Buffer): number {
  for (let back = 1; back <= Math.min(3, bytes.length); back += 1) {
    const byte = bytes[bytes.length - back] ?? 0;
    if (byte < 0x80) return bytes.length;
    if (byte >= 0xc0) {
      const needed = byte >= 0xf0 ? 4 : byte >= 0xe0 ? 3 : 2;
      return needed > back ? bytes.length - back : bytes.length;
    }
  }
  return bytes.length;
}

interface Counts {
  bytes: number;
  evenZeros: number;
  oddZeros: number;
  controls: number;
  goodSequences: number;
  badBytes: number;
}

/** Counts whole multi-byte characters against bytes that fit none. */
function countSequences(bytes: Buffer, counts: Counts): void {
  for (let at = 0; at < bytes.length; at += 1) {
    const lead = bytes[at] ?? 0;
    if (lead < 0x80) continue;
    const needed = lead >= 0xf0 ? 3 : lead >= 0xe0 ? 2 : lead >= 0xc2 ? 1 : 0;
    let follow = 0;
    while (follow < needed && ((bytes[at + follow + 1] ?? 0) & 0xc0) === 0x80) follow += 1;
    if (needed > 0 && follow === needed) {
      counts.goodSequences += 1;
      at += needed;
    } else counts.badBytes += 1;
  }
}

function countZeros(bytes: Buffer, offset: number, counts: Counts): void {
  for (let at = 0; at < bytes.length; at += 1) {
    const byte = bytes[at] ?? 0;
    if (byte === 0) {
      if (((at + offset) & 1) === 0) counts.evenZeros += 1;
      else counts.oddZeros += 1;
    } else if (byte < 9 || (byte > 13 && byte < 32 && byte !== 26 && byte !== 27)) counts.controls += 1;
  }
}

/**
 * Tells the encoding from the bytes: a byte order mark, zeros beside letters (UTF-16), bytes that form whole UTF-8
 * characters throughout the file, else Windows-1252. Null: not text.
 */
export async function detectEncoding(source: ByteSource): Promise<Encoding | null> {
  const counts: Counts = { bytes: 0, evenZeros: 0, oddZeros: 0, controls: 0, goodSequences: 0, badBytes: 0 };
  let rest: Buffer = Buffer.alloc(0);
  let first = true;
  for await (const chunk of source.chunks()) {
    if (first) {
      first = false;
      if (chunk[0] === 0xff && chunk[1] === 0xfe) return 'utf-16le';
      if (chunk[0] === 0xfe && chunk[1] === 0xff) return 'utf-16be';
      countZeros(chunk, 0, counts);
      counts.bytes = chunk.length;
      const zeros = counts.evenZeros + counts.oddZeros;
      if (zeros > 0.2 * chunk.length) {
        if (counts.oddZeros > 8 * counts.evenZeros) return 'utf-16le';
        if (counts.evenZeros > 8 * counts.oddZeros) return 'utf-16be';
      }
      if (zeros > 0 || counts.controls > 0.01 * chunk.length) return null;
    } else if (chunk.includes(0)) return null;
    const bytes = rest.length > 0 ? Buffer.concat([rest, chunk]) : chunk;
    const whole = wholeLength(bytes);
    const head = bytes.subarray(0, whole);
    if (counts.badBytes > 0 || !isUtf8(head)) countSequences(head, counts);
    else if (counts.goodSequences < 1000 && !isAscii(head)) countSequences(head, counts);
    rest = Buffer.from(bytes.subarray(whole));
  }
  if (rest.length > 0) countSequences(rest, counts);
  // A few damaged characters do not make a UTF-8 file another encoding.
  return counts.badBytes * 10 > counts.goodSequences ? 'windows-1252' : 'utf-8';
}

/** Bytes as UTF-8 without a byte order mark, whatever they were before. */
export async function* asUtf8(chunks: AsyncIterable<Buffer>, encoding: Encoding): AsyncGenerator<Buffer> {
  if (encoding === 'utf-8') {
    let first = true;
    for await (const chunk of chunks) {
      yield first && chunk[0] === 0xef && chunk[1] === 0xbb && chunk[2] === 0xbf ? chunk.subarray(3) : chunk;
      first = false;
    }
    return;
  }
  const decoder = iconv.getDecoder(encoding);
  for await (const chunk of chunks) yield Buffer.from(decoder.write(chunk), 'utf8');
  const tail = decoder.end();
  if (tail) yield Buffer.from(tail, 'utf8');
}
