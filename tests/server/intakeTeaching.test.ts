import { afterAll, beforeAll, expect, test } from 'vitest';
import { takeIn } from '../../server/services/takeIn.ts';
import { writeFiles } from './ownFleet.ts';
import { startServer, type Running } from './running.ts';

let server: Running;
beforeAll(async () => {
  server = await startServer();
  const files = writeFiles({
    'units.csv': 'unit_number,in_service_on\nX1,2020-01-01\nX2,2020-01-01\n',
    'service.csv':
      'unit_number,serviced_on,odometer_km,work\nX1,2023-01-01,1000,Zorble the gnarp\nX1,2023-06-01,9000,ZORBLE  the gnarp\n' +
      'X2,2023-02-01,2000,quuxify\nX2,2023-03-01,3000,oil_change\n',
  });
  await takeIn((await server.context.own()).file, files, { dryRun: false, by: 'test', today: '2024-06-01' });
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

interface Texts {
  unknown: { text: string; count: number; examples: { unitNumber: string; file: string; line: number }[] }[];
  taught: { text: string; works: string[]; count: number }[];
}
const texts = async (): Promise<Texts> => (await call('/api/work-texts')).body as Texts;
const revision = async (): Promise<number> =>
  ((await call('/api/state')).body as { revision: number }).revision;

test('unknown texts by count with rows; teaching reads the history again, taking back undoes it', async () => {
  const first = await texts();
  expect(first.unknown.map(({ text, count }) => [text.toLowerCase().replace(/\s+/g, ' '), count])).toEqual([
    ['zorble the gnarp', 2],
    ['quuxify', 1],
  ]);
  expect(first.unknown[1].examples).toMatchObject([{ unitNumber: 'X2', file: 'service.csv', line: 4 }]);
  expect(first.taught).toEqual([]);
  const changes = async (): Promise<number> => {
    const { body } = await call('/api/units/X1?asOf=2024-06-01');
    return (body as { charges: unknown[] }).charges.length;
  };
  const before = await revision();
  const oilBefore = await changes();
  expect(await call('/api/work-texts', { text: 'zorble the GNARP', works: ['oil_change'] })).toMatchObject({
    status: 200,
    body: { rows: 2, works: ['oil_change'] },
  });
  expect(await revision()).toBeGreaterThan(before);
  expect(await changes()).toBeGreaterThan(oilBefore);
  const taught = await texts();
  expect(taught.unknown.map(({ text }) => text)).toEqual(['quuxify']);
  expect(taught.taught).toMatchObject([{ text: 'zorble the GNARP', works: ['oil_change'], count: 2 }]);
  expect((await call('/api/work-texts/forget', { text: 'Zorble the gnarp' })).body).toMatchObject({
    rows: 2,
  });
  expect((await texts()).unknown).toHaveLength(2);
  expect(await changes()).toBe(oilBefore);
  expect((await call('/api/work-texts/forget', { text: 'never' })).status).toBe(404);
  expect((await call('/api/work-texts', { text: 'x', works: ['nonsense'] })).status).toBe(400);
});
