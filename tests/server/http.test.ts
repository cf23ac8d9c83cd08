import { request } from 'node:http';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { endpoints } from '../../models/schema/endpoints.ts';
import { intakeReport } from '../../models/schema/intake.ts';
import { ownFleet } from './ownFleet.ts';
import { startServer, type Running } from './running.ts';

let server: Running;
beforeAll(async () => {
  server = await startServer();
});
afterAll(async () => server.stop());

/** A request with headers that fetch would not let through. */
function raw(
  path: string,
  options: { method?: string; headers?: Record<string, string> },
): Promise<{ status: number; body: string; type: string }> {
  return new Promise((resolve, reject) => {
    const url = new URL(path, server.address);
    const sent = request(url, { method: options.method ?? 'GET', headers: options.headers }, (response) => {
      let body = '';
      response.on('data', (chunk: Buffer) => (body += chunk.toString()));
      response.on('end', () =>
        resolve({ status: response.statusCode ?? 0, body, type: String(response.headers['content-type']) }),
      );
    });
    sent.on('error', reject);
    sent.end();
  });
}

async function post(path: string, body: unknown, headers: Record<string, string> = {}): Promise<Response> {
  return fetch(server.address + path, {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...headers },
    body: JSON.stringify(body),
  });
}

async function leave(name: string, text: string): Promise<Response> {
  return fetch(`${server.address}/api/uploads?name=${encodeURIComponent(name)}`, {
    method: 'POST',
    headers: { 'content-type': 'application/octet-stream' },
    body: text,
  });
}

describe('who may ask', () => {
  test('another host name is turned away, so that no name can be pointed here', async () => {
    const answer = await raw('/api/state', { headers: { host: 'elsewhere.example' } });
    expect(answer.status).toBe(421);
    expect(answer.type).toContain('application/problem+json');
  });

  test('pages elsewhere can neither write nor read', async () => {
    const host = new URL(server.address).host;
    const foreign: Record<string, string>[] = [
      { origin: 'http://elsewhere.example' },
      { 'sec-fetch-site': 'cross-site' },
      { origin: 'null' },
    ];
    for (const headers of foreign) {
      expect((await raw('/api/own', { method: 'POST', headers: { host, ...headers } })).status).toBe(403);
      expect((await raw('/api/assessment', { headers: { host, ...headers } })).status).toBe(403);
    }
    expect((await raw('/api/state', { headers: { host, origin: server.address } })).status).toBe(200);
  });
});

describe('the description of the interface', () => {
  test('OpenAPI 3.1 names every endpoint with its parameters', async () => {
    const document = (await (await fetch(`${server.address}/api/openapi.json`)).json()) as {
      openapi: string;
      paths: Record<
        string,
        Record<string, { operationId: string; parameters: { name: string; in: string }[] }>
      >;
    };
    expect(document.openapi).toBe('3.1.0');
    const operations = Object.entries(document.paths).flatMap(([path, methods]) =>
      Object.values(methods).map((operation) => ({ path, ...operation })),
    );
    expect(operations.map((operation) => operation.operationId).sort()).toEqual(
      Object.keys(endpoints).sort(),
    );
    for (const { path, parameters } of operations)
      for (const [, name] of path.matchAll(/\{(\w+)\}/g))
        expect(parameters.some((parameter) => parameter.in === 'path' && parameter.name === name)).toBe(true);
    const intake = operations.find(({ operationId }) => operationId === 'intake');
    expect(intake?.parameters.filter((each) => each.in === 'query').map((each) => each.name)).toEqual(
      expect.arrayContaining(['name', 'kind', 'dryRun']),
    );
  });

  test('wrong requests are 400 problems that name the field; unknown addresses 404', async () => {
    const wrong = await fetch(`${server.address}/api/assessment?asOf=31.03.2026`);
    expect(wrong.status).toBe(400);
    expect(wrong.headers.get('content-type')).toContain('application/problem+json');
    expect(await wrong.json()).toMatchObject({
      status: 400,
      code: 'bad_request',
      fields: [{ field: 'query.asOf' }],
    });
    expect((await fetch(`${server.address}/api/nothing`)).status).toBe(404);
    expect((await fetch(`${server.address}/api/units/none`)).status).toBe(404);
    const notJson = await fetch(`${server.address}/api/own`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: '{',
    });
    expect(notJson.status).toBe(400);
  });
});

describe('from the demo to own records', () => {
  test('the demo is shown from its own store until own records come in; they never mix', async () => {
    const before = (await (await fetch(`${server.address}/api/state`)).json()) as {
      store: string;
      units: number;
      asOf: string;
    };
    expect(before).toMatchObject({ store: 'demo', asOf: '2026-10-31' });
    expect(before.units).toBeGreaterThan(100);

    const uploads: string[] = [];
    for (const [name, text] of Object.entries(ownFleet)) {
      const answer = (await (await leave(name, text)).json()) as { upload: string };
      uploads.push(answer.upload);
    }
    const dry = intakeReport.parse(await (await post('/api/intake', { uploads, dryRun: true })).json());
    expect(dry.committed).toBe(false);
    expect(((await (await fetch(`${server.address}/api/state`)).json()) as { store: string }).store).toBe(
      'demo',
    );

    const key = { 'Idempotency-Key': 'once' };
    const report = intakeReport.parse(await (await post('/api/intake', { uploads }, key)).json());
    expect(report.committed).toBe(true);
    const again = intakeReport.parse(await (await post('/api/intake', { uploads }, key)).json());
    expect(again).toEqual(report);
    const after = (await (await fetch(`${server.address}/api/state`)).json()) as {
      store: string;
      units: number;
    };
    expect(after).toMatchObject({ store: 'own', units: 10 });
    const batches = (await (await fetch(`${server.address}/api/intake/batches`)).json()) as {
      batches: unknown[];
    };
    expect(batches.batches).toHaveLength(1);

    const profile = await (await fetch(`${server.address}/api/uploads/${uploads[3]}/profile`)).json();
    expect(profile).toMatchObject({ file: 'service.csv' });
    expect((profile as { columns: unknown[] }).columns).toContainEqual(
      expect.objectContaining({ column: 'unit_number', type: 'name', mean: null }),
    );
    const rollups = (await (await fetch(`${server.address}/api/rollups?asOf=2024-06-01`)).json()) as {
      groups: { by: string; rows: { name: string; units: number }[] }[];
    };
    expect(
      rollups.groups.find((group) => group.by === 'site')?.rows.map((row) => [row.name, row.units]),
    ).toEqual([
      ['Eastquay', 5],
      ['Millbank', 5],
    ]);
    const record = await (await fetch(`${server.address}/api/records/findings/1`)).json();
    expect(record).toMatchObject({ file: 'findings.csv', line: 2 });

    const undone = await post(`/api/intake/batches/${report.batch}/undo`, {});
    expect(undone.status).toBe(200);
    const empty = (await (await fetch(`${server.address}/api/assessment`)).json()) as { units: unknown[] };
    expect(empty.units).toEqual([]);
  });

  test('a profile adds up numbers that can be, names the first and last of those that name a thing', async () => {
    const left = await leave(
      'service.csv',
      `Fahrzeug;Datum;Kilometerstand;Arbeit;Auftrag;Baujahr
108;31.01.2024;12.500;Ölwechsel mit Filter;90017;2019
9;03.02.2024;9.100;Ölwechsel;90018;2021
108;05.03.2024;;Sichtprüfung;90031;2019
`,
    );
    const { upload } = (await left.json()) as { upload: string };
    const answer = await fetch(`${server.address}/api/uploads/${upload}/profile`);
    const { columns } = endpoints.profile.response.parse(await answer.json());
    const of = (name: string) => columns.find(({ column }) => column === name);
    expect(of('Fahrzeug')).toMatchObject({
      type: 'name',
      distinct: 2,
      lowest: '9',
      highest: '108',
      mean: null,
    });
    expect(of('Fahrzeug')).toMatchObject({ shortest: 1, longest: 3, unit: null });
    expect(of('Auftrag')).toMatchObject({ type: 'name', lowest: '90017', highest: '90031', mean: null });
    expect(of('Baujahr')).toMatchObject({ lowest: '2019', highest: '2021', mean: null });
    expect(of('Arbeit')).toMatchObject({ type: 'text', lowest: null, longest: 20 });
    expect(of('Datum')).toMatchObject({ type: 'date', lowest: '2024-01-31', highest: '2024-03-05' });
    // by hand: (12 500 + 9 100) / 2
    expect(of('Kilometerstand')).toMatchObject({ lowest: 9100, highest: 12_500, mean: 10_800, missing: 1 });
    expect(of('Kilometerstand')).toMatchObject({ type: 'number', unit: 'km', unread: 0 });
  });

  test('wrong files are 422 problems with a sentence, and nothing is kept', async () => {
    expect((await leave('empty.csv', '')).status).toBe(422);
    const upload = (
      (await (await leave('notes.csv', '\u0000\u0001\u0002\u0003\u0000\u0000\u0004\u0000')).json()) as {
        upload: string;
      }
    ).upload;
    const answer = await post('/api/intake', { uploads: [upload] });
    expect(answer.status).toBe(422);
    expect(((await answer.json()) as { detail: string }).detail).toMatch(/no text/);
    expect((await post('/api/intake', { uploads: ['00000000-0000-0000-0000-000000000000'] })).status).toBe(
      404,
    );
  });

  test('settings: one changes, the others stay; a wrong value is refused', async () => {
    const put = (body: unknown) =>
      fetch(`${server.address}/api/settings`, {
        method: 'PUT',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
      });
    expect(await (await put({ measures: 'us' })).json()).toMatchObject({
      measures: 'us',
      bookWithinDays: 14,
    });
    expect(await (await put({ bookWithinDays: 10 })).json()).toMatchObject({
      measures: 'us',
      bookWithinDays: 10,
    });
    expect((await put({ bookWithinDays: -1 })).status).toBe(400);
  });

  test('nothing in the log: no request failed inside', () => expect(server.log).toEqual([]));
});
