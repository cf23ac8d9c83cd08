import { afterEach, describe, expect, test } from 'vitest';
import type { IntakeReport } from '../../models/schema/intake.ts';
import { takeIn, type TakeInOptions } from '../../server/services/takeIn.ts';
import { decideHeld } from '../../server/services/decideHeld.ts';
import { listHeld } from '../../server/store/heldRows.ts';
import { openStore } from '../../server/store/openStore.ts';
import { undoBatch } from '../../server/store/undoBatch.ts';
import { verifyStore } from '../../server/store/verify.ts';
import { ownFleet, writeFiles } from './ownFleet.ts';
import { temporaryPaths } from './running.ts';

const today = '2024-06-01';
const made: { remove(): void }[] = [];
afterEach(() => made.splice(0).forEach((paths) => paths.remove()));

function newStore(): string {
  const paths = temporaryPaths();
  made.push(paths);
  return paths.ownStore;
}

async function take(
  store: string,
  files: Readonly<Record<string, string>>,
  options: Partial<TakeInOptions> = {},
): Promise<IntakeReport> {
  return takeIn(store, writeFiles(files), { dryRun: false, by: 'test', today, ...options });
}

const sums = (report: IntakeReport) => ({
  read: report.files.reduce((sum, file) => sum + file.rowsRead, 0),
  accepted: report.files.reduce((sum, file) => sum + file.accepted, 0),
  duplicates: report.files.reduce((sum, file) => sum + file.duplicates, 0),
  held: report.files.reduce((sum, file) => sum + file.held, 0),
});

const unitRow = 'unit_number,in_service_on,in_service_odometer_km\nX1,2022-01-01,0\n';

describe('a whole fleet of own files', () => {
  test('every row is accounted for, and the same files again add nothing', async () => {
    const store = newStore();
    const first = await take(store, ownFleet);
    expect(first.committed).toBe(true);
    expect(first.questions).toEqual([]);
    const rows = Object.values(ownFleet).reduce((sum, text) => sum + text.trim().split('\n').length - 1, 0);
    expect(sums(first).read).toBe(rows);
    expect(sums(first).held).toBe(0);
    const again = await take(store, ownFleet);
    expect(sums(again)).toEqual({ read: rows, accepted: 0, duplicates: rows, held: 0 });
    const opened = await openStore(store);
    expect(verifyStore(opened)).toMatchObject({
      ok: true,
      rowsRead: 2 * rows,
      accepted: rows,
      duplicates: rows,
    });
    await opened.close();
  });

  test('file order does not matter', async () => {
    const [one, other] = [newStore(), newStore()];
    await take(one, ownFleet);
    for (const name of Object.keys(ownFleet).reverse()) await take(other, { [name]: ownFleet[name] });
    for (const kind of ['units', 'service', 'readings', 'samples', 'findings', 'codes']) {
      const dump = async (file: string) => {
        const store = await openStore(file);
        const rows = store.sqlite
          .prepare(`SELECT fingerprint FROM ${kind} ORDER BY fingerprint`)
          .pluck()
          .all();
        await store.close();
        return rows;
      };
      expect(await dump(other)).toEqual(await dump(one));
    }
  });

  test('US and metric columns give the same records', async () => {
    const [metric, us] = [newStore(), newStore()];
    await take(metric, {
      'units.csv': unitRow,
      'readings.csv': 'unit_number,read_on,odometer_km\nX1,2023-01-01,16093.44\n',
    });
    await take(us, {
      'units.csv': unitRow,
      'readings.csv': 'unit_number,read_on,odometer_mi\nX1,2023-01-01,10000\n',
    });
    const odometer = async (file: string) => {
      const store = await openStore(file);
      const value = store.sqlite.prepare('SELECT odometer_km FROM readings').pluck().get() as number;
      await store.close();
      return value;
    };
    expect(await odometer(us)).toBeCloseTo(await odometer(metric), 6);
  });

  test('a dry run says the same and changes nothing', async () => {
    const store = newStore();
    const dry = await take(store, ownFleet, { dryRun: true });
    expect(dry).toMatchObject({ committed: false, batch: null });
    const real = await take(store, ownFleet);
    expect(sums(real)).toEqual(sums(dry));
  });
});

describe('rows that wait', () => {
  test('a row of an unknown unit is held and taken in when the unit arrives', async () => {
    const store = newStore();
    const early = await take(store, {
      'readings.csv': 'unit_number,read_on,odometer_km\nx1,2023-01-01,900\n',
    });
    expect(sums(early)).toMatchObject({ accepted: 0, held: 1 });
    expect(early.reasons[0].code).toBe('unknown_unit_number');
    const later = await take(store, { 'units.csv': unitRow });
    expect(later.triedAgain).toEqual({ accepted: 1, stillHeld: 0 });
    const opened = await openStore(store);
    expect(verifyStore(opened)).toMatchObject({ ok: true, accepted: 2, held: 0 });
    await opened.close();
  });

  test('an odometer that goes back is held, whichever file comes first', async () => {
    const good =
      'unit_number,read_on,odometer_km\nX1,2022-02-01,1000\nX1,2022-03-01,2000\nX1,2022-04-01,3000\nX1,2022-06-01,5000\n';
    const bad = 'unit_number,read_on,odometer_km\nX1,2022-05-01,377\n';
    for (const order of [
      [good, bad],
      [bad, good],
    ]) {
      const store = newStore();
      await take(store, { 'units.csv': unitRow });
      for (const [index, text] of order.entries()) await take(store, { [`readings_${index}.csv`]: text });
      const opened = await openStore(store);
      const held = listHeld(opened, { after: 0, limit: 10 }).rows;
      expect(held.map((row) => [row.code, row.cells[2]])).toEqual([['odometer_back', '377']]);
      expect(verifyStore(opened).ok).toBe(true);
      await opened.close();
    }
  });

  test('two equal top-ups of one day are asked about, not dropped; accepting keeps both', async () => {
    const store = newStore();
    const text = 'unit_number,serviced_on,work,oil_l\nX1,2023-01-01,top_up,1\nX1,2023-01-01,top_up,1\n';
    await take(store, { 'units.csv': unitRow, 'service.csv': text });
    const opened = await openStore(store);
    const [row] = listHeld(opened, { after: 0, limit: 10 }).rows;
    expect(row.code).toBe('repeat_same_day');
    const who = { by: 'test', at: '2024-06-01T00:00:00Z', today };
    expect(await decideHeld(store, { ids: [row.id], action: 'accept' }, who)).toEqual({
      done: 1,
      refused: [],
    });
    expect(opened.sqlite.prepare('SELECT count(*) FROM service').pluck().get()).toBe(2);
    expect(verifyStore(opened)).toMatchObject({ ok: true, held: 0, accepted: 3 });
    await decideHeld(store, { ids: [row.id], action: 'reopen' }, who);
    expect(opened.sqlite.prepare('SELECT count(*) FROM service').pluck().get()).toBe(1);
    expect(verifyStore(opened)).toMatchObject({ ok: true, held: 1 });
    await opened.close();
  });

  test('a mended row is taken in; a mend that is still wrong says why', async () => {
    const store = newStore();
    await take(store, {
      'units.csv': unitRow,
      'readings.csv': 'unit_number,read_on,odometer_km\nX1,2023-02-30,900\n',
    });
    const opened = await openStore(store);
    const [row] = listHeld(opened, { after: 0, limit: 10 }).rows;
    const who = { by: 'test', at: '2024-06-01T00:00:00Z', today };
    const wrong = await decideHeld(
      store,
      { ids: [row.id], action: 'mend', cells: ['X1', '2023-02-31', '900'] },
      who,
    );
    expect(wrong.done).toBe(0);
    expect(wrong.refused[0].message).toContain('does not exist');
    const right = await decideHeld(
      store,
      { ids: [row.id], action: 'mend', cells: ['X1', '2023-02-28', '900'] },
      who,
    );
    expect(right.done).toBe(1);
    expect(verifyStore(opened)).toMatchObject({ ok: true, held: 0, accepted: 2 });
    await opened.close();
  });
});

describe('correction and undo', () => {
  test('the same record_id again corrects the row', async () => {
    const store = newStore();
    const row = (liters: string) =>
      `unit_number,serviced_on,work,oil_l,record_id\nX1,2023-01-01,oil_change,${liters},WO-1\n`;
    await take(store, { 'units.csv': unitRow, 'service.csv': row('4.0') });
    const report = await take(store, { 'service.csv': row('4.5') });
    expect(sums(report)).toMatchObject({ accepted: 1, duplicates: 0 });
    expect(sums(await take(store, { 'service.csv': row('4.5') }))).toMatchObject({
      accepted: 0,
      duplicates: 1,
    });
  });

  test('undo takes a batch back whole; what a later file repeated stays', async () => {
    const store = newStore();
    const text = 'unit_number,read_on,odometer_km\nX1,2023-01-01,900\n';
    await take(store, { 'units.csv': unitRow });
    const first = await take(store, { 'readings.csv': text });
    await take(store, { 'more_readings.csv': text }, { kind: 'readings' });
    const opened = await openStore(store);
    const result = undoBatch(opened, first.batch ?? '', '2024-06-01T00:00:00Z');
    expect(result).toMatchObject({ batch: first.batch });
    expect(opened.sqlite.prepare('SELECT count(*) FROM readings').pluck().get()).toBe(1);
    expect(verifyStore(opened).ok).toBe(true);
    await opened.close();
  });

  test('undo refuses where later records rest on the units of the batch', async () => {
    const store = newStore();
    const units = await take(store, { 'units.csv': unitRow });
    await take(store, { 'readings.csv': 'unit_number,read_on,odometer_km\nX1,2023-01-01,900\n' });
    const opened = await openStore(store);
    const result = undoBatch(opened, units.batch ?? '', '2024-06-01T00:00:00Z');
    expect(result).toHaveProperty('refused');
    expect(opened.sqlite.prepare('SELECT count(*) FROM units').pluck().get()).toBe(1);
    expect(undoBatch(opened, '99', 'now')).toHaveProperty('refused');
    await opened.close();
  });
});

describe('what can not be read is refused whole, with the store as it was', () => {
  const cases: readonly [string, Record<string, string>, RegExp][] = [
    ['an empty file', { 'units.csv': '' }, /empty/],
    ['a header only', { 'units.csv': 'unit_number,site\n' }, /no row/],
    ['a binary file', { 'units.csv': '\u0000\u0001\u0002\u0000PK\u0000\u0000' }, /no text/],
  ];
  for (const [name, files, words] of cases)
    test(name, async () => {
      const store = newStore();
      const report = await take(store, { ...files, 'sites.csv': 'site,bays\nHere,1\n' });
      expect(report.committed).toBe(false);
      expect(report.refused?.[0].message).toMatch(words);
      const opened = await openStore(store);
      expect(opened.sqlite.prepare('SELECT count(*) FROM batch').pluck().get()).toBe(0);
      await opened.close();
    });

  test('dates that could be day or month first are asked about', async () => {
    const store = newStore();
    const files = {
      'units.csv': unitRow,
      'readings.csv': 'unit_number,read_on,odometer_km\nX1,03/04/2023,900\nX1,05/06/2023,1900\n',
    };
    const report = await take(store, files);
    expect(report.committed).toBe(false);
    expect(report.questions[0]).toMatchObject({ code: 'date_order', file: 'readings.csv' });
    const answered = await take(store, files, { dateOrder: 'dmy' });
    expect(answered.committed).toBe(true);
  });

  test('a future date, text in a number, two units of measure in one column', async () => {
    const store = newStore();
    const text =
      'unit_number,read_on,odometer_km\nX1,2031-01-01,900\nX1,2023-01-02,many\nX1,2023-01-03,1000 mi\nX1,2023-01-10,1700\n';
    const report = await take(store, { 'units.csv': unitRow, 'readings.csv': text });
    const codes = Object.fromEntries(report.reasons.map((reason) => [reason.code, reason.count]));
    expect(codes).toMatchObject({ date_future: 1, not_a_number: 1 });
    expect(sums(report).read).toBe(5);
    expect(sums(report).accepted + sums(report).held).toBe(5);
  });
});
