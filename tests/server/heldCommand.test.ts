import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import type { HeldRow } from '../../models/schema/intake.ts';
import { runCommand } from '../../server/cli/command.ts';
import { pathsOf } from '../../server/config.ts';
import { takeIn } from '../../server/services/takeIn.ts';
import { openStore } from '../../server/store/openStore.ts';
import { verifyStore } from '../../server/store/verify.ts';
import { writeFiles } from './ownFleet.ts';
import { temporaryPaths } from './running.ts';

const root = new URL('../..', import.meta.url).pathname;
const paths = temporaryPaths();
afterAll(() => paths.remove());

beforeAll(async () => {
  const files = writeFiles({
    'units.csv': 'unit_number,in_service_on,in_service_odometer_km\nX1,2022-01-01,0\n',
    'readings.csv': `unit_number,read_on,odometer_km
X1,2023-01-10,20000
X1,2023-03-10,23000
X1,2023-05-10,2600
X1,2023-07-10,2900
X1,2023-09-10,32000
X1,2023-11-10,many
`,
  });
  await takeIn(paths.ownStore, files, { dryRun: false, by: 'test', today: '2024-06-01' });
});

async function held(...words: readonly string[]) {
  let out = '';
  let err = '';
  const seen = [
    vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
      out += String(text);
      return true;
    }),
    vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
      err += String(text);
      return true;
    }),
  ];
  try {
    const status = await runCommand(['held', ...words, '--store', paths.ownStore], (file) =>
      pathsOf(root, root, file),
    );
    return { status, out, err };
  } finally {
    for (const each of seen) each.mockRestore();
  }
}
const rowsAt = async (state: string): Promise<HeldRow[]> =>
  (JSON.parse((await held('list', '--state', state, '--json')).out) as { rows: HeldRow[] }).rows;

test('held rows are listed, mended in bulk and by hand, rejected, and opened again, with who and when', async () => {
  const list = await held();
  expect(list.status).toBe(0);
  expect(list.out).toContain('2 × odometer_back, 2 with a mend');
  expect(list.out).toContain('suggested: 2600 may be 26000');
  const waiting = await rowsAt('held');
  expect(waiting).toHaveLength(3);

  const mended = await held('mend', '--code', 'odometer_back', '--by', 'A. Clerk', '--json');
  expect(JSON.parse(mended.out)).toEqual({ done: 2, refused: [] });
  const [last] = await rowsAt('held');
  const byHand = await held('mend', String(last.id), '--set', 'odometer_km=35200', '--by', 'A. Clerk');
  expect(byHand.out).toContain('1 of 1 rows decided.');
  const accepted = await rowsAt('accepted');
  expect(accepted.map(({ cells }) => cells[2]).sort()).toEqual(['26000', '29000', '35200']);
  expect(accepted.every(({ decisions }) => decisions[0].by === 'A. Clerk' && decisions[0].at !== '')).toBe(
    true,
  );
  expect(accepted.map(({ originalCells }) => originalCells[2]).sort()).toEqual(['2600', '2900', 'many']);

  expect((await held('reopen', String(last.id))).status).toBe(0);
  expect((await held('reject', String(last.id))).status).toBe(0);
  const [rejected] = await rowsAt('rejected');
  expect(rejected.decisions.map(({ action }) => action)).toEqual(['mend', 'reopen', 'reject']);
  const store = await openStore(paths.ownStore);
  expect(verifyStore(store).ok).toBe(true);
  expect(store.sqlite.prepare('SELECT odometer_km FROM readings ORDER BY read_on').pluck().all()).toEqual([
    20000, 23000, 26000, 29000, 32000,
  ]);
  await store.close();
});

test('what fits no row, no column or no action is refused or wrong usage', async () => {
  expect(await held('accept')).toMatchObject({
    status: 1,
    err: expect.stringContaining('say which rows') as string,
  });
  expect(await held('accept', '999')).toMatchObject({
    status: 1,
    err: expect.stringContaining('999') as string,
  });
  expect(await held('mend', '--code', 'nothing', '--set', 'a=b')).toMatchObject({ status: 1 });
  expect((await held('forget')).status).toBe(2);
});
