import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { IntakeReport } from '../../models/schema/intake.ts';
import { WatchFolder } from '../../server/services/watchFolder.ts';
import { openStore } from '../../server/store/openStore.ts';
import { verifyStore } from '../../server/store/verify.ts';
import { startServer, temporaryPaths, type Running } from './running.ts';

let server: Running;
beforeAll(async () => {
  server = await startServer();
  await server.context.own();
});
afterAll(async () => server.stop());

const units = 'unit_number,in_service_on\nX1,2022-01-01\nX2,2022-01-01\n';
const service =
  'unit_number,serviced_on,odometer_km,work\nX1,2023-01-10,20000,LOF\nX2,2023-02-01,18000,LOF\n';

async function post(path: string, body: string | FormData, headers: Record<string, string> = {}) {
  const response = await fetch(server.address + path, { method: 'POST', body, headers });
  return {
    status: response.status,
    body: (await response.json()) as IntakeReport & { code?: string; detail?: string },
  };
}
const csv = { 'content-type': 'text/csv' };
const batches = async () =>
  ((await (await fetch(`${server.address}/api/intake/batches`)).json()) as { batches: unknown[] }).batches
    .length;

describe('a file in one request', () => {
  test('as the body, with its name in the query; the same key again gets the first answer', async () => {
    const headers = { ...csv, 'Idempotency-Key': 'units-1' };
    const first = await post('/api/intake?name=units.csv', units, headers);
    expect(first.status).toBe(200);
    expect(first.body).toMatchObject({ committed: true, files: [{ kind: 'units', accepted: 2 }] });
    const again = await post('/api/intake?name=units.csv', units, headers);
    expect(again.body).toEqual(first.body);
    expect(await batches()).toBe(1);
    const later = await post('/api/intake?name=units.csv', units, csv);
    expect(later.body).toMatchObject({ files: [{ accepted: 0, duplicates: 2 }] });
  });

  test('as a form of several files with options', async () => {
    const form = new FormData();
    form.append('file', new File([service], 'service.csv'));
    form.append('file', new File(['unit_number,read_on,odometer\nX1,2023-03-01,15000\n'], 'readings.csv'));
    form.append('measures', 'us');
    form.append('dryRun', 'true');
    const { status, body } = await post('/api/intake', form);
    expect(status, body.detail).toBe(200);
    expect(body.committed).toBe(false);
    expect(body.files.map(({ kind }) => kind).sort()).toEqual(['readings', 'service']);
    expect(body.files.find(({ kind }) => kind === 'readings')?.sampleRows).toMatchObject([
      { odometerKm: 24140.16 },
    ]);
  });

  test('an open question, no name, an empty file, a broken form and a foreign page are refused', async () => {
    const before = await batches();
    const open = await post(
      '/api/intake?name=r.csv',
      'unit_number,read_on,odometer\nX1,03/04/2023,15000\n',
      csv,
    );
    expect(open.status).toBe(422);
    expect(open.body.questions.length).toBeGreaterThan(0);
    expect((await post('/api/intake', units, csv)).status).toBe(400);
    expect((await post('/api/intake?name=u.csv', '', csv)).status).toBe(422);
    expect((await post('/api/intake?name=u.csv&dateOrder=xyz', units, csv)).status).toBe(400);
    const half = new FormData();
    half.append('file', new File([units], 'units.csv'));
    half.append('file', new File([''], 'service.csv'));
    expect((await post('/api/intake', half)).status).toBe(422);
    const broken = { 'content-type': 'multipart/form-data; boundary=none' };
    expect((await post('/api/intake', 'no form', broken)).status).toBe(400);
    expect(
      (await post('/api/intake?name=u.csv', units, { ...csv, origin: 'http://elsewhere.example' })).status,
    ).toBe(403);
    expect(await batches()).toBe(before);
    expect(existsSync(server.paths.uploads) ? readdirSync(server.paths.uploads) : []).toEqual([]);
  });
});

test('a long intake says how far it is; called off, it leaves the store as it was', async () => {
  const day = (row: number) => new Date(Date.UTC(2022, 0, 2) + row * 3_000_000).toISOString().slice(0, 10);
  const rows = Array.from({ length: 20_000 }, (_, row) => `X1,${day(row)},${row},note ${row}`).join('\n');
  const sent = await fetch(`${server.address}/api/uploads?name=long.csv`, {
    method: 'POST',
    body: `unit_number,serviced_on,odometer_km,work\n${rows}\n`,
    headers: { 'content-type': 'application/octet-stream' },
  });
  const { upload } = (await sent.json()) as { upload: string };
  const before = await batches();
  const job = crypto.randomUUID();
  const json = { 'content-type': 'application/json' };
  const taken = post('/api/intake', JSON.stringify({ uploads: [upload], dryRun: false, job }), json);
  let cancelled = false;
  const shares: number[] = [];
  let isAnswered = false;
  void taken.then(() => (isAnswered = true));
  const put = { method: 'PUT', body: JSON.stringify({ oilServiceHours: 1.25 }), headers: json };
  let saved: Promise<Response> | null = null;
  while (!cancelled && !isAnswered) {
    const at = (await (await fetch(`${server.address}/api/intake/jobs/${job}`)).json()) as {
      running: boolean;
      share: number;
    };
    if (at.running) shares.push(at.share);
    if (at.share > 0) {
      // the store is being written: what is worked out meanwhile is answered, and so is calling off as pages do it
      const asked = await fetch(`${server.address}/api/assessment?asOf=2022-02-01`);
      expect(asked.status).toBe(200);
      // what is changed meanwhile waits for its turn, and holds nobody up
      saved ??= fetch(`${server.address}/api/settings`, put);
      const stop = await post(`/api/intake/jobs/${job}/cancel`, '{}', { ...json, 'Idempotency-Key': job });
      cancelled = (stop.body as unknown as { cancelled: boolean }).cancelled;
    }
  }
  expect(cancelled).toBe(true);
  expect(shares).toEqual([...shares].sort((a, b) => a - b));
  expect(await taken).toMatchObject({ status: 409, body: { code: 'cancelled' } });
  expect((await saved)?.status).toBe(200);
  expect(await batches()).toBe(before);
  const verified = (await (await fetch(`${server.address}/api/verify`)).json()) as { ok: boolean };
  expect(verified.ok).toBe(true);
});

test('a name that no disk takes is refused in words, on both ways in', async () => {
  // 255 bytes is the usual limit of a name (NAME_MAX of POSIX on Linux), the id before it included; `ü` is two in UTF-8
  for (const name of [`${'n'.repeat(230)}.csv`, `${'ü'.repeat(120)}.csv`])
    for (const path of ['/api/intake', '/api/uploads']) {
      const answer = await post(`${path}?name=${encodeURIComponent(name)}`, units, csv);
      expect(answer, path).toMatchObject({ status: 400, body: { code: 'bad_name' } });
      expect(answer.body.detail).toMatch(/at most 200 bytes .* Rename the file/);
    }
  const form = new FormData();
  form.append('file', new File([units], `${'n'.repeat(300)}.csv`));
  expect(await post('/api/intake', form)).toMatchObject({ status: 400, body: { code: 'bad_name' } });
  expect((await post(`/api/uploads?name=${'n'.repeat(300)}.csv`, units, csv)).status).toBe(400);
  const fits = `${'n'.repeat(196)}.csv`;
  expect(await post(`/api/uploads?name=${fits}`, units, csv)).toMatchObject({ body: { name: fits } });
});

function watchOf(folder: string, file: string, lines: string[], corrected?: 'replace' | 'add'): WatchFolder {
  return new WatchFolder({
    during: (work) => server.context.writes.during(work),
    folder,
    storeFile: () => Promise.resolve(file),
    today: () => '2024-06-01',
    say: (line) => lines.push(line),
    everyMs: 20,
    settledMs: 60,
    ...(corrected !== undefined && { corrected }),
  });
}

test('a watched folder takes in whole files once, and says what it refused', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'sumpwise-watch-'));
  const paths = temporaryPaths();
  const lines: string[] = [];
  const open = async () => {
    const watch = watchOf(folder, paths.ownStore, lines);
    await watch.open();
    return watch;
  };
  const until = async (isSo: () => boolean) => {
    await expect.poll(isSo, { message: lines.join('\n') }).toBe(true);
  };
  const inside = (name: string) => readdirSync(join(folder, name)).sort();
  try {
    writeFileSync(join(folder, 'units.csv'), units);
    mkdirSync(join(folder, 'a folder'));
    writeFileSync(join(folder, 'service.csv.part'), 'unit_number,serv');
    const watch = await open();
    // cleared away by a person
    rmSync(join(folder, 'done'), { recursive: true });
    await until(() => existsSync(join(folder, 'done', 'units.csv.report.json')));
    writeFileSync(join(folder, 'open.csv'), 'unit_number,read_on,odometer\nX1,03/04/2023,15000\n');
    writeFileSync(join(folder, 'service.csv.part'), service);
    renameSync(join(folder, 'service.csv.part'), join(folder, 'service.csv'));
    await until(() => inside('done').length === 4 && inside('refused').length === 2);
    await watch.close();
    expect(readFileSync(join(folder, 'refused', 'open.csv.reason.txt'), 'utf8')).toMatch(
      /Take it in on the Intake page/,
    );
    const report = JSON.parse(
      readFileSync(join(folder, 'done', 'service.csv.report.json'), 'utf8'),
    ) as IntakeReport;
    expect(report).toMatchObject({ committed: true, files: [{ accepted: 2 }] });
    // as after a crash between the batch and the move
    renameSync(join(folder, 'done', 'service.csv'), join(folder, 'service.csv'));
    const again = await open();
    await until(() => !existsSync(join(folder, 'service.csv')) && inside('done').includes('service.csv'));
    await again.close();
    const store = await openStore(paths.ownStore);
    expect(store.sqlite.prepare('SELECT count(*) FROM service').pluck().get()).toBe(2);
    expect(verifyStore(store).ok).toBe(true);
    await store.close();
  } finally {
    rmSync(folder, { recursive: true, force: true });
    paths.remove();
  }
});

test('a watched folder does with a corrected file what it was told beforehand, and only with such a file', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'sumpwise-watch-'));
  const paths = temporaryPaths();
  const lay = async (name: string, text: string, corrected?: 'replace' | 'add') => {
    const lines: string[] = [];
    const watch = watchOf(folder, paths.ownStore, lines, corrected);
    writeFileSync(join(folder, name), text);
    await watch.open();
    await expect.poll(() => lines.length).toBeGreaterThan(0);
    await watch.close();
    return lines.join();
  };
  const rows = async () => {
    const store = await openStore(paths.ownStore);
    const found = store.sqlite.prepare('SELECT odometer_km FROM service ORDER BY 1').pluck().all();
    expect(verifyStore(store).ok).toBe(true);
    await store.close();
    return found;
  };
  const three = `${service}X1,2023-06-10,30000,LOF\n`;
  try {
    await lay('units.csv', units);
    await lay('service.csv', three);
    const better = three.replace('30000', '30100');
    expect(await lay('service.csv', better)).toMatch(/refused: service.csv: .*--corrected replace or add/);
    expect(await rows()).toEqual([18000, 20000, 30000]);
    expect(await lay('service.csv', better, 'replace')).toMatch(/taken in/);
    expect(await rows()).toEqual([18000, 20000, 30100]);
    const nextWeek =
      'unit_number,serviced_on,odometer_km,work\nX1,2023-12-10,41000,LOF\nX2,2023-12-11,36000,LOF\n';
    expect(await lay('service.csv', nextWeek, 'replace')).toMatch(/2 accepted/);
    expect(await rows()).toEqual([18000, 20000, 30100, 36000, 41000]);
  } finally {
    rmSync(folder, { recursive: true, force: true });
    paths.remove();
  }
});
