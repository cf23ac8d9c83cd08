import { once } from 'node:events';
import { mkdtempSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import express, { type Response } from 'express';
import { expect, test } from 'vitest';
import type { Paths } from '../../server/config.ts';
import { workerFile } from '../../server/files/workerFile.ts';
import { ensureBuilt } from '../../server/launch.mjs';
import { idempotency } from '../../server/routes/idempotency.ts';
import { problemHandler } from '../../server/routes/problem.ts';
import { writeTurn } from '../../server/routes/writeTurn.ts';
import { questionOf } from '../../server/services/fleetQuestion.ts';
import { answerKey } from '../../server/services/fleetAnswers.ts';
import { WriteTurns } from '../../server/services/writeTurns.ts';
import { findKeptResult } from '../../server/store/keptResults.ts';
import { canWrite, openStore } from '../../server/store/openStore.ts';
import { patientWrite } from '../../server/store/patientWrite.ts';
import { startServer } from './running.ts';
import { startShop } from './shopFleet.ts';

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

test('a change that waits too long is refused in words, and the next is taken', async () => {
  const server = await startServer();
  server.context.writes.patienceMs = 1;
  const other = await openStore((await server.context.own()).file);
  other.sqlite.exec('BEGIN IMMEDIATE');
  const save = (): Promise<globalThis.Response> =>
    fetch(`${server.address}/api/settings`, {
      method: 'PUT',
      body: JSON.stringify({ oilServiceHours: 1.5 }),
      headers: { 'content-type': 'application/json', 'Idempotency-Key': 'save-1' },
    });
  const refused = await save();
  expect(refused.status).toBe(503);
  expect(await refused.json()).toMatchObject({
    code: 'busy',
    detail: expect.stringMatching(/Nothing of it was kept: try again/) as string,
  });
  other.sqlite.exec('ROLLBACK');
  const taken = await save();
  expect(taken.status).toBe(200);
  expect(await taken.json()).toMatchObject({ oilServiceHours: 1.5 });
  await other.close();
  await server.stop();
});

/** A gate that work waits at until it is opened. */
function gate(): { readonly passed: Promise<void>; readonly open: () => void } {
  let open = (): void => undefined;
  const passed = new Promise<void>((resolve) => (open = resolve));
  return { passed, open };
}

/** The middle of the real application around one change whose work the test lets go on. */
async function slowChanges() {
  const { context, stop } = await startServer();
  await context.own();
  const begun: Response[] = [];
  const work = gate();
  const app = express();
  app.use(
    idempotency(context, () => undefined),
    writeTurn(context),
  );
  app.post('/api/slow', async (_request, response) => {
    begun.push(response);
    await work.passed;
    response.json({ number: begun.length });
  });
  app.use(problemHandler(() => undefined));
  const server = createServer(app);
  await once(server.listen(0, '127.0.0.1'), 'listening');
  const send = (key: string, signal?: AbortSignal): Promise<globalThis.Response> =>
    fetch(`http://127.0.0.1:${(server.address() as AddressInfo).port}/api/slow`, {
      method: 'POST',
      headers: { 'Idempotency-Key': key },
      signal,
    });
  const end = async (): Promise<void> => {
    server.closeAllConnections();
    server.close();
    await stop();
  };
  return { context, server, begun, work, send, end };
}

test('a client that goes away while its change is worked on gets the one answer when it comes again', async () => {
  const { begun, work, send, end } = await slowChanges();
  const away = new AbortController();
  const first = send('a', away.signal);
  await expect.poll(() => begun.length).toBe(1);
  const closed = once(begun[0], 'close');
  away.abort();
  await expect(first).rejects.toThrow();
  await closed;
  // the work goes on: the same is not begun twice, and another waits
  expect((await send('a')).status).toBe(409);
  const other = send('b');
  work.open();
  await expect.poll(async () => (await send('a')).status).toBe(200);
  expect(await (await send('a')).json()).toEqual({ number: 1 });
  expect(await (await other).json()).toEqual({ number: 2 });
  expect(begun).toHaveLength(2);
  await end();
});

test('a client that goes away while its change waits leaves it, and may send it again', async () => {
  const { context, server, begun, work, send, end } = await slowChanges();
  work.open();
  const before = (await context.writes.take(1000))!;
  const away = new AbortController();
  const arrived = once(server, 'request') as Promise<[unknown, Response]>;
  const first = send('a', away.signal);
  const [, response] = await arrived;
  const closed = once(response, 'close');
  away.abort();
  await expect(first).rejects.toThrow();
  await closed;
  const again = send('a');
  before();
  expect(await (await again).json()).toEqual({ number: 1 });
  expect(begun).toHaveLength(1);
  await end();
});

test('what a worker has found waits for a writer and is kept then; the main thread does not wait', async () => {
  process.env.SUMPWISE_BUILT ??= await ensureBuilt();
  const server = await startShop();
  const store = await server.context.own();
  const other = await openStore(store.file);
  other.sqlite.exec('BEGIN IMMEDIATE');
  expect(patientWrite(store, () => store.sqlite.exec('DELETE FROM kept_result'))).toBe(false);
  const paths = JSON.parse(JSON.stringify(server.paths)) as Paths;
  const worker = new Worker(workerFile(server.paths)!, { workerData: paths });
  const ask = { name: 'rollups' } as const;
  const key = answerKey(await questionOf(server.context, store), ask);
  worker.postMessage({ kind: 'answer', ask });
  const told = once(worker, 'message');
  // while it waits it is told nothing, and the store can be read
  expect(await Promise.race([told, new Promise((resolve) => setTimeout(resolve, 500, 'at work'))])).toBe(
    'at work',
  );
  expect(findKeptResult(store, key)).toBeNull();
  other.sqlite.exec('ROLLBACK');
  expect(await told).toEqual([{ finished: true }]);
  expect(findKeptResult(store, key)).toMatch(/^\{/);
  await worker.terminate();
  await other.close();
  await server.stop();
});
