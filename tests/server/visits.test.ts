import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Visit, VisitMove } from '../../models/schema/visit.ts';
import { get, post, shopDay, startShop } from './shopFleet.ts';
import type { Running } from './running.ts';

let server: Running;
beforeAll(async () => {
  server = await startShop();
});
afterAll(async () => server.stop());

interface Answer {
  readonly visit: Visit;
  readonly moves: readonly VisitMove[];
  readonly code: string;
  readonly detail: string;
  readonly changes: readonly VisitMove[];
}

test('visits: states in order, the second writer is told, the third put-off needs the manager, undo', async () => {
  const asked = await post<Answer>(server, '/api/visits', {
    unitNumber: 'a2',
    jobs: ['oil_change'],
    on: shopDay,
    by: 'Vera Linden',
  });
  expect(asked.body.visit).toMatchObject({ unitNumber: 'A2', state: 'asked', version: 1, site: 'Millbank' });
  const path = `/api/visits/${asked.body.visit.id}`;
  const step = (body: object) => post<Answer>(server, `${path}/state`, { by: 'Vera Linden', ...body });

  expect((await step({ version: 1, to: 'booked' })).body.visit).toMatchObject({
    state: 'booked',
    version: 2,
  });
  const late = await step({ version: 1, to: 'arrived', by: 'Oda Wren' });
  expect(late.status).toBe(409);
  expect(late.body).toMatchObject({ code: 'changed_meanwhile', visit: { state: 'booked', version: 2 } });
  expect(late.body.changes.map(({ by, to }) => [by, to])).toEqual([['Vera Linden', 'booked']]);
  expect((await step({ version: 2, to: 'waiting_parts' })).status).toBe(422);
  expect((await step({ version: 2, to: 'done' })).body.detail).toContain('job card');

  const off = { to: 'put_off', reason: 'route can not be covered', approver: 'Marl Tessen' };
  expect((await step({ version: 2, ...off })).body.detail).toContain('newDate');
  const first = await step({ version: 2, ...off, newDate: '2024-06-10' });
  expect(first.body.visit).toMatchObject({ state: 'put_off', on: '2024-06-10', timesPutOff: 1 });
  expect(first.body.moves[0].risk).toContain("past the oil's limit");
  const second = await step({ version: 3, ...off, newDate: '2024-06-17' });
  expect(second.body.visit.timesPutOff).toBe(2);
  const risk = await get<{ managerNeeded: boolean }>(server, `${path}/risk?to=2024-06-24`);
  expect(risk.managerNeeded).toBe(true);
  const third = { version: 4, ...off, newDate: '2024-06-24' };
  const refused = await step(third);
  expect(refused.status).toBe(422);
  expect(refused.body.detail).toContain('third time goes to the manager');
  const done = await step({ ...third, manager: 'Juna Holt' });
  expect(done.body.visit).toMatchObject({ timesPutOff: 3, on: '2024-06-24' });

  const undone = await post<Answer>(server, `${path}/undo`, { version: 5, by: 'Vera Linden' });
  expect(undone.body.visit).toMatchObject({ timesPutOff: 2, on: '2024-06-17', version: 6 });
  expect((await fetch(`${server.address}/api/visits/999`)).status).toBe(404);
  expect(server.log).toEqual([]);
});
