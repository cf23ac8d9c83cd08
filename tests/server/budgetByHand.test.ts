import { rmSync } from 'node:fs';
import { dirname } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { budgetDocument, type BudgetDocument } from '../../models/schema/budgetDocument.ts';
import { runCommand } from '../../server/cli/command.ts';
import { takeIn } from '../../server/services/takeIn.ts';
import { writeFiles } from './ownFleet.ts';
import { temporaryPaths } from './running.ts';

/** Months from January 2021 to May 2024 at 2 000 km and 60 h each. */
function readings(): string {
  const lines = ['unit_number,read_on,odometer_km,engine_hours_h,idle_hours_h'];
  for (const unit of ['P1', 'P2'])
    for (let month = 0; month < 41; month += 1)
      lines.push(
        `${unit},${2021 + Math.floor(month / 12)}-${String((month % 12) + 1).padStart(2, '0')}-01,${2000 * month},${60 * month},${10 * month}`,
      );
  return `${lines.join('\n')}\n`;
}

const files = writeFiles({
  'sites.csv': 'site,bays,technicians,hours_per_day,labour_rate_per_hour\nMillbank,2,2,8,90\n',
  'engines.csv': `engine_family,displacement_l,fuel_system,sump_l,required_grade,required_category,book_interval_km,book_interval_months,timing_drive,interference,planned_hours,planned_parts_cost,planned_downtime_days,downtime_cost_per_day,unplanned_cost,unplanned_downtime_days
Garth 25,2.5,GDI,5.5,5W-30,API SP,8000,12,chain,yes,10,1000,1,200,9000,10
Tarn 20,2.0,GDI,5,5W-30,API SP,8000,12,chain,yes,8,800,2,150,7000,8
`,
  'units.csv': `unit_number,site,duty,engine_family,in_service_on,in_service_odometer_km,status
P1,Millbank,patrol,Garth 25,2021-01-01,0,active
P2,Millbank,patrol,Tarn 20,2021-01-01,0,active
`,
  'readings.csv': readings(),
  'service.csv': `unit_number,serviced_on,odometer_km,work,oil_grade,oil_category,oil_l
P1,2023-01-10,48600,oil_change,5W-30,API SP,5.5
P2,2023-01-10,48600,oil_change,5W-30,API SP,5
`,
});
const paths = temporaryPaths();
beforeAll(async () => {
  await takeIn(paths.ownStore, files, { dryRun: false, by: 'test', today: '2024-06-01' });
});
afterAll(() => {
  paths.remove();
  rmSync(dirname(files[0].path), { recursive: true, force: true });
});

async function budget(words: string): Promise<BudgetDocument> {
  const written: string[] = [];
  const write = process.stdout.write.bind(process.stdout);
  Object.assign(process.stdout, { write: (text: unknown) => written.push(String(text)) > 0 });
  try {
    const all = ['budget', ...words.split(' '), '--months', '12', '--as-of', '2024-06-01', '--json'];
    expect(await runCommand(all, () => paths)).toBe(0);
  } finally {
    Object.assign(process.stdout, { write });
  }
  return budgetDocument.parse(JSON.parse(written.join('')));
}

describe('two units worked by hand, through the verb', () => {
  // P1: parts 1 000.00 + 10 h at 90.00 = 1 900.00; P2: 800.00 + 8 h at 90.00 = 1 520.00; together 3 420.00
  test('both fit into 3 420.00 to the cent, and no cost had to be assumed', async () => {
    const result = await budget('--amount 3420 --must-do P1,P2');
    const cost = Object.fromEntries(
      result.chosen.map(({ unitNumber, costCents }) => [unitNumber, costCents]),
    );
    expect(cost).toEqual({ P1: 190_000, P2: 152_000 });
    expect(result.spentCents).toBe(342_000);
    expect(result.leftAlone).toEqual([]);
    expect(result.filledCosts).toEqual([]);
    expect(result.notes.join()).not.toContain('above the limits');
  });
  test('what must be done is kept at a cent less, and the cent is said', async () => {
    const result = await budget('--amount 3419.99 --must-do P1,P2');
    expect(result.spentCents).toBe(342_000);
    expect(result.notes).toContain('what must be done is 0.01 above the limits');
  });
  test('P2 alone takes 1 520.00; P1 stays as listed', async () => {
    const result = await budget('--amount 3420 --must-do P2 --must-not P1');
    expect(result.chosen.map(({ unitNumber, costCents }) => [unitNumber, costCents])).toEqual([
      ['P2', 152_000],
    ]);
    expect(result.spentCents).toBe(152_000);
    expect(result.leftAlone).toMatchObject([{ unitNumber: 'P1', why: 'listed' }]);
  });
});
