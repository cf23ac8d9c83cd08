import { deflateRawSync } from 'node:zlib';
import { createWriteStream, mkdtempSync, rmSync } from 'node:fs';
import { once } from 'node:events';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { utils, write } from '@e965/xlsx';
import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { openTable } from '../../server/files/readTable.ts';
import { isRefused, TableRefusedError } from '../../server/files/tableRefusal.ts';

const isSoak = process.env.SOAK === '1';
const folder = mkdtempSync(join(tmpdir(), 'sumpwise-hostile-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Reads a table to its end; what became of it in words: a refusal's code, or how many rows it had. */
async function readAll(
  source: string | Uint8Array,
): Promise<{ refused: string; message: string } | { rows: number }> {
  const opened = await openTable(source);
  if (isRefused(opened)) return opened;
  try {
    let rows = 0;
    for (const sheet of opened.sheets) for await (const batch of sheet.rows()) rows += batch.length;
    return { rows };
  } catch (fault) {
    if (fault instanceof TableRefusedError) return { refused: fault.refused, message: fault.message };
    throw fault;
  }
}

/** A zip with one entry that claims and holds so many zeros. */
function zipOf(name: string, unpacked: number, claimed: number): Buffer {
  const data = deflateRawSync(Buffer.alloc(unpacked));
  const local = Buffer.alloc(30);
  local.writeUInt32LE(0x04034b50, 0);
  local.writeUInt16LE(20, 4);
  local.writeUInt16LE(8, 8);
  local.writeUInt32LE(data.length, 18);
  local.writeUInt32LE(claimed, 22);
  local.writeUInt16LE(name.length, 26);
  const central = Buffer.alloc(46);
  central.writeUInt32LE(0x02014b50, 0);
  central.writeUInt16LE(8, 10);
  central.writeUInt32LE(data.length, 20);
  central.writeUInt32LE(claimed, 24);
  central.writeUInt16LE(name.length, 28);
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(1, 8);
  end.writeUInt16LE(1, 10);
  end.writeUInt32LE(46 + name.length, 12);
  end.writeUInt32LE(30 + name.length + data.length, 16);
  return Buffer.concat([local, Buffer.from(name), data, central, Buffer.from(name), end]);
}

const workbook = (sheet: ReturnType<typeof utils.aoa_to_sheet>): Buffer =>
  write({ SheetNames: ['S'], Sheets: { S: sheet } }, { type: 'buffer', bookType: 'xlsx' }) as Buffer;

describe('hostile files end in a sentence or in rows, never in a crash', () => {
  test('a packed bomb, honest about its size or not', async () => {
    expect(await readAll(zipOf('xl/workbook.xml', 400_000_000, 400_000_000))).toMatchObject({
      refused: 'too_large',
    });
    expect(await readAll(zipOf('xl/workbook.xml', 50_000_000, 1000))).toMatchObject({
      refused: 'broken_workbook',
    });
  });

  test('formula cells give their stored result, or their text; nothing is worked out', async () => {
    const sheet = utils.aoa_to_sheet([
      ['unit_number', 'read_on', 'odometer_km'],
      ['A1', '2024-01-01', 5],
      ['A2', '2024-01-01', 6],
    ]);
    sheet.C2 = { t: 'n', v: 41, f: '1+1' };
    sheet.C3 = { t: 's', v: '', f: 'WEBSERVICE("http://127.0.0.1:9/")' };
    const opened = await openTable(workbook(sheet));
    if (isRefused(opened)) throw new Error(opened.message);
    const cells: string[][] = [];
    for await (const batch of opened.sheets[0].rows()) cells.push(...batch.map((row) => row.cells));
    expect(cells[0]).toEqual(['A1', '2024-01-01', '41']);
    expect(cells[1][2]).not.toMatch(/^\d/);
  });

  test('10 000 columns are refused with the limit named', async () => {
    const wide = Array.from({ length: 10_000 }, (_, at) => `c${at}`).join(',');
    expect(await readAll(Buffer.from(`${wide}\n${wide}\n`))).toMatchObject({
      refused: 'too_many_columns',
      message: expect.stringContaining('1000') as string,
    });
    const sheet = utils.aoa_to_sheet([Array.from({ length: 10_000 }, (_, at) => `c${at}`), ['a', 'b']]);
    expect(await readAll(workbook(sheet))).toMatchObject({ refused: 'too_many_columns' });
  });

  test('one giant cell is refused in bounded memory', async () => {
    const bytes = isSoak ? 1_000_000_000 : 40_000_000;
    const file = join(folder, 'giant.csv');
    const out = createWriteStream(file);
    out.write('unit_number,read_on,odometer_km\nA1,2024-01-01,"');
    const block = Buffer.alloc(1_000_000, 'x');
    for (let done = 0; done < bytes; done += block.length) if (!out.write(block)) await once(out, 'drain');
    out.end('"\n');
    await once(out, 'finish');
    const before = process.memoryUsage().rss;
    expect(await readAll(file)).toMatchObject({ refused: 'row_too_long' });
    expect(process.memoryUsage().rss - before).toBeLessThan(300_000_000);
  });

  test('a workbook cut off anywhere is refused; a text cut off is told at its last row', async () => {
    const whole = workbook(
      utils.aoa_to_sheet([
        ['unit_number', 'site'],
        ['A1', 'North'],
        ['A2', 'South'],
      ]),
    );
    for (let share = 1; share < 10; share += 1) {
      const cut = whole.subarray(0, Math.floor((whole.length * share) / 10));
      expect(await readAll(cut)).toHaveProperty('refused');
    }
    const opened = await openTable(
      Buffer.from('unit_number,read_on,odometer_km\nA1,2024-01-01,5\nA2,2024-0'),
    );
    if (isRefused(opened)) throw new Error(opened.message);
    const faults: (string | null)[] = [];
    for await (const batch of opened.sheets[0].rows()) faults.push(...batch.map((row) => row.fault));
    expect(faults).toEqual([null, 'row_cut_off']);
  });

  test('any bytes', async () => {
    const header = 'unit_number,read_on,odometer_km\n';
    const bytes = fc.oneof(
      fc.uint8Array({ maxLength: 200 }),
      fc.string({ unit: 'binary', maxLength: 80 }).map((text) => Buffer.from(header + text)),
      fc
        .array(fc.constantFrom('"', ',', ';', '\n', '\r', '\t', 'A1', '=1+1', '\u0000', '\ufeff', 'é', '5'), {
          maxLength: 40,
        })
        .map((bits) => Buffer.from(header + bits.join(''))),
      fc.uint8Array({ maxLength: 120 }).map((tail) => Buffer.concat([Buffer.from('PK\u0003\u0004'), tail])),
    );
    await fc.assert(
      fc.asyncProperty(bytes, async (drawn) => {
        const outcome = await readAll(drawn);
        if ('refused' in outcome) expect(outcome.message).toMatch(/\S.{10,}/);
        else expect(outcome.rows).toBeGreaterThan(0);
      }),
      { numRuns: isSoak ? 100_000 : 300, seed: 23 },
    );
  });
});
