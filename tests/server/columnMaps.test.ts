import { rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import type { IntakeReport } from '../../models/schema/intake.ts';
import { layoutSignature } from '../../models/intake/layoutSignature.ts';
import { intake as bringIn } from '../../server/cli/intake.ts';
import { writeFiles } from './ownFleet.ts';
import { startServer, type Running } from './running.ts';

let server: Running;
beforeAll(async () => {
  server = await startServer();
});
afterAll(() => server.stop());

async function call(path: string, body?: unknown): Promise<{ status: number; body: unknown }> {
  const response = await fetch(server.address + path, {
    method: body === undefined ? 'GET' : 'POST',
    headers: { 'content-type': 'application/json' },
    ...(body !== undefined && { body: JSON.stringify(body) }),
  });
  return { status: response.status, body: await response.json() };
}

async function intake(name: string, text: string, options: object = {}): Promise<IntakeReport> {
  const sent = await fetch(`${server.address}/api/uploads?name=${name}`, { method: 'POST', body: text });
  const { upload } = (await sent.json()) as { upload: string };
  const { body, status } = await call('/api/intake', { uploads: [upload], dryRun: false, ...options });
  expect(status, JSON.stringify(body)).toBe(200);
  return body as IntakeReport;
}
const fieldsOf = (report: IntakeReport): Record<string, string | null> =>
  Object.fromEntries((report.files[0].columns ?? []).map(({ header, field }) => [header, field]));
const maps = async (): Promise<{ name: string; kind: string; columns: object }[]> =>
  ((await call('/api/column-maps')).body as { maps: { name: string; kind: string; columns: object }[] }).maps;

const layout = 'unit_number,serviced_on,zorp,work\n';

test('a layout is its column names in any order', () => {
  expect(layoutSignature(['b', 'a'])).toBe(layoutSignature(['a', 'b']));
  expect(layoutSignature(['a', 'b'])).not.toBe(layoutSignature(['a', 'B']));
  expect(layoutSignature(['a,b'])).not.toBe(layoutSignature(['a', 'b']));
});

test('a corrected layout is kept by name with the commit, used again, renamed and forgotten', async () => {
  await intake('units.csv', 'unit_number,in_service_on\nM1,2020-01-01\n');
  const first = `${layout}M1,2023-01-01,1000,oil_change\n`;
  const seen = await intake('first.csv', first, { dryRun: true, kind: 'service' });
  expect(fieldsOf(seen)).toMatchObject({ zorp: null });
  expect(seen.files[0].columnsBy).toBeUndefined();
  const told = {
    kind: 'service',
    measures: 'us',
    corrections: { 'first.csv': { zorp: { field: 'odometerKm' } } },
    keepAs: { 'first.csv': 'Yard sheet' },
  };
  await intake('first.csv', first, { ...told, dryRun: true });
  expect(await maps(), 'a dry run keeps nothing').toEqual([]);
  const taken = await intake('first.csv', first, told);
  expect(fieldsOf(taken)).toMatchObject({ zorp: 'odometerKm' });
  expect(await maps()).toMatchObject([
    { name: 'Yard sheet', kind: 'service', columns: { zorp: { field: 'odometerKm', unit: 'mi' } } },
  ]);

  // the same names in another order, and no word about kind or miles
  const again = await intake(
    'second.csv',
    'zorp,unit_number,work,serviced_on\n9000,M1,oil_change,2023-06-01\n',
    {
      dryRun: true,
    },
  );
  expect(again.questions).toEqual([]);
  expect(again.files[0]).toMatchObject({ kind: 'service', columnsBy: 'Yard sheet', accepted: 1 });
  const [row] = again.files[0].sampleRows ?? [];
  expect(row.odometerKm).toBeCloseTo(9000 * 1.609344, 6);
  const other = await intake(
    'third.csv',
    'unit_number,serviced_on,zorp,work,x\nM1,2023-07-01,1,oil_change,1\n',
    {
      dryRun: true,
      kind: 'service',
    },
  );
  expect(other.files[0].columnsBy, 'another layout').toBeUndefined();

  // the command line says it on stderr; a map file wins
  const [file] = writeFiles({ 'second.csv': `${layout}M1,2023-06-01,9000,oil_change\n` });
  const folder = dirname(file.path);
  try {
    const mapFile = join(folder, 'map.json');
    writeFileSync(mapFile, JSON.stringify({ columns: { zorp: { field: null } } }));
    const run = async (options: { map?: string; kind?: 'service' }) => {
      const said = { out: '', err: '' };
      const out = vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
        said.out += String(text);
        return true;
      });
      const err = vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
        said.err += String(text);
        return true;
      });
      try {
        await bringIn(server.paths, [file.path], { ...options, dryRun: true, json: true });
      } finally {
        out.mockRestore();
        err.mockRestore();
      }
      return { err: said.err, report: JSON.parse(said.out) as IntakeReport };
    };
    const plain = await run({});
    expect(plain.err).toContain('second.csv: columns by the map Yard sheet\n');
    expect(fieldsOf(plain.report)).toMatchObject({ zorp: 'odometerKm' });
    const mapped = await run({ map: mapFile, kind: 'service' });
    expect(mapped.err).not.toContain('columns by');
    expect(fieldsOf(mapped.report)).toMatchObject({ zorp: null });
  } finally {
    rmSync(folder, { recursive: true });
  }

  expect((await call('/api/column-maps/rename', { name: 'Yard sheet', to: 'North' })).status).toBe(200);
  expect((await call('/api/column-maps/rename', { name: 'Yard sheet', to: 'South' })).status).toBe(404);
  expect((await maps()).map(({ name }) => name)).toEqual(['North']);
  const sent = await fetch(`${server.address}/api/uploads?name=other.csv`, {
    method: 'POST',
    body: 'unit_number,serviced_on,glim,work\nM1,2023-09-01,20000,oil_change\n',
  });
  const { upload } = (await sent.json()) as { upload: string };
  const before = (await call('/api/state')).body as { records: number };
  const taken2 = await call('/api/intake', {
    uploads: [upload],
    kind: 'service',
    measures: 'metric',
    corrections: { 'other.csv': { glim: { field: 'odometerKm' } } },
    keepAs: { 'other.csv': 'North' },
    dryRun: false,
  });
  expect(taken2, 'a name is one layout; nothing comes in').toMatchObject({
    status: 409,
    body: { code: 'name_taken' },
  });
  expect((await call('/api/state')).body).toMatchObject({ records: before.records });
  expect((await call('/api/column-maps/delete', { name: 'North' })).status).toBe(200);
  expect((await call('/api/column-maps/delete', { name: 'North' })).status).toBe(404);
  expect(await maps()).toEqual([]);
});

test('a kind, the order of days and the decimal mark are told for one file of several, and kept with its columns', async () => {
  await intake('units.csv', 'unit_number,in_service_on\nN1,2020-01-01\n');
  const text = 'Zug;Qx;Zorp;Wert\nN1;03/04/2023;12,345;x\n';
  const open = await intake('log.csv', text, { dryRun: true });
  expect(open.questions.map(({ code }) => code)).toEqual(['kind_unclear']);
  const told = {
    kinds: { 'log.csv': 'fuel' },
    corrections: {
      'log.csv': {
        Zug: { field: 'unitNumber' },
        Qx: { field: 'filledOn', dateOrder: 'mdy' },
        Zorp: { field: 'fuelL', unit: 'L', decimal: ',' },
      },
    },
    keepAs: { 'log.csv': 'Log' },
  };
  const taken = await intake('log.csv', text, told);
  expect(taken.files[0]).toMatchObject({ kind: 'fuel', accepted: 1 });
  const kept = (await maps()).find(({ name }) => name === 'Log');
  expect(kept).toMatchObject({
    kind: 'fuel',
    columns: { Zorp: { decimal: ',' }, Qx: { dateOrder: 'mdy' } },
  });
  const { body } = await call('/api/records/fuel/1');
  expect(JSON.stringify(body)).toMatch(/2023-03-04.*12\.345/);
});
