import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { takeIn } from '../../server/services/takeIn.ts';
import { backupStore, restoreStore } from '../../server/store/backupStore.ts';
import { openStore, StoreError } from '../../server/store/openStore.ts';
import { verifyStore } from '../../server/store/verify.ts';
import { writeFiles } from './ownFleet.ts';

const folder = mkdtempSync(join(tmpdir(), 'sumpwise-backup-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const options = { dryRun: false, by: 'test', today: '2024-06-01' };
const units = (...numbers: string[]) =>
  writeFiles({
    'units.csv': `unit_number,in_service_on\n${numbers.map((n) => `${n},2020-01-01`).join('\n')}\n`,
  });

async function unitsIn(file: string): Promise<string[]> {
  const store = await openStore(file, { mustExist: true });
  const numbers = store.sqlite.prepare('SELECT unit_number FROM units ORDER BY 1').pluck().all() as string[];
  expect(verifyStore(store).problems).toEqual([]);
  await store.close();
  return numbers;
}

test('a backup of a store in use is whole; a restore brings it back and keeps what was there', async () => {
  const [file, copy] = [join(folder, 'a.sqlite'), join(folder, 'copy.sqlite')];
  await takeIn(file, units('A1'), options);
  const inUse = await openStore(file);
  expect(await backupStore(file, copy)).toBeGreaterThan(1000);
  expect(readdirSync(folder).filter((name) => name.startsWith('copy'))).toEqual(['copy.sqlite']);
  await takeIn(file, units('A2'), options);
  await expect(restoreStore(copy, file, 'kept')).rejects.toThrow(/in use/);
  expect(inUse.sqlite.prepare('SELECT count(*) FROM units').pluck().get()).toBe(2);
  await inUse.close();
  const kept = await restoreStore(copy, file, 'kept');
  expect(await unitsIn(file)).toEqual(['A1']);
  expect(await unitsIn(kept ?? '')).toEqual(['A1', 'A2']);
  expect(await restoreStore(copy, join(folder, 'new.sqlite'), 'kept')).toBeNull();
  expect(await unitsIn(join(folder, 'new.sqlite'))).toEqual(['A1']);
});

test('what is no sound store is refused and the store stays', async () => {
  const file = join(folder, 'b.sqlite');
  await takeIn(file, units('B1'), options);
  const wrong = join(folder, 'wrong.sqlite');
  writeFileSync(wrong, 'this is no store at all, only text that goes on for a while');
  await expect(restoreStore(wrong, file, 'kept')).rejects.toThrow(StoreError);
  await expect(restoreStore(join(folder, 'none.sqlite'), file, 'kept')).rejects.toThrow(/does not exist/);
  const store = await openStore(file);
  store.sqlite.exec('UPDATE intake_file SET rows_read = 9');
  await store.close();
  await expect(restoreStore(file, join(folder, 'c.sqlite'), 'kept')).rejects.toThrow(/accounted for/);
  expect(existsSync(join(folder, 'c.sqlite'))).toBe(false);
  expect(readdirSync(folder).filter((name) => name.includes('.part'))).toEqual([]);
  await expect(backupStore(join(folder, 'none.sqlite'), join(folder, 'd.sqlite'))).rejects.toThrow(
    /does not exist/,
  );
});
