import { copyFileSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as spreadsheet from '@e965/xlsx';
import iconv from 'iconv-lite';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { takeIn } from '../../../server/services/takeIn.ts';
import { openStore } from '../../../server/store/openStore.ts';
import { verifyStore } from '../../../server/store/verify.ts';
import { codeFiles } from './codes.ts';
import { findingFiles } from './findings.ts';
import type { ForeignFile } from './foreignFile.ts';
import { fuelFiles } from './fuel.ts';
import { otherFiles } from './others.ts';
import { readingFiles } from './readings.ts';
import { sampleFiles } from './samples.ts';
import { serviceFiles } from './service.ts';
import { unitFiles } from './units.ts';

const folder = mkdtempSync(join(tmpdir(), 'sumpwise-foreign-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function bytesOf(file: ForeignFile): Buffer {
  if (file.sheets === undefined) {
    const text = (file.text ?? '').replaceAll('\n', file.lineEnd ?? '\n');
    return iconv.encode(text, file.encoding ?? 'utf-8', { addBOM: file.mark === true });
  }
  const book = spreadsheet.utils.book_new();
  for (const { name, rows, merged } of file.sheets) {
    const sheet = spreadsheet.utils.aoa_to_sheet(rows.map((row) => [...row]));
    if (merged !== undefined) sheet['!merges'] = merged.map((range) => spreadsheet.utils.decode_range(range));
    spreadsheet.utils.book_append_sheet(book, sheet, name);
  }
  return spreadsheet.write(book, { type: 'buffer', bookType: 'xlsx' }) as Buffer;
}

const own = { dryRun: false, by: 'test', today: '2024-06-01' };
const known = join(folder, 'known.sqlite');
const named = (files: readonly ForeignFile[]) => files.map((file) => [file.name, file] as const);
let count = 0;

beforeAll(async () => {
  const path = join(folder, 'units.csv');
  writeFileSync(
    path,
    'unit_number,in_service_on,in_service_odometer_km\n101,2019-01-01,0\n102,2023-01-01,0\n',
  );
  await takeIn(known, [{ name: 'units.csv', path }], own);
});

async function takeForeign(file: ForeignFile) {
  count += 1;
  const store = join(folder, `${count}.sqlite`);
  if (file.kind !== 'units') copyFileSync(known, store);
  const path = join(folder, `${count}-${file.name}`);
  writeFileSync(path, bytesOf(file));
  const report = await takeIn(store, [{ name: file.name, path }], { ...own, ...file.options });
  return { store, report };
}

describe.each([
  ['units', unitFiles],
  ['readings', readingFiles],
  ['fuel', fuelFiles],
  ['service', serviceFiles],
  ['samples', sampleFiles],
  ['findings', findingFiles],
  ['codes', codeFiles],
  ['the others', otherFiles],
])('files of other programs: %s', (_, files) => {
  test.each(named(files))('%s', async (_name, file) => {
    const { store: path, report } = await takeForeign(file);
    expect(report.refused ?? []).toEqual([]);
    expect(report.questions.map(({ code }) => code)).toEqual(file.asks ?? []);
    if (file.asks !== undefined) {
      expect(report).toMatchObject({ committed: false, batch: null });
      return;
    }
    const sum = (pick: (each: (typeof report.files)[number]) => number) =>
      report.files.reduce((total, each) => total + pick(each), 0);
    expect([...new Set(report.files.map(({ kind }) => kind))]).toEqual([file.kind]);
    expect(
      {
        accepted: sum(({ accepted }) => accepted),
        duplicates: sum(({ duplicates }) => duplicates),
        held: sum(({ held }) => held),
        rejected: sum(({ rejected }) => rejected),
      },
      JSON.stringify(report.reasons),
    ).toEqual({
      accepted: file.accepted ?? 0,
      duplicates: file.duplicates ?? 0,
      held: file.held ?? 0,
      rejected: file.rejected ?? 0,
    });
    const store = await openStore(path);
    try {
      expect(verifyStore(store).ok).toBe(true);
      const rows = store.sqlite.prepare(`SELECT * FROM ${file.kind} ORDER BY rowid`).all() as Record<
        string,
        string | number | null
      >[];
      for (const [row, column, value] of file.holds ?? []) {
        const found = rows[row]?.[column];
        if (typeof value === 'number' && typeof found === 'number') expect(found).toBeCloseTo(value, 6);
        else expect(found, `${column} of row ${row}`).toBe(value);
      }
    } finally {
      await store.close();
    }
  });
});
