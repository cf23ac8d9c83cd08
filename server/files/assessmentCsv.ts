import type { Assessment } from '../../models/schema/assessment.ts';
import { csvText } from '../../models/intake/csvText.ts';

type Row = Assessment['units'][number];

const columns: readonly [string, (unit: Row) => string | number | null | undefined][] = [
  ['unit_number', (u) => u.unitNumber],
  ['site', (u) => u.site],
  ['duty', (u) => u.dutyName],
  ['engine_family', (u) => u.engineFamily],
  ['call', (u) => u.call],
  ['reason', (u) => u.reasons[0]],
  ['record_quality', (u) => u.recordQuality],
  ['odometer_km', (u) => u.odometerKm],
  ['km_per_day', (u) => u.duty.kmPerDay],
  ['idle_share', (u) => u.duty.idleShare],
  ['severe', (u) => (u.duty.severe ? 'yes' : 'no')],
  ['oil_grade', (u) => u.oil?.grade],
  ['km_since_change', (u) => u.oil?.kmSinceChange],
  ['adjusted_interval_km', (u) => u.oil?.adjustedIntervalKm],
  ['governing_limit', (u) => u.oil?.governingLimit],
  ['due_on', (u) => u.oil?.dueOn],
  ['due_on_earliest', (u) => u.oil?.dueOnEarliest],
  ['due_on_latest', (u) => u.oil?.dueOnLatest],
  ['sludge_index', (u) => u.sludge?.index],
  ['chain_elongation_percent', (u) => u.chain?.elongationPercent],
  ['phaser_wear_share', (u) => u.phaser?.wearShare],
  ['failure_probability', (u) => u.failure?.probability],
  ['failure_probability_low', (u) => u.failure?.low],
  ['failure_probability_high', (u) => u.failure?.high],
];

const rounded = (value: string | number | null | undefined): string | number | null | undefined =>
  typeof value === 'number' ? Number(value.toPrecision(6)) : value;

/** The fleet's estimates as a CSV table, one row a unit. */
export function assessmentCsv(result: Assessment): string {
  return csvText(
    columns.map(([name]) => name),
    result.units.map((unit) => columns.map(([, read]) => rounded(read(unit)))),
  );
}
