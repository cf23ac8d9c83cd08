import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Actuals } from '../../models/schema/actualEndpoints.ts';
import type { JobCard } from '../../models/schema/jobCard.ts';
import type { PlanAnswer } from '../../models/schema/planEndpoints.ts';
import type { KeptResource, ShopRecords, StockMovement } from '../../models/schema/shopRecordEndpoints.ts';
import type { Visit } from '../../models/schema/visit.ts';
import { filledIn, get, post, shopDay, startShop } from './shopFleet.ts';
import type { Running } from './running.ts';

let server: Running;
beforeAll(async () => {
  server = await startShop();
});
afterAll(async () => server.stop());

const by = 'Vera Linden';
const planNow = () => get<PlanAnswer>(server, '/api/plan?weeks=4');
const add = (resource: object) => post<KeptResource>(server, '/api/shop-records/resources', { resource, by });

describe('shop records', () => {
  test('a holiday empties its days, an outside shop takes work, and both end again', async () => {
    const before = await planNow();
    const [visit] = before.plan.visits;
    const holiday = await add({ kind: 'holiday', name: 'stocktaking', on: visit.on, site: visit.site });
    expect(holiday.status).toBe(200);
    const shut = await planNow();
    expect(shut.stand).not.toBe(before.stand);
    expect(
      shut.plan.visits.filter(
        ({ on, site, place }) => on === visit.on && site === visit.site && place === 'bay',
      ),
    ).toEqual([]);
    await add({
      kind: 'outside_shop',
      name: 'Mobile service Tarnside',
      mobile: true,
      prices: [{ job: 'oil_change', cents: 1 }],
    });
    const away = (await planNow()).plan.visits.filter(({ place }) => place === 'mobile');
    expect(away.length).toBeGreaterThan(0);
    expect(away[0]).toMatchObject({ outsideShop: 'Mobile service Tarnside', bay: null });
    await add({ kind: 'loan_unit', name: 'Spare 1', site: 'Millbank' });
    const kept = await get<ShopRecords>(server, '/api/shop-records');
    expect(kept.resources.map(({ resource }) => resource.kind)).toEqual([
      'holiday',
      'outside_shop',
      'loan_unit',
    ]);
    expect(kept.sites.find(({ site }) => site === 'Eastquay')).toMatchObject({ bays: 1 });
    for (const { id } of kept.resources)
      expect((await post(server, `/api/shop-records/resources/${id}/end`, { by })).status).toBe(200);
    expect((await post(server, '/api/shop-records/resources/1/end', { by })).status).toBe(404);
    expect((await planNow()).plan.visits).toEqual(before.plan.visits);
    const wrong = await add({ kind: 'holiday', name: 'backwards', on: '2024-07-02', through: '2024-07-01' });
    expect(wrong.status).toBe(422);
  });

  test('the shelf is counted, filled and emptied by name; days and people go through the intake', async () => {
    const row = (fields: object) =>
      post<{ batch: string; detail: string }>(server, '/api/shop-records/rows', { row: fields, by });
    const move = (quantity: number) =>
      post<{ onHand: number }>(server, '/api/shelf', {
        item: 'Oil 5w-30',
        site: 'Millbank',
        quantity,
        who: by,
      });
    expect((await move(208)).body.onHand).toBe(268);
    expect((await move(-8)).body.onHand).toBe(260);
    const counted = await row({ kind: 'stock', item: 'oil 5W-30', site: 'Millbank', onHand: 250 });
    expect(counted.status).toBe(200);
    expect((await move(2)).body.onHand).toBe(252);
    const { movements } = await get<{ movements: StockMovement[] }>(server, '/api/shelf');
    expect(movements.map(({ quantity }) => quantity)).toEqual([2, -8, 208]);
    await row({ kind: 'technicians', technician: 'Ines Farrow', site: 'Millbank', awayFrom: '2024-07-01' });
    await row({ kind: 'blackouts', unitNumber: 'A1', from: '2024-06-10', to: '2024-06-12' });
    const kept = await get<ShopRecords>(server, '/api/shop-records');
    expect(kept.technicians.find(({ technician }) => technician === 'Ines Farrow')).toMatchObject({
      away: [{ from: '2024-07-01', to: '2024-07-01' }],
    });
    expect(kept.blackouts).toEqual([
      { unitNumber: 'A1', from: '2024-06-10', to: '2024-06-12', reason: null },
    ]);
    const route = { kind: 'blackouts', unitNumber: 'A2' };
    expect(await row({ ...route, from: 'mon,tue' })).toMatchObject({ status: 200 });
    expect((await row({ ...route, from: 'someday' })).status).toBe(422);
    const onRoute = (await planNow()).plan.visits.filter(({ unitNumber }) => unitNumber === 'A2');
    // 1970-01-05 was a Monday: day numbers 4 and 5 of a week counted from then
    expect(onRoute.filter(({ on }) => [4, 5].includes((Date.parse(on) / 86_400_000) % 7))).toEqual([]);
    const twice = await row({ kind: 'blackouts', unitNumber: 'A1', from: '2024-06-10', to: '2024-06-12' });
    expect(twice.status).toBe(422);
    const nobody = await row({ kind: 'blackouts', unitNumber: 'none', from: '2024-06-10', to: '2024-06-12' });
    expect(nobody.status).toBe(422);
  });
});

describe('the plan and its writers', () => {
  test('the second writer is told what the first did, and a unit asked in is the one that is booked', async () => {
    const asked = await post<{ visit: Visit }>(server, '/api/visits', {
      unitNumber: 'D1',
      jobs: ['check'],
      on: '2024-06-05',
      reason: 'measure hot idle pressure',
      by,
    });
    const { plan, stand } = await planNow();
    const check = plan.visits.find(({ unitNumber, jobs }) => unitNumber === 'D1' && jobs.includes('check'));
    expect(check?.jobDetails.map(({ words }) => words)).toContain('check: measure hot idle pressure');
    const lock = (seen: string) =>
      post<PlanAnswer & { code: string; detail: string }>(server, '/api/plan/lock', {
        weeks: 4,
        visitId: check?.id,
        locked: true,
        stand: seen,
      });
    const first = await lock(stand);
    expect(first.status).toBe(200);
    const second = await lock(stand);
    expect(second.status).toBe(409);
    expect(second.body.code).toBe('changed_meanwhile');
    expect(second.body.detail).toContain('the visit of D1 was locked');
    const published = await post<PlanAnswer>(server, '/api/plan/publish', {
      weeks: 4,
      through: check?.on,
      by,
      stand: first.body.stand,
    });
    expect(published.status).toBe(200);
    const now = await get<{ visit: Visit }>(server, `/api/visits/${asked.body.visit.id}`);
    expect(now.visit).toMatchObject({ state: 'booked', on: check?.on, bay: check?.bay });
    const { visits } = await get<{ visits: Visit[] }>(server, '/api/visits?unit=D1');
    expect(visits.filter(({ jobs }) => jobs.includes('check'))).toHaveLength(1);
  });

  test('closed cards say planned against actual, and later plans take the hours that they took', async () => {
    const { visits } = await get<{ visits: Visit[] }>(server, '/api/visits?state=booked');
    const visit = visits.find(({ unitNumber, jobs }) => unitNumber === 'D1' && jobs.includes('check'))!;
    const actualHours = 3 * (visit.plannedHours ?? 1);
    const { card } = await get<{ card: JobCard }>(server, `/api/visits/${visit.id}/card`);
    const closed = await post(server, `/api/visits/${visit.id}/card`, {
      version: visit.version,
      closing: filledIn(card, {
        labourHours: actualHours,
        costCents: 30_000,
        oil: { grade: '5W-30', category: null, amountL: 5, filterChanged: true },
        usedOilL: 4,
      }),
    });
    expect(closed.status).toBe(200);
    const actuals = await get<Actuals>(server, '/api/actuals');
    expect(actuals.visits).toMatchObject([
      { visit: visit.id, plannedHours: visit.plannedHours, actualHours, actualCents: 30_000 },
    ]);
    const check = actuals.learned.find(({ job }) => job === 'check')!;
    expect(check.ratio).toBeGreaterThan(1.1);
    await post(server, '/api/visits', { unitNumber: 'C1', jobs: ['check'], on: shopDay, by });
    const planned = (await planNow()).plan.visits
      .flatMap(({ jobDetails }) => jobDetails)
      .find(({ job }) => job === 'check');
    const base = server.context.coefficients['shop.item_hours.check'];
    expect(planned?.hours).toBeCloseTo(base * check.ratio, 2);
    expect(server.log).toEqual([]);
  });
});
