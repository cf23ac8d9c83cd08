import { readFileSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { read, utils, write } from '@e965/xlsx';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { columnsOf } from '../../models/schema/columns.ts';
import { fieldGuide } from '../../models/schema/fieldGuide.ts';
import { recordKinds } from '../../models/schema/kinds.ts';
import { template } from '../../server/cli/template.ts';
import { csvText } from '../../models/intake/csvText.ts';
import { takeIn } from '../../server/services/takeIn.ts';
import { writeFiles } from './ownFleet.ts';
import { startServer, type Running } from './running.ts';

let server: Running;
beforeAll(async () => {
  server = await startServer();
});
afterAll(() => server.stop());

const get = async (file: string): Promise<Buffer> => {
  const response = await fetch(`${server.address}/api/templates/${file}`);
  expect(response.status).toBe(200);
  expect(response.headers.get('content-disposition')).toContain(file);
  return Buffer.from(await response.arrayBuffer());
};
const dry = { dryRun: true, by: 'test', today: '2026-04-15' };
const unitsFile = 'unit_number,in_service_on\nU-101,2020-01-01\n';

test.each(recordKinds)('the template of %s, filled in, is taken for what it is', async (kind) => {
  const names = columnsOf(kind).map(({ name }) => name);
  const guide = fieldGuide(kind);
  const text = (await get(`${kind}.csv`)).toString('utf8');
  expect(text).toBe(`${names.join(',')}\n`);
  const example = guide.map((entry) => entry.example);

  const book = read(await get(`${kind}.xlsx`));
  expect(book.SheetNames).toEqual([kind, 'How to fill in']);
  const rows = utils.sheet_to_json<string[]>(book.Sheets[kind], { header: 1 });
  expect(rows).toEqual([names]);
  const explained = utils.sheet_to_json<string[]>(book.Sheets['How to fill in'], { header: 1 });
  const lines = explained.slice(explained.findIndex(([first]) => first === 'column') + 1);
  expect(lines.map(([name]) => name)).toEqual(names);
  for (const [name, meaning, , allowed, needed] of lines) {
    expect(meaning.length, name).toBeGreaterThan(1);
    expect(allowed.length, name).toBeGreaterThan(1);
    expect(['yes', 'no']).toContain(needed);
  }
  utils.sheet_add_aoa(book.Sheets[kind], [example], { origin: 1 });

  // the file's name says nothing: the columns alone tell the kind of a text table, the sheet's name that of a workbook
  const files = writeFiles({ 'filled.csv': csvText(names, [example]), 'units.csv': unitsFile });
  const [named] = writeFiles({ 'filled.xlsx': write(book, { type: 'buffer' }) as Buffer });
  try {
    for (const file of [files.find(({ name }) => name === 'filled.csv'), named]) {
      if (file === undefined) throw new Error('file is missing');
      const others = kind === 'units' ? [] : files.filter(({ name }) => name === 'units.csv');
      const report = await takeIn(':memory:', [file, ...others], dry);
      expect(report.refused ?? []).toEqual([]);
      expect(report.questions).toEqual([]);
      const own = report.files.find((entry) => entry.file.startsWith(file.name));
      expect(own).toMatchObject({ kind, rowsRead: 1, accepted: 1, unknownColumns: [] });
      expect(own?.columns?.map(({ field }) => field)).toEqual(guide.map(({ field }) => field));
    }
  } finally {
    rmSync(dirname(files[0].path), { recursive: true });
    rmSync(dirname(named.path), { recursive: true });
  }
});

test('what is no template is said; the command line writes one and never over a file', async () => {
  for (const name of ['nothing.csv', 'units.pdf', 'units', 'units.csv.xlsx'])
    expect((await fetch(`${server.address}/api/templates/${name}`)).status, name).toBe(404);
  const [{ path }] = writeFiles({ 'there.csv': 'kept' });
  const folder = dirname(path);
  try {
    const file = join(folder, 'fuel.csv');
    template('fuel', file, { json: true });
    expect(readFileSync(file, 'utf8')).toBe((await get('fuel.csv')).toString('utf8'));
    expect(() => template('fuel', path, { json: true })).toThrow('there already');
    expect(readFileSync(path, 'utf8')).toBe('kept');
    expect(() => template('fuel', join(folder, 'fuel.ods'), { json: true })).toThrow('.csv or .xlsx');
  } finally {
    rmSync(folder, { recursive: true });
  }
});
