import { afterEach, describe, expect, test } from 'vitest';
import type { IntakeProgress } from '../../server/services/intake/intakeProgress.ts';
import { takeIn, type TakeInOptions } from '../../server/services/takeIn.ts';
import { decideHeld } from '../../server/services/decideHeld.ts';
import { listHeld } from '../../server/store/heldRows.ts';
import { openStore } from '../../server/store/openStore.ts';
import { undoBatch } from '../../server/store/undoBatch.ts';
import { verifyStore } from '../../server/store/verify.ts';
import { writeFiles } from './ownFleet.ts';
import { temporaryPaths } from './running.ts';

const today = '2024-06-01';
const made: { remove(): void }[] = [];
afterEach(() => made.splice(0).forEach((paths) => paths.remove()));

const units = 'unit_number,in_service_on,in_service_odometer_km\nX1,2022-01-01,0\nX2,2022-01-01,0\n';
const header = 'unit_number,serviced_on,odometer_km,work,oil_l\n';
const first = `${header}X1,2023-01-10,20000,LOF,6
X1,2023-05-10,30000,LOF,6
X1,2023-09-10,40000,LOF,6
X2,2023-02-01,18000,oil change,5
X2,2023-06-01,26000,oil change,5
`;
const corrected = first
  .replace('30000,LOF,6', '30100,LOF,6.5')
  .replace('X2,2023-02-01,18000,oil change,5\n', '')
  .concat('X2,2024-01-03,41000,LOF,5\n');

async function begin() {
  const paths = temporaryPaths();
  made.push(paths);
  const take = (name: string, text: string, options: Partial<TakeInOptions> = {}) =>
    takeIn(paths.ownStore, writeFiles({ [name]: text }), { dryRun: false, by: 'test', today, ...options });
  await take('units.csv', units);
  await take('service.csv', first);
  const read = async <T>(work: (store: Awaited<ReturnType<typeof openStore>>) => T): Promise<T> => {
    const store = await openStore(paths.ownStore);
    try {
      return work(store);
    } finally {
      await store.close();
    }
  };
  const rows = () =>
    read((store) =>
      store.sqlite
        .prepare('SELECT unit_number || serviced_on || odometer_km || work || oil_l FROM service ORDER BY 1')
        .pluck()
        .all(),
    );
  return { file: paths.ownStore, take, rows, read };
}

describe('a corrected file', () => {
  test('is asked about with its differences, and nothing changes until that is answered', async () => {
    const { take, rows } = await begin();
    const before = await rows();
    const report = await take('service.csv', corrected);
    expect(report).toMatchObject({ committed: false, questions: [{ code: 'corrected_file' }] });
    expect(report.files[0].corrects).toMatchObject({ same: 3, changed: 1, added: 1, gone: 1 });
    expect(report.files[0].corrects?.differences).toEqual([
      {
        line: 3,
        earlierLine: 3,
        row: 'X1, 2023-05-10, 30100',
        cells: [
          { column: 'odometer_km', was: '30000', is: '30100' },
          { column: 'oil_l', was: '6', is: '6.5' },
        ],
      },
    ]);
    expect(report.files[0].corrects?.goneRows).toEqual([
      { line: 5, cells: ['X2', '2023-02-01', '18000', 'oil change', '5'] },
    ]);
    expect(await rows()).toEqual(before);
  });

  test('is compared in sight: how far it is goes up from the first row, and calling it off changes nothing', async () => {
    const { take, rows } = await begin();
    const before = await rows();
    const seen: IntakeProgress[] = [];
    await take('service.csv', corrected, {
      corrected: 'replace',
      dryRun: true,
      progress: (at) => seen.push(at),
    });
    const shares = seen.map(({ share }) => share);
    expect(seen[0]?.file).toBe('service.csv, beside the file of this name');
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    const stop = new AbortController();
    const called = take('service.csv', corrected, {
      corrected: 'replace',
      signal: stop.signal,
      progress: () => stop.abort(),
    });
    await expect(called).rejects.toThrow(/called off/);
    expect(await rows()).toEqual(before);
  });

  test('replaces row by row, accounts for every row, adds nothing twice, and can be taken back', async () => {
    const { take, rows, read } = await begin();
    const before = await rows();
    const report = await take('service.csv', corrected, { corrected: 'replace' });
    expect(report.files[0]).toMatchObject({ rowsRead: 5, accepted: 2, duplicates: 3, held: 0, rejected: 0 });
    const after = await rows();
    expect(after).toHaveLength(5);
    expect(after).toContain('X12023-05-1030100.0LOF6.5');
    expect(after.join()).not.toContain('30000');
    expect(await read((store) => verifyStore(store))).toMatchObject({ ok: true, problems: [] });
    const rejected = await read((store) =>
      listHeld(store, { state: 'rejected', after: 0, limit: 10 }).rows.map(({ code, originalCells }) => [
        code,
        originalCells[2],
      ]),
    );
    expect(rejected).toEqual([
      ['replaced', '30000'],
      ['replaced', '18000'],
    ]);
    // the earlier version again: its replaced rows stay replaced
    const old = await take('service.csv', first, { corrected: 'add' });
    expect(old.files[0]).toMatchObject({ accepted: 0, duplicates: 5 });
    expect(await rows()).toEqual(after);
    await read((store) => {
      expect(undoBatch(store, String(old.batch), today)).toMatchObject({ batch: old.batch });
      expect(undoBatch(store, String(report.batch), today)).toMatchObject({ batch: report.batch });
      expect(verifyStore(store)).toMatchObject({ ok: true, problems: [] });
    });
    expect(await rows()).toEqual(before);
  });

  test('a correction of a correction is taken back first', async () => {
    const { take, rows, read } = await begin();
    const before = await rows();
    const second = await take('service.csv', corrected, { corrected: 'replace' });
    const third = await take('service.csv', corrected.replace('30100', '30200'), { corrected: 'replace' });
    const after = await rows();
    await read((store) => {
      expect(undoBatch(store, String(second.batch), today)).toMatchObject({
        refused: expect.stringContaining(`take batch ${third.batch} back first`) as string,
      });
    });
    expect(await rows()).toEqual(after);
    await read((store) => {
      for (const { batch } of [third, second])
        expect(undoBatch(store, String(batch), today)).toEqual(expect.objectContaining({ batch }));
      expect(verifyStore(store).ok).toBe(true);
    });
    expect(await rows()).toEqual(before);
  });

  test('a longer file, one with other days, and the same file again are no corrections', async () => {
    const { take } = await begin();
    const longer = await take('service.csv', `${first}X2,2024-01-03,41000,LOF,5\n`);
    expect(longer).toMatchObject({ committed: true, questions: [] });
    const other = await take('service.csv', `${header}X1,2024-02-01,50000,LOF,6\n`);
    expect(other).toMatchObject({ committed: true, questions: [] });
    expect(await take('service.csv', first)).toMatchObject({ committed: true, questions: [] });
  });

  test('rows with keys of their own are corrected without a question, and shown', async () => {
    const { take } = await begin();
    const keyed =
      'record_id,unit_number,serviced_on,odometer_km,work\nK1,X1,2024-01-01,52000,LOF\nK2,X2,2024-01-01,44000,LOF\n';
    await take('keyed.csv', keyed);
    const report = await take('keyed.csv', keyed.replace('52000', '52500'));
    expect(report.committed).toBe(true);
    expect(report.files[0].corrects).toMatchObject({ changed: 1, same: 1 });
  });

  test('a held row that the corrected file tells right waits no longer', async () => {
    const { file, take, read } = await begin();
    const wrong = `${header}X1,2024-01-05,5000,LOF,6\nX1,2024-02-05,55000,LOF,6\n`;
    expect((await take('more.csv', wrong)).files[0]).toMatchObject({ accepted: 1, held: 1 });
    const right = await take('more.csv', wrong.replace(',5000,', ',52000,'), { corrected: 'replace' });
    expect(right.files[0]).toMatchObject({ accepted: 1, duplicates: 1, held: 0 });
    expect(await read((store) => listHeld(store, { after: 0, limit: 5 }).rows)).toEqual([]);
    const [told] = await read((store) => listHeld(store, { state: 'rejected', after: 0, limit: 5 }).rows);
    const who = { by: 'J. Doe', at: '2024-06-01T08:00:00Z', today };
    const opened = await decideHeld(file, { ids: [told.id], action: 'reopen' }, who);
    expect(opened).toMatchObject({ done: 0, refused: [{ id: told.id }] });
    await read((store) => {
      undoBatch(store, String(right.batch), today);
      expect(listHeld(store, { after: 0, limit: 5 }).rows).toHaveLength(1);
      expect(verifyStore(store).ok).toBe(true);
    });
  });
});

describe('suggested mends', () => {
  test('the old year written in January, a year ahead and a five-digit odometer are mended in bulk', async () => {
    const { file, take, read } = await begin();
    const readings = `unit_number,read_on,odometer_mi
X1,2023-11-10,26800
X1,2023-12-10,28300
X1,2023-01-09,29800
X1,2024-02-10,31400
X1,2024-12-20,28900
`;
    const report = await take('readings.csv', readings);
    expect(report.files[0]).toMatchObject({ accepted: 3, held: 2 });
    const waiting = await read((store) => listHeld(store, { after: 0, limit: 10 }).rows);
    expect(waiting.map(({ mendCells }) => mendCells)).toEqual([
      ['X1', '2023-12-20', '28900'],
      ['X1', '2024-01-09', '29800'],
    ]);
    const who = { by: 'J. Doe', at: '2024-06-01T08:00:00Z', today };
    const outcome = await decideHeld(file, { ids: waiting.map(({ id }) => id), action: 'mend' }, who);
    expect(outcome).toEqual({ done: 2, refused: [] });
    const decided = await read((store) => listHeld(store, { state: 'accepted', after: 0, limit: 10 }).rows);
    expect(decided.map(({ decisions, originalCells }) => [decisions[0].by, originalCells[1]])).toEqual([
      ['J. Doe', '2024-12-20'],
      ['J. Doe', '2023-01-09'],
    ]);
    await decideHeld(file, { ids: [decided[0].id], action: 'reopen' }, who);
    const [again] = await read((store) => listHeld(store, { after: 0, limit: 10 }).rows);
    expect(again.decisions.map(({ action }) => action)).toEqual(['mend', 'reopen']);
    expect(await read((store) => verifyStore(store).ok)).toBe(true);
  });

  test('an odometer of five digits that began again', async () => {
    const { take, read } = await begin();
    const months = ['2023-01', '2023-02', '2023-03', '2023-04', '2023-05', '2023-06'];
    const shown = [91_000, 94_000, 97_000, 99_500, 2_500, 5_600];
    const lines = months.map((month, at) => `X3,${month}-15,${shown[at]}`).join('\n');
    await take('older.csv', 'unit_number,in_service_on\nX3,2020-01-01\n', { kind: 'units' });
    const report = await take('readings.csv', `unit_number,read_on,odometer_mi\n${lines}\n`);
    expect(report.files[0]).toMatchObject({ accepted: 4, held: 2 });
    const rows = await read((store) => listHeld(store, { after: 0, limit: 10 }).rows);
    expect(rows.map(({ mendCells }) => mendCells?.[2])).toEqual(['102500', '105600']);
    expect(rows[0].mend).toContain('odometer of five digits');
  });
});
