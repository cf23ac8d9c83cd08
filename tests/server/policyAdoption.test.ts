import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { budgetCheck } from '../../models/schema/budgetCheck.ts';
import { policyDocument, type AdoptedPolicy } from '../../models/schema/policyDocument.ts';
import { policyTrialDocument } from '../../models/schema/policyTrial.ts';
import { spendDocument } from '../../models/schema/spendDocument.ts';
import { unitStory, type UnitStory } from '../../models/schema/story.ts';
import { setStoreNote } from '../../server/store/settings.ts';
import { isoAgo as iso } from './deskFleet.ts';
import { startServer, type Running } from './running.ts';

let server: Running;
beforeAll(async () => {
  server = await startServer();
  await takeIn(files());
  await setStoreNote(await server.context.own(), 'as_of', iso(0));
});
afterAll(async () => server.stop());

const post = (path: string, body: unknown): Promise<Response> =>
  fetch(server.address + path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });

/** Two units of one duty as of today: 100 km a day, a drain every 70 days at 80.00, the last one 15 days ago. */
function files(): Record<string, string> {
  const span = 645;
  const readings = ['unit_number,read_on,odometer_km,engine_hours_h,idle_hours_h'];
  const service = [
    'unit_number,serviced_on,odometer_km,work,oil_grade,oil_category,oil_l,cost,outcome,paid_by',
  ];
  for (const [unit, duty] of [
    ['M1', 'highway'],
    ['M2', 'towing'],
  ]) {
    const km = (daysAgo: number): number => 100 * (span - daysAgo);
    for (let ago = span; ago >= 0; ago -= 15)
      readings.push(`${unit},${iso(ago)},${km(ago)},${(1.3 * km(ago)) / 100},${(0.1 * km(ago)) / 100}`);
    for (let ago = 575; ago >= 15; ago -= 70)
      service.push(`${unit},${iso(ago)},${km(ago)},oil_change,5W-30,API SP,5.5,80,,`);
    if (duty === 'towing') service.push(`${unit},${iso(400)},${km(400)},timing_set,,,,6200,failed,fleet`);
  }
  return {
    'engines.csv':
      'engine_family,displacement_l,fuel_system,sump_l,required_grade,required_category,book_interval_km,book_interval_months,timing_drive,interference\nGarth 25,2.5,PFI,5.5,5W-30,API SP,8000,12,chain,yes\n',
    'units.csv': `unit_number,duty,engine_family,in_service_on,in_service_odometer_km,status\nM1,highway,Garth 25,${iso(span)},0,active\nM2,towing,Garth 25,${iso(span)},0,active\n`,
    'readings.csv': `${readings.join('\n')}\n`,
    'service.csv': `${service.join('\n')}\n`,
  };
}

async function takeIn(named: Record<string, string>): Promise<void> {
  const uploads: string[] = [];
  for (const [name, text] of Object.entries(named)) {
    const answer = await fetch(`${server.address}/api/uploads?name=${name}`, {
      method: 'POST',
      headers: { 'content-type': 'application/octet-stream' },
      body: text,
    });
    uploads.push(((await answer.json()) as { upload: string }).upload);
  }
  const report = (await (await post('/api/intake', { uploads })).json()) as { committed: boolean };
  expect(report.committed).toBe(true);
}

const get = async (path: string): Promise<unknown> => (await fetch(server.address + path)).json();
const story = async (unit: string, query = ''): Promise<UnitStory> =>
  unitStory.parse(await get(`/api/units/${unit}${query}`));
const highway = async (query = '') =>
  policyDocument.parse(await get(`/api/policy${query}`)).duties.find(({ duty }) => duty === 'highway')!;

describe('an interval tried before it is adopted', () => {
  test('moves due dates as adopting it does, says changes and failures with ranges, and records nothing', async () => {
    const words = '/api/policy/trial?duty=Highway&intervalKm=4000&months=24';
    const trial = policyTrialDocument.parse(await get(words));
    expect(trial).toMatchObject({ duty: 'highway', units: 1, months: 24, intervalKm: 4000 });
    // 100 km a day: 7 000 km are kept today, which is .435 changes a month; 4 000 km are .76
    expect(trial.now.changesPerMonth.mid).toBeGreaterThan(0.38);
    expect(trial.now.changesPerMonth.mid).toBeLessThan(0.52);
    expect(trial.then.changesPerMonth.mid / trial.now.changesPerMonth.mid).toBeGreaterThan(1.5);
    expect(trial.then.changeCents.mid).toBeGreaterThan(trial.now.changeCents.mid);
    expect(trial.then.failures.mid).toBeLessThanOrEqual(trial.now.failures.mid);
    const [due] = trial.dueDates;
    const before = await story('M1');
    expect(due).toMatchObject({ unitNumber: 'M1', nowOn: before.assessment.oil!.dueOn });
    expect(due.days!).toBeLessThan(0);
    await post('/api/policy/adoptions', { duty: 'highway', intervalKm: 4000, approvedBy: 'Ines Farrow' });
    expect((await story('M1')).assessment.oil!.dueOn).toBe(due.thenOn);
    await post('/api/policy/adoptions/withdrawal', { duty: 'highway', withdrawnBy: 'Bo Lind' });
    expect(await get(words)).toEqual(trial);
  });
  test('beyond the book it changes nothing and says so; a duty that is not there is refused', async () => {
    const far = policyTrialDocument.parse(await get('/api/policy/trial?duty=highway&intervalKm=20000'));
    expect(far.dueDates).toEqual([]);
    expect(far.notes[0]).toBe("20000 km is beyond the book's 8000 km: it caps nothing and can't be adopted");
    const nowhere = await fetch(`${server.address}/api/policy/trial?duty=moonlight&intervalKm=5000`);
    expect(nowhere.status).toBe(422);
    expect((await fetch(`${server.address}/api/policy/trial?duty=highway&intervalKm=1`)).status).toBe(400);
  });
});

describe('an interval adopted for a duty', () => {
  test('is refused beyond the book, without a person and for a duty that is not there', async () => {
    const path = '/api/policy/adoptions';
    const far = await post(path, { duty: 'highway', intervalKm: 9000, approvedBy: 'Ines Farrow' });
    expect(far.status).toBe(422);
    expect(await far.json()).toMatchObject({
      code: 'beyond_book',
      detail:
        'intervalKm must be at most the book interval of 8000 km for duty highway, got 9000; a longer interval is approved unit by unit, on samples and an inspection.',
    });
    expect((await post(path, { duty: 'highway', intervalKm: 5000, approvedBy: 'yes' })).status).toBe(422);
    const nowhere = await post(path, { duty: 'moonlight', intervalKm: 5000, approvedBy: 'Ines Farrow' });
    expect(((await nowhere.json()) as { detail: string }).detail).toContain('there are: highway, towing');
    expect((await post(path, { duty: 'highway', intervalKm: 5000 })).status).toBe(400);
    expect((await highway()).adopted).toBeNull();
  });

  test('moves due dates of its duty alone and not those of an earlier day; withdrawing brings them back', async () => {
    const before = await story('M1');
    const other = await story('M2');
    const yesterday = await story('M1', `?asOf=${iso(1)}`);
    const given = await post('/api/policy/adoptions', {
      duty: 'Highway',
      intervalKm: 4000,
      approvedBy: 'Ines Farrow',
      note: 'a trial year',
    });
    expect(given.status).toBe(200);
    const adopted = (await given.json()) as AdoptedPolicy;
    expect(adopted).toMatchObject({ duty: 'highway', intervalKm: 4000, adoptedOn: iso(0) });
    const after = await story('M1');
    expect(after.assessment.oil!.adjustedIntervalKm!).toBeLessThanOrEqual(4000);
    expect(after.assessment.oil!.dueOn! < before.assessment.oil!.dueOn!).toBe(true);
    expect(after.intervalWords.join()).toContain(`The policy adopted by Ines Farrow on ${iso(0)}`);
    expect((await highway()).adopted).toEqual(adopted);
    expect((await highway()).bookIntervalKm).toBe(8000);

    expect((await story('M2')).assessment.oil).toEqual(other.assessment.oil);
    expect((await story('M1', `?asOf=${iso(1)}`)).assessment.oil).toEqual(yesterday.assessment.oil);
    expect((await highway(`?asOf=${iso(1)}`)).adopted).toBeNull();

    const path = '/api/policy/adoptions/withdrawal';
    expect((await post(path, { duty: 'highway', withdrawnBy: 'ok' })).status).toBe(422);
    const withdrawn = await post(path, { duty: 'HIGHWAY', withdrawnBy: 'Bo Lind' });
    expect(await withdrawn.json()).toEqual({ withdrawn: 1 });
    expect((await story('M1')).assessment).toEqual(before.assessment);
    expect((await highway()).adopted).toBeNull();
    expect(server.log).toEqual([]);
  });
});

describe('what was spent', () => {
  test('adds up to the cent by month, site, duty and engine family', async () => {
    const spend = spendDocument.parse(await get('/api/spend'));
    // nine drains of 80.00 on each of two units, and one failure of 6 200.00
    expect(spend.total).toEqual({
      rows: 19,
      oilCents: 144_000,
      plannedCents: 0,
      unplannedCents: 620_000,
      unsaidCents: 0,
      withoutCost: 0,
    });
    const [months, sites, duties, families] = spend.groups;
    expect(duties.rows.map(({ name, oilCents, unplannedCents }) => [name, oilCents, unplannedCents])).toEqual(
      [
        ['towing', 72_000, 620_000],
        ['highway', 72_000, 0],
      ],
    );
    expect(families.rows.map(({ name, rows }) => [name, rows])).toEqual([['Garth 25', 19]]);
    expect(sites.rows.map(({ name }) => name)).toEqual(['not recorded']);
    expect(months.rows.find(({ name }) => name === iso(400).slice(0, 7))?.unplannedCents).toBe(620_000);
    expect(months.rows.reduce((sum, { oilCents }) => sum + oilCents, 0)).toBe(144_000);
    expect(spend.paidBy.map(({ name, costCents }) => [name, costCents])).toEqual([
      ['fleet', 620_000],
      ['not recorded', 144_000],
    ]);
    const earlier = spendDocument.parse(await get(`/api/spend?asOf=${iso(450)}`));
    expect(earlier.total).toMatchObject({ rows: 4, oilCents: 32_000, unplannedCents: 0 });
  });
});

describe('a case of the past beside what happened', () => {
  test('names the unit that failed since, what it cost, and the months that are over', async () => {
    const check = budgetCheck.parse(await get(`/api/budget/check?amount=5000&months=6&from=${iso(430)}`));
    // the timing set of M2 failed 30 days after the case, for 6 200.00; nothing was planned
    expect(check.happened).toEqual({
      failures: 1,
      unplannedCents: 620_000,
      plannedCents: 0,
      withoutCost: 0,
    });
    expect(check).toMatchObject({ fromOn: iso(430), whole: true, amountCents: 500_000, months: 6 });
    expect(check.units).toContainEqual({
      unitNumber: 'M2',
      said: expect.stringMatching(/^(renew|look|clean|leave)$/) as string,
      failedOn: iso(400),
      renewedOn: null,
    });
    expect(check.said.failuresWithout.mid).toBeGreaterThan(0);
    const late = budgetCheck.parse(await get(`/api/budget/check?amount=5000&months=12&from=${iso(100)}`));
    expect(late).toMatchObject({ untilOn: iso(0), whole: false });
    expect(late.happened).toMatchObject({ failures: 0, unplannedCents: 0 });
    expect(late.notes[1]).toBe('3 of 12 months are over; failures said are those of all months');
    const future = await fetch(`${server.address}/api/budget/check?amount=5000&from=2999-01-01`);
    expect(future.status).toBe(422);
  });
});
