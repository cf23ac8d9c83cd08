import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as spreadsheet from '@e965/xlsx';
import iconv from 'iconv-lite';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import type { IntakeReport } from '../../../models/schema/intake.ts';
import { runCommand } from '../../../server/cli/command.ts';
import { pathsOf } from '../../../server/config.ts';
import { takeIn, type TakeInOptions } from '../../../server/services/takeIn.ts';
import { openStore } from '../../../server/store/openStore.ts';
import { verifyStore } from '../../../server/store/verify.ts';
import { startServer, type Running } from '../running.ts';
import { codeFiles } from './codes.ts';
import { findingFiles } from './findings.ts';
import type { ForeignFile } from './foreignFile.ts';
import { fuelFiles } from './fuel.ts';
import { otherFiles } from './others.ts';
import { readingFiles } from './readings.ts';
import { sampleFiles } from './samples.ts';
import { serviceFiles } from './service.ts';
import { shopListFiles } from './shopLists.ts';
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

const root = new URL('../../..', import.meta.url).pathname;
const known = join(folder, 'known.sqlite');
const named = (files: readonly ForeignFile[]) => files.map((file) => [file.name, file] as const);
let count = 0;
let empty: Running;
let withUnits: Running;

const unitsFile = 'unit_number,in_service_on,in_service_odometer_km\n101,2019-01-01,0\n102,2023-01-01,0\n';

beforeAll(async () => {
  const path = join(folder, 'units.csv');
  writeFileSync(path, unitsFile);
  await takeIn(known, [{ name: 'units.csv', path }], { dryRun: false, by: 'test', today: '2024-06-01' });
  [empty, withUnits] = await Promise.all([startServer(), startServer()]);
  await Promise.all([empty.context.own(), withUnits.context.own()]);
  await send(withUnits, 'units.csv', Buffer.from(unitsFile), {});
});
afterAll(async () => {
  await Promise.all([empty.stop(), withUnits.stop()]);
});

interface Taken {
  readonly report: IntakeReport;
  readonly status: number;
}

/** A file as the body of one request. */
async function send(
  server: Running,
  name: string,
  body: Buffer,
  options: Record<string, string>,
): Promise<Taken> {
  const query = new URLSearchParams({ ...options, name }).toString();
  const response = await fetch(`${server.address}/api/intake?${query}`, {
    method: 'POST',
    body: new Uint8Array(body),
    headers: { 'content-type': 'application/octet-stream' },
  });
  return { report: (await response.json()) as IntakeReport, status: response.status };
}

/** The words of the command line for the same options. */
function commandWords({ kind, measures, dateOrder }: Partial<TakeInOptions>): string[] {
  return [
    ...(kind === undefined ? [] : ['--kind', kind]),
    ...(measures === undefined ? [] : ['--measures', measures]),
    ...(dateOrder === undefined ? [] : ['--date-order', dateOrder]),
  ];
}

/** Runs the command line within this process and gives back what it printed. */
async function command(store: string, words: readonly string[]): Promise<Taken> {
  let printed = '';
  const out = vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    printed += String(text);
    return true;
  });
  const err = vi.spyOn(process.stderr, 'write').mockReturnValue(true);
  try {
    const status = await runCommand(words, (file) => pathsOf(root, root, file ?? store));
    return { report: JSON.parse(printed) as IntakeReport, status };
  } finally {
    out.mockRestore();
    err.mockRestore();
  }
}

async function takeForeign(file: ForeignFile) {
  count += 1;
  const store = join(folder, `${count}.sqlite`);
  if (file.kind !== 'units') copyFileSync(known, store);
  const inner = join(folder, String(count));
  mkdirSync(inner);
  const path = join(inner, file.name);
  writeFileSync(path, bytesOf(file));
  const options = file.options ?? {};
  const taken = await command(store, ['intake', path, '--store', store, '--json', ...commandWords(options)]);
  return { store, ...taken };
}

const sumsOf = (report: IntakeReport) => {
  const sum = (pick: (each: IntakeReport['files'][number]) => number) =>
    report.files.reduce((total, each) => total + pick(each), 0);
  return {
    accepted: sum(({ accepted }) => accepted),
    duplicates: sum(({ duplicates }) => duplicates),
    held: sum(({ held }) => held),
    rejected: sum(({ rejected }) => rejected),
  };
};
const wantedOf = (file: ForeignFile) => ({
  accepted: file.accepted ?? 0,
  duplicates: file.duplicates ?? 0,
  held: file.held ?? 0,
  rejected: file.rejected ?? 0,
});

describe.each([
  ['units', unitFiles],
  ['readings', readingFiles],
  ['fuel', fuelFiles],
  ['service', serviceFiles],
  ['samples', sampleFiles],
  ['findings', findingFiles],
  ['codes', codeFiles],
  ['the others', otherFiles],
  ['more lists of the shop', shopListFiles],
])('files of other programs: %s', (_, files) => {
  test.each(named(files))('%s, by the command line', async (_name, file) => {
    const { store: path, report, status } = await takeForeign(file);
    expect(report.refused ?? []).toEqual([]);
    expect(report.questions.map(({ code }) => code)).toEqual(file.asks ?? []);
    expect(status).toBe(file.asks === undefined ? 0 : 1);
    if (file.asks !== undefined) {
      expect(report).toMatchObject({ committed: false, batch: null });
      return;
    }
    expect([...new Set(report.files.map(({ kind }) => kind))]).toEqual([file.kind]);
    expect(sumsOf(report), JSON.stringify(report.reasons)).toEqual(wantedOf(file));
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

  test.each(named(files))('%s, by one request', async (_name, file) => {
    const { kind, measures, dateOrder } = file.options ?? {};
    const options = Object.fromEntries(
      Object.entries({ kind, measures, dateOrder, dryRun: 'true' }).filter(
        ([, value]) => value !== undefined,
      ),
    ) as Record<string, string>;
    const server = file.kind === 'units' ? empty : withUnits;
    const { report, status } = await send(server, file.name, bytesOf(file), options);
    expect(report.questions.map(({ code }) => code)).toEqual(file.asks ?? []);
    expect(status).toBe(file.asks === undefined ? 200 : 422);
    if (file.asks === undefined)
      expect(sumsOf(report), JSON.stringify(report.reasons)).toEqual(wantedOf(file));
  });
});
