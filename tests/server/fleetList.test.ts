import { afterAll, beforeAll, expect, test } from 'vitest';
import { fleetList } from '../../models/schema/fleetList.ts';
import type { Assessment } from '../../models/schema/assessment.ts';
import type { PromiseKept } from '../../models/schema/promise.ts';
import { takeIn } from '../../server/services/takeIn.ts';
import { setStoreNote } from '../../server/store/settings.ts';
import { writeFiles } from './ownFleet.ts';
import { startServer, type Running } from './running.ts';
import { get } from './shopFleet.ts';

const today = '2025-01-31';

/** One unit at 50 km a day, little idling, book 10 000 km: drains after 200, 100 and 280 days. */
const files = {
  'sites.csv': 'site,bays,technicians,hours_per_day,weekdays\nFernhill,1,1,8,mon-fri\n',
  'engines.csv': `engine_family,displacement_l,fuel_system,sump_l,required_grade,required_category,book_interval_km,book_interval_months,hours_limit_h,timing_drive,phasers,interference,book_severe_interval_km
Combe 22 D,2.2,diesel,7,5W-40,API CK-4,10000,24,2000,gear,no,no,10000
`,
  'units.csv': `unit_number,site,duty,engine_family,in_service_on,in_service_odometer_km,status
K1,Fernhill,highway,Combe 22 D,2023-07-01,0,active
`,
  'readings.csv': `unit_number,read_on,odometer_km,engine_hours_h,idle_hours_h
${[0, 100, 200, 250, 300, 400, 500, 580]
  .map(
    (days) =>
      `K1,${new Date(Date.UTC(2023, 6, 1 + days)).toISOString().slice(0, 10)},${50 * days},${days},${0.02 * days}`,
  )
  .join('\n')}
`,
  'service.csv': `unit_number,serviced_on,odometer_km,work,oil_grade,oil_category,oil_l
K1,2024-01-17,10000,oil_change,5W-40,API CK-4,7
K1,2024-04-26,15000,oil_change,5W-40,API CK-4,7
K1,2025-01-31,29000,oil_change,5W-40,API CK-4,7
`,
};

let server: Running;
beforeAll(async () => {
  server = await startServer();
  const store = await server.context.own();
  const report = await takeIn(store.file, writeFiles(files), { dryRun: false, by: 'test', today });
  expect(report.files.map((file) => file.held)).toEqual([0, 0, 0, 0, 0]);
  await setStoreNote(store, 'as_of', today);
});
afterAll(async () => server.stop());

test('the list holds its schema and says what the assessment says', async () => {
  const whole = await get<Assessment>(server, '/api/assessment');
  const list = fleetList.parse(await get(server, '/api/fleet-list'));
  expect(list.units).toHaveLength(whole.units.length);
  expect(list.asOf).toBe(whole.asOf);
  for (const [index, unit] of whole.units.entries()) {
    const line = list.units[index];
    expect(line).toMatchObject({ unitNumber: unit.unitNumber, call: unit.call, reason: unit.reasons[0] });
    expect(line.furtherReasons).toBe(unit.reasons.length - 1);
    expect(line.oil?.dueOn ?? null).toBe(unit.oil?.dueOn ?? null);
    for (const name of ['sludge', 'chain', 'phaser', 'failure'] as const)
      if (line[name] === null) expect(line.notKnown[name], name).toMatch(/\w/);
  }
});

test('worked by hand: drains at 10 000, 5 000 and 14 000 km of a 10 000 km book are on time, early and late', async () => {
  const kept = await get<PromiseKept>(server, '/api/promise');
  expect(kept.months).toEqual([
    { site: 'Fernhill', month: '2024-01', early: 0, onTime: 1, late: 0 },
    { site: 'Fernhill', month: '2024-04', early: 1, onTime: 0, late: 0 },
    { site: 'Fernhill', month: '2025-01', early: 0, onTime: 0, late: 1 },
  ]);
  expect(kept.pastDue).toEqual([]);
});
