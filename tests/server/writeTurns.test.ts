import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { WriteTurns } from '../../server/services/writeTurns.ts';
import { canWrite, openStore } from '../../server/store/openStore.ts';
import { startServer } from './running.ts';

test('turns come one after the other; who waits too long gives the turn on', async () => {
  const turns = new WriteTurns();
  const order: string[] = [];
  const first = (await turns.take(1000))!;
  expect(await turns.take(1)).toBeNull();
  const second = turns.during(async () => order.push('second'));
  const third = turns.during(async () => order.push('third'));
  order.push('first');
  first();
  await Promise.all([second, third]);
  expect(order).toEqual(['first', 'second', 'third']);
  await expect(turns.during(() => Promise.reject(new Error('failed')))).rejects.toThrow('failed');
  expect(await turns.during(async () => 'after it')).toBe('after it');
});

test('a store that another connection writes can not be written, and says so at once', async () => {
  const file = join(mkdtempSync(join(tmpdir(), 'sumpwise-test-')), 'turns.sqlite');
  const [store, other] = [await openStore(file), await openStore(file)];
  expect(canWrite(store)).toBe(true);
  other.sqlite.exec('BEGIN IMMEDIATE');
  expect(canWrite(store)).toBe(false);
  other.sqlite.exec('ROLLBACK');
  expect(canWrite(store)).toBe(true);
  await store.close();
  await other.close();
});

test('while another program writes, a change waits and reads are answered', async () => {
  const server = await startServer();
  const other = await openStore((await server.context.own()).file);
  other.sqlite.exec('BEGIN IMMEDIATE');
  let isAnswered = false;
  const saved = fetch(`${server.address}/api/settings`, {
    method: 'PUT',
    body: JSON.stringify({ oilServiceHours: 1.25 }),
    headers: { 'content-type': 'application/json' },
  }).then((response) => {
    isAnswered = true;
    return response;
  });
  expect((await fetch(`${server.address}/api/intake/batches`)).status).toBe(200);
  expect((await fetch(`${server.address}/api/settings`)).status).toBe(200);
  expect(isAnswered).toBe(false);
  other.sqlite.exec('ROLLBACK');
  const response = await saved;
  expect(response.status).toBe(200);
  expect(await response.json()).toMatchObject({ oilServiceHours: 1.25 });
  await other.close();
  await server.stop();
});
