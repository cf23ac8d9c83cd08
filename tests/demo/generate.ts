import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import { kindTable, recordKinds } from '../../models/schema/kinds.ts';
import type { Life } from '../simulation/life.ts';
import { places } from '../simulation/place.ts';
import { indexOn } from '../simulation/recordLife.ts';
import { csvOf, type FleetRows } from '../simulation/rows.ts';
import { describeFleet, simulatePlans, truthOf } from '../simulation/simulateFleet.ts';
import type { FleetTruth } from '../simulation/truth.ts';
import { plantFaults, type PlantedFault } from './faults.ts';
import { basePlans, demoSeed, endDay, firstDay } from './groups.ts';
import { addShopFloor } from './shopFloor.ts';
import { tellStories, withStories } from './stories.ts';

/** The instrument cluster of this unit was exchanged: its odometer began again. */
export const meterSwap = { unitNumber: '4407', on: '2024-06-18', newValueKm: 12 } as const;

export interface Demo {
  /** the rows before faults were planted, with what each service row was written for */
  readonly rows: FleetRows;
  /** text by file name */
  readonly files: Readonly<Record<string, string>>;
  readonly truth: FleetTruth;
  readonly faults: readonly PlantedFault[];
  /** odometer of the swapped cluster on its last day, km */
  readonly swapOldKm: number;
}

/** The demo fleet: 120 units of Wexmarrow County Works over six years. */
export function generateDemo(): Demo {
  const plans = withStories(basePlans());
  const { rows, lives } = simulatePlans(plans, {
    seed: demoSeed,
    physics: 'soft',
    ratesLogSd: 0.15,
    unitLogSd: 0.28,
  });
  const lifeOn = (unitNumber: string, day: number): Life => {
    const life = lives.find((l) => l.plan.unitNumber === unitNumber && l.firstDay <= day && day <= l.lastDay);
    if (!life) throw new Error(`demo: unit ${unitNumber} must be in service on ${isoFromDay(day)}`);
    return life;
  };
  const odometerOn = (unitNumber: string, on: string) => {
    const life = lifeOn(unitNumber, dayFromIso(on));
    return Math.round(life.odometerKm[indexOn(life, dayFromIso(on))]!);
  };
  describeFleet(rows, plans);
  tellStories(rows, odometerOn);
  addShopFloor(rows);
  forgetFuture(rows);
  numberWorkOrders(rows);
  const swapOldKm = odometerOn(meterSwap.unitNumber, meterSwap.on);
  swapMeter(rows, swapOldKm);
  // two units came without their duty
  for (const row of rows.units) if (row.unitNumber === '3324' || row.unitNumber === '6645') row.duty = null;
  sortRows(rows);
  correctOneRow(rows);
  const planted = plantFaults(
    toFiles(
      rows,
      plans.filter((p) => p.place === places.north).map((p) => p.unitNumber),
    ),
  );
  return {
    rows,
    files: planted.files,
    faults: planted.faults,
    truth: { seed: demoSeed, startDay: firstDay, endDay, units: lives.map(truthOf) },
    swapOldKm,
  };
}

function toFiles(rows: FleetRows, northern: readonly string[]): Record<string, string> {
  const files: Record<string, string> = {};
  for (const kind of recordKinds) if (kind !== 'readings') files[`${kind}.csv`] = csvOf(kind, rows[kind]);
  const isNorthern = (row: { unitNumber?: string }) => northern.includes(row.unitNumber ?? '');
  files['readings.csv'] = csvOf(
    'readings',
    rows.readings.filter((row) => !isNorthern(row)),
  );
  files['readings_north.csv'] = csvOf('readings', rows.readings.filter(isNorthern), true);
  return files;
}

/** Nothing that became known after the last day is in the files. */
function forgetFuture(rows: FleetRows): void {
  const end = isoFromDay(endDay);
  rows.service = rows.service.filter((row) => (row.recordedOn ?? row.servicedOn!) <= end);
  rows.samples = rows.samples.filter((row) => (row.reportedOn ?? row.sampledOn!) <= end);
  rows.findings = rows.findings.filter((row) => row.foundOn! <= end);
  rows.codes = rows.codes.filter((row) => row.seenOn! <= end);
}

/** The county's own shops number their work orders, outside shops don't. */
function numberWorkOrders(rows: FleetRows): void {
  let order = 40100;
  rows.service.sort((a, b) => compare(a.servicedOn!, b.servicedOn!) || compare(a.unitNumber!, b.unitNumber!));
  for (const row of rows.service) {
    order++;
    if (row.shop?.startsWith('contract') || row.shop?.startsWith('roadside')) continue;
    row.recordId = `WO-${order}`;
    row.workOrder = `WO-${order}`;
  }
}

function swapMeter(rows: FleetRows, oldKm: number): void {
  const shift = oldKm - meterSwap.newValueKm;
  const after = (row: { unitNumber?: string; odometerKm?: number | null }, on: string | undefined) =>
    row.unitNumber === meterSwap.unitNumber && on! > meterSwap.on && (row.odometerKm ?? null) !== null;
  for (const row of rows.readings) if (after(row, row.readOn)) row.odometerKm! -= shift;
  for (const row of rows.service) if (after(row, row.servicedOn)) row.odometerKm! -= shift;
  for (const row of rows.findings) if (after(row, row.foundOn)) row.odometerKm! -= shift;
  for (const row of rows.samples) if (after(row, row.sampledOn)) row.odometerKm! -= shift;
  for (const row of rows.fuel) if (after(row, row.filledOn)) row.odometerKm! -= shift;
  rows.service.push({
    unitNumber: meterSwap.unitNumber,
    servicedOn: meterSwap.on,
    work: 'instrument cluster replaced, odometer starts again',
    works: ['meter_replaced'],
    note: `old=${oldKm} new=${meterSwap.newValueKm}`,
    costCents: 68500,
    shop: places.north.name,
  });
}

/** By date, then unit, as exports come. */
function sortRows(rows: FleetRows): void {
  for (const kind of recordKinds) {
    const field = kindTable[kind].dateField;
    if (field === null || kind === 'units') continue;
    (rows[kind] as Record<string, unknown>[]).sort(
      (a, b) =>
        compare(String(a[field]), String(b[field])) ||
        compare(String(a['unitNumber']), String(b['unitNumber'])),
    );
  }
  rows.units.sort((a, b) => compare(a.unitNumber!, b.unitNumber!) || compare(a.inServiceOn!, b.inServiceOn!));
}

/** One work order comes twice: first with the amount of another engine, then put right under the same key. */
function correctOneRow(rows: FleetRows): void {
  const place = rows.service.findIndex(
    (row, i) =>
      i > 0.4 * rows.service.length &&
      (row.recordId ?? null) !== null &&
      (row.oilL ?? null) !== null &&
      row.works.includes('oil_change'),
  );
  const right = rows.service[place]!;
  rows.service.splice(place, 1, { ...right, oilL: Math.round(10 * right.oilL! * 0.5) / 10 });
  rows.service.splice(place + 4, 0, { ...right, note: 'amount corrected' });
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
