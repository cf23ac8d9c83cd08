import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Assessment } from '../../models/schema/assessment.ts';
import { jobCard, type JobCard } from '../../models/schema/jobCard.ts';
import type { OilEntry } from '../../models/schema/shopEndpoints.ts';
import type { Visit } from '../../models/schema/visit.ts';
import { stockOfSite } from '../../server/store/stockShelf.ts';
import { filledIn, get, post, shopDay, startShop } from './shopFleet.ts';
import type { Running } from './running.ts';

let server: Running;
beforeAll(async () => {
  server = await startShop();
});
afterAll(async () => server.stop());

interface Fault {
  readonly code: string;
  readonly detail: string;
  readonly fields: readonly { field: string; message: string }[];
}

const unitOf = async (unitNumber: string) =>
  (await get<Assessment>(server, '/api/assessment')).units.find((unit) => unit.unitNumber === unitNumber)!;
const onHand = async (site: string, item: string) =>
  stockOfSite(await server.context.own(), site, shopDay).find((entry) => entry.item === item)?.onHand;

const oilUsed = {
  oil: { grade: '5W-30', category: 'API SP', amountL: 5, filterChanged: true },
  usedOilL: 4.6,
  labourHours: 0.8,
  costCents: 7250,
  stockUsed: [
    { item: 'oil 5W-30', quantity: 5 },
    { item: 'filter Tarn 20', quantity: 1 },
    { item: 'drain seal Tarn 20', quantity: 1 },
  ],
};

async function booked(unitNumber: string, jobs: readonly string[]): Promise<Visit> {
  const asked = await post<{ visit: Visit }>(server, '/api/visits', {
    unitNumber,
    jobs,
    on: shopDay,
    state: 'booked',
    by: 'Vera Linden',
  });
  expect(asked.status).toBe(200);
  return asked.body.visit;
}

describe('an oil card, from booking to the next due date', () => {
  test('closing moves attention, oil state, stock and used oil in one step; undo takes it all back', async () => {
    const visit = await booked('A1', ['oil_change', 'screen_look']);
    const { card } = await get<{ card: JobCard }>(server, `/api/visits/${visit.id}/card`);
    expect(jobCard.parse(card).oil).toEqual({ grade: '5W-30', category: 'API SP', amountL: 5 });
    expect(card.items.find(({ item }) => item === 'oil 5W-30')).toMatchObject({ quantity: 5, onHand: 60 });
    const before = await unitOf('A1');
    const state = await get<{ revision: number }>(server, '/api/state');
    const closing = filledIn(card, {
      ...oilUsed,
      findings: [{ finding: 'screen_blocked_share', value: '0.35', bank: null, note: null }],
    });

    const path = `/api/visits/${visit.id}/card`;
    const closed = await post<{
      visit: Visit;
      batch: string;
      dueBefore: string;
      dueAfter: string;
      messages: string[];
    }>(server, path, { version: visit.version, closing }, { 'Idempotency-Key': 'card-1' });
    expect(closed.body).toMatchObject({ visit: { state: 'done', actualHours: 0.8, actualCents: 7250 } });
    expect(closed.body.messages.join()).toContain('drain seal Tarn 20');
    const after = await unitOf('A1');
    expect(after.oil!.kmSinceChange!).toBeLessThan(100);
    expect(before.oil!.kmSinceChange!).toBeGreaterThan(1000);
    expect(after.oil!.dueOn! > before.oil!.dueOn!).toBe(true);
    expect(closed.body.dueAfter).toBe(after.oil!.dueOn);
    expect(after.sludge!.index).not.toBe(before.sludge!.index);
    expect((await get<{ revision: number }>(server, '/api/state')).revision).toBeGreaterThan(state.revision);
    expect(await onHand('Millbank', 'oil 5W-30')).toBe(55);
    expect(await onHand('Millbank', 'filter Tarn 20')).toBe(3);
    const log = await get<{ entries: OilEntry[]; inDrums: unknown[] }>(server, '/api/oil-log');
    expect(log.inDrums).toEqual([{ site: 'Millbank', liters: 4.6 }]);
    const { batches } = await get<{
      batches: { batch: string; madeBy: string; files: { file: string }[] }[];
    }>(server, '/api/intake/batches');
    expect(batches[0]).toMatchObject({ batch: closed.body.batch, madeBy: 'Ines Farrow' });
    expect(batches[0].files.map(({ file }) => file.split('_')[0]).sort()).toEqual(['findings', 'service']);

    const again = await post(
      server,
      path,
      { version: visit.version, closing },
      { 'Idempotency-Key': 'card-1' },
    );
    expect(again.body).toEqual(closed.body);
    const twice = await post<Fault>(server, path, { version: closed.body.visit.version, closing });
    expect(twice.status).toBe(422);
    expect(twice.body.detail).toContain('closed already');

    const undone = await post<{ visit: Visit }>(server, `/api/visits/${visit.id}/undo`, {
      version: closed.body.visit.version,
      by: 'Vera Linden',
    });
    expect(undone.body.visit).toMatchObject({ state: 'booked', batch: null, actualHours: null });
    expect((await unitOf('A1')).oil!.dueOn).toBe(before.oil!.dueOn);
    expect(await onHand('Millbank', 'oil 5W-30')).toBe(60);
    expect((await get<{ inDrums: unknown[] }>(server, '/api/oil-log')).inDrums).toEqual([]);
    const verified = await get<{ ok: boolean; problems: string[] }>(server, '/api/verify');
    expect(verified.problems).toEqual([]);
  });

  test('of two cards the older is taken back, and the shelf holds what the younger left', async () => {
    const walkIn = async (unitNumber: string, liters: number) => {
      const { card } = await get<{ card: JobCard }>(server, `/api/cards?unit=${unitNumber}&jobs=oil_change`);
      const closing = filledIn(card, {
        ...oilUsed,
        oil: { ...oilUsed.oil, amountL: liters },
        stockUsed: [{ item: 'Oil 5w-30', quantity: liters }],
      });
      const path = '/api/cards';
      return (await post<{ visit: Visit }>(server, path, { unitNumber, jobs: ['oil_change'], closing })).body
        .visit;
    };
    const undo = ({ id, version }: Visit) =>
      post(server, `/api/visits/${id}/undo`, { version, by: 'Vera Linden' });
    const older = await walkIn('A1', 5);
    const younger = await walkIn('A2', 4.5);
    expect(await onHand('Millbank', 'oil 5W-30')).toBe(50.5);
    await undo(older);
    expect(await onHand('Millbank', 'oil 5W-30')).toBe(55.5);
    await undo(younger);
    expect(await onHand('Millbank', 'oil 5W-30')).toBe(60);
  });

  test('what is missing is said by field, and nothing is kept', async () => {
    const visit = await booked('A2', ['oil_change']);
    const { card } = await get<{ card: JobCard }>(server, `/api/visits/${visit.id}/card`);
    const path = `/api/visits/${visit.id}/card`;
    const blank = filledIn(card, { technician: 'x', steps: [], odometerKm: null });
    const open = await post<Fault>(server, path, { version: visit.version, closing: blank });
    expect(open.status).toBe(422);
    const fields = open.body.fields.map(({ field }) => field);
    expect(fields).toEqual(
      expect.arrayContaining(['technician', 'odometerKm', 'oil', 'usedOilL', 'steps.leaks']),
    );

    const backwards = filledIn(card, { ...oilUsed, odometerKm: 900 });
    const held = await post<Fault>(server, path, { version: visit.version, closing: backwards });
    expect(held.status).toBe(422);
    expect(held.body.detail.toLowerCase()).toContain('odometer');
    expect((await get<{ visit: Visit }>(server, `/api/visits/${visit.id}`)).visit.state).toBe('booked');
    expect(await onHand('Millbank', 'oil 5W-30')).toBe(60);
    expect((await get<{ rows: unknown[] }>(server, '/api/held')).rows).toEqual([]);
  });
});

describe('a timing card', () => {
  test('needs the maker’s procedure, a second person and what was renewed; then the new drive begins', async () => {
    const visit = await booked('B1', ['timing_set', 'phaser']);
    const { card } = await get<{ card: JobCard }>(server, `/api/visits/${visit.id}/card`);
    expect(card.cautions.length).toBeGreaterThan(2);
    const path = `/api/visits/${visit.id}/card`;
    const whole = filledIn(card, {
      oil: { grade: '5W-20', category: null, amountL: 5.7, filterChanged: true },
      usedOilL: 5,
      labourHours: 15,
      costCents: 261_000,
      outcome: 'planned',
      renewed: [
        { work: 'timing_set', bank: null, revision: 'C' },
        { work: 'phaser', bank: '1', revision: null },
        { work: 'phaser', bank: '2', revision: null },
      ],
      stockUsed: [{ item: 'timing_set Holm 35', quantity: 1 }],
    });
    const nameless = await post<Fault>(server, path, {
      version: visit.version,
      closing: {
        ...whole,
        makersReference: null,
        steps: whole.steps?.map((step) => ({ ...step, person: step.person === null ? null : 'Ines Farrow' })),
        renewed: [],
      },
    });
    expect(nameless.body.fields.map(({ field }) => field)).toEqual(
      expect.arrayContaining(['makersReference', 'steps.second_person', 'renewed']),
    );
    const before = await unitOf('B1');
    const closed = await post<{ visit: Visit }>(server, path, { version: visit.version, closing: whole });
    expect(closed.body).toMatchObject({ visit: { state: 'done' } });
    const after = await unitOf('B1');
    expect(after.chain!.elongationPercent).toBeLessThan(before.chain!.elongationPercent);
    expect(after.phaser!.wearShare).toBeLessThan(before.phaser!.wearShare);
    expect(await onHand('Eastquay', 'timing_set Holm 35')).toBe(0);
  });

  test('a unit that came without a booking gets a card, and a visit when it is closed', async () => {
    const { card } = await get<{ card: JobCard }>(server, '/api/cards?unit=c1&jobs=oil_change');
    const closing = filledIn(card, {
      oil: { grade: '5W-40', category: null, amountL: 7, filterChanged: true },
      usedOilL: 0,
    });
    const closed = await post<{ visit: Visit }>(server, '/api/cards', {
      unitNumber: 'C1',
      jobs: ['oil_change'],
      closing,
    });
    expect(closed.body).toMatchObject({ visit: { unitNumber: 'C1', state: 'done' } });
    expect((await fetch(`${server.address}/api/cards?unit=C1&jobs=paint`)).status).toBe(400);
    expect((await fetch(`${server.address}/api/cards?unit=none&jobs=check`)).status).toBe(404);
  });

  test('nothing in the log: no request failed inside', () => expect(server.log).toEqual([]));
});
