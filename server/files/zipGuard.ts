import { inflateRawSync } from 'node:zlib';
import type { Refused } from './tableRefusal.ts';
import { sizeInWords, type TableLimits } from './tableLimits.ts';

interface Entry {
  readonly name: string;
  readonly method: number;
  readonly packed: number;
  readonly unpacked: number;
  readonly offset: number;
}

const maxEntries = 20_000;

/** The entries that the central directory of a zip archive lists; null when it is not whole. */
function entriesOf(zip: Buffer): Entry[] | null {
  const end = zip.lastIndexOf(Buffer.from([0x50, 0x4b, 0x05, 0x06]));
  if (end < 0 || end + 22 > zip.length) return null;
  const count = zip.readUInt16LE(end + 10);
  let at = zip.readUInt32LE(end + 16);
  const entries: Entry[] = [];
  for (let index = 0; index < count && index <= maxEntries; index += 1) {
    if (at + 46 > zip.length || zip.readUInt32LE(at) !== 0x02014b50) return null;
    const nameLength = zip.readUInt16LE(at + 28);
    entries.push({
      name: zip.toString('utf8', at + 46, at + 46 + nameLength),
      method: zip.readUInt16LE(at + 10),
      packed: zip.readUInt32LE(at + 20),
      unpacked: zip.readUInt32LE(at + 24),
      offset: zip.readUInt32LE(at + 42),
    });
    at += 46 + nameLength + zip.readUInt16LE(at + 30) + zip.readUInt16LE(at + 32);
  }
  return entries;
}

/** Bytes that an entry really unpacks to, or null when that passes the limit or it is damaged. */
function unpackedSize(zip: Buffer, entry: Entry, limit: number): number | null {
  if (entry.offset + 30 > zip.length) return null;
  const begin = entry.offset + 30 + zip.readUInt16LE(entry.offset + 26) + zip.readUInt16LE(entry.offset + 28);
  const data = zip.subarray(begin, begin + entry.packed);
  if (entry.method === 0) return data.length;
  if (entry.method !== 8) return null;
  try {
    return inflateRawSync(data, { maxOutputLength: Math.max(1, limit) }).length;
  } catch {
    return null;
  }
}

/**
 * Looks into a packed workbook before anything unpacks it as a whole: what it claims to unpack to, and what it does.
 * @returns null when it is safe to read, else the refusal
 */
export function checkWorkbookZip(zip: Buffer, limits: TableLimits): Refused | null {
  const broken: Refused = {
    refused: 'broken_workbook',
    message:
      'The workbook is damaged or cut off: open it in a spreadsheet program, save it again as .xlsx and send that.',
  };
  const entries = entriesOf(zip);
  if (entries === null || entries.length === 0) return broken;
  if (!entries.some((entry) => entry.name === 'xl/workbook.xml'))
    return {
      refused: 'not_a_workbook',
      message:
        'The file is a packed file but no .xlsx workbook: save the table as .xlsx or .csv and send that.',
    };
  const tooLarge: Refused = {
    refused: 'too_large',
    message: `The workbook unpacks to more than ${sizeInWords(limits.maxUnpackedBytes)}: save its sheets as .csv files and send those.`,
  };
  const claimed = entries.reduce((sum, entry) => sum + entry.unpacked, 0);
  if (entries.length > maxEntries || claimed > limits.maxUnpackedBytes) return tooLarge;
  let left = limits.maxUnpackedBytes;
  for (const entry of entries) {
    const size = unpackedSize(zip, entry, Math.min(left, entry.unpacked + 1024));
    if (size === null || size !== entry.unpacked) return broken;
    left -= size;
  }
  return null;
}
