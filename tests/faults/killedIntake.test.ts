import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { ensureBuilt } from '../../server/launch.mjs';
import { openStore } from '../../server/store/openStore.ts';
import { verifyStore } from '../../server/store/verify.ts';

const root = new URL('../..', import.meta.url).pathname;
const isSoak = process.env.SOAK === '1';
const rows = isSoak ? 40_000 : 12_000;
const kills = isSoak ? 60 : 3;
const timeoutMs = isSoak ? 1_800_000 : 180_000;
const folder = mkdtempSync(join(tmpdir(), 'sumpwise-kill-'));
const [units, service] = [join(folder, 'units.csv'), join(folder, 'service.csv')];

beforeAll(async () => {
  await ensureBuilt();
  writeFileSync(
    units,
    'unit_number,in_service_on,in_service_odometer_km\nU1,2015-01-01,0\nU2,2015-01-01,0\n',
  );
  const day = (row: number): string =>
    new Date(Date.UTC(2015, 0, 2) + row * 20_000_000).toISOString().slice(0, 10);
  const lines = Array.from(
    { length: rows },
    (_, row) => `U${1 + (row % 2)},${day(row)},${row * 5},LOF visit ${row}`,
  );
  writeFileSync(service, `unit_number,serviced_on,odometer_km,work\n${lines.join('\n')}\n`);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs an intake of its own process and kills it after a while; null: not at all. */
async function intake(
  store: string,
  killAfterMs: number | null,
): Promise<{ killed: boolean; tookMs: number }> {
  const begun = performance.now();
  const child = spawn(
    process.execPath,
    [join(root, 'server/launch.mjs'), 'intake', units, service, '--store', store],
    { stdio: 'ignore' },
  );
  const timer = killAfterMs === null ? null : setTimeout(() => child.kill('SIGKILL'), killAfterMs);
  const [status, signal] = (await once(child, 'close')) as [number | null, string | null];
  if (timer !== null) clearTimeout(timer);
  if (signal === null) expect(status).toBe(0);
  return { killed: signal === 'SIGKILL', tookMs: performance.now() - begun };
}

/** Rows of the batch that the store holds: all or none; the store is whole. */
async function rowsIn(file: string): Promise<number> {
  if (!existsSync(file)) return 0;
  const store = await openStore(file);
  const verified = verifyStore(store);
  const batches = store.sqlite.prepare('SELECT count(*) FROM batch').pluck().get() as number;
  await store.close();
  expect(verified.problems).toEqual([]);
  expect(verified.rowsRead).toBe(batches * (rows + 2));
  return verified.rowsRead;
}

test(
  'a process killed at any point leaves the batch whole or absent',
  async () => {
    let { tookMs } = await intake(join(folder, 'whole.sqlite'), null);
    expect(await rowsIn(join(folder, 'whole.sqlite'))).toBe(rows + 2);
    let seed = 41;
    let wasKilled = 0;
    for (let kill = 0; kill < kills; kill += 1) {
      seed = (Math.imul(seed, 1103515245) + 12345) >>> 0;
      const store = join(folder, `killed-${kill}.sqlite`);
      const run = await intake(store, tookMs * (0.15 + (0.9 * seed) / 4294967296));
      if (run.killed) wasKilled += 1;
      // how busy the machine is changes: the next kill goes by the run that has just come to its end
      else tookMs = run.tookMs;
      const there = await rowsIn(store);
      expect([0, rows + 2]).toContain(there);
      if (there === 0 && kill % 5 === 0) {
        await intake(store, null);
        expect(await rowsIn(store)).toBe(rows + 2);
      }
      for (const end of ['', '-wal', '-shm']) rmSync(store + end, { force: true });
    }
    expect(wasKilled).toBeGreaterThan(0);
  },
  timeoutMs,
);
