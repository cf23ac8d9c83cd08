import { planPlaces } from '../../models/assessment/planInputsPlaces.ts';
import type { FieldFault } from '../../models/cards/visitMoves.ts';
import { isoFromDay } from '../../models/schema/day.ts';
import type { ShopRecords, ShopRow } from '../../models/schema/shopRecordEndpoints.ts';
import type { Context } from '../context.ts';
import { writeEntryFiles } from '../files/entryFiles.ts';
import type { Store } from '../store/openStore.ts';
import { listShopResources } from '../store/shopResources.ts';
import { standingFleet } from './fleetQuestion.ts';
import { takeIn } from './takeIn.ts';

/** Sites, people and days that units can't be spared as plans take them, and what is kept beside them. */
export async function shopRecordsOf(context: Context, store: Store): Promise<ShopRecords> {
  const fleet = await standingFleet(context, store);
  const places = planPlaces(
    fleet,
    fleet.units.map(({ unit }) => unit.site),
    () => [],
  );
  return {
    asOf: fleet.asOf,
    sites: places.sites.map(({ site, bays, opensAtMinute, closesAtMinute, weekdays, timeZone }) => ({
      site,
      bays: bays.length,
      opensAtMinute,
      closesAtMinute,
      weekdays: [...weekdays],
      timeZone,
    })),
    technicians: places.technicians.map(({ technician, site, skills, hoursPerDay, away }) => ({
      technician,
      site,
      skills: skills === null ? null : [...skills],
      hoursPerDay,
      away: away.map(({ fromDay, toDay }) => ({ from: isoFromDay(fromDay), to: isoFromDay(toDay) })),
    })),
    blackouts: fleet.blackouts.map(({ unitNumber, from, to, reason }) => ({ unitNumber, from, to, reason })),
    resources: listShopResources(store),
    messages: [...places.messages],
  };
}

type Cells = Record<string, string | number | null>;

function cellsOf(row: ShopRow, asOf: string): Cells {
  switch (row.kind) {
    case 'technicians':
      return {
        technician: row.technician,
        site: row.site,
        skills: row.skills,
        hours_per_day: row.hoursPerDay,
        away_from: row.awayFrom,
        away_to: row.awayTo ?? row.awayFrom,
      };
    case 'blackouts':
      return { unit_number: row.unitNumber, from: row.from, to: row.to, reason: row.reason };
    case 'stock':
      return {
        item: row.item,
        site: row.site,
        on_hand: row.onHand,
        lead_time_days: row.leadTimeDays,
        unit_cost: row.unitCostCents === null ? null : (row.unitCostCents / 100).toFixed(2),
        recorded_on: asOf,
      };
  }
}

/** Adds one row by the ordinary intake, as a batch of its own in a person's name. A row that the intake would hold is refused. */
export async function addShopRow(
  context: Context,
  store: Store,
  row: ShopRow,
  by: string,
): Promise<{ batch: string } | { faults: readonly FieldFault[] }> {
  const asOf = await context.asOf(store);
  const cells = Object.entries(cellsOf(row, asOf));
  const written = await writeEntryFiles(context.paths.uploads, [
    {
      name: `${row.kind}_entered_${asOf}.csv`,
      columns: cells.map(([column]) => column),
      rows: [cells.map(([, value]) => value)],
    },
  ]);
  // what is entered adds to what was entered before, never replaces it
  const options = { by, today: asOf, corrected: 'add' as const };
  try {
    const trial = await takeIn(store.file, written.files, { ...options, dryRun: true });
    const against = [
      ...(trial.refused ?? []).map(({ message }) => message),
      ...trial.questions.map(({ question }) => question),
      ...trial.reasons.map(({ code, message }) => message ?? code),
      ...(trial.files.some(({ duplicates }) => duplicates > 0) ? ['This row is on record already.'] : []),
    ];
    if (against.length > 0) return { faults: against.map((message) => ({ field: 'row', message })) };
    const report = await takeIn(store.file, written.files, { ...options, dryRun: false });
    if (report.batch === null) throw new Error('a row that passed its trial must be taken in');
    return { batch: report.batch };
  } finally {
    await written.remove();
  }
}
