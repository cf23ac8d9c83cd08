import type { Assessment } from '../../models/schema/assessment.ts';

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

/** Spreadsheets run text that begins like a formula: such text gets a quote in front. */
const safe = (text: string): string => (/^[=+\-@\t\r]/.test(text) ? `'${text}` : text);

function cell(value: string | number | null | undefined): string {
  if (value === null || value === undefined) return '';
  if (typeof value === 'number') return String(Number(value.toPrecision(6)));
  const text = safe(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** The fleet's estimates as a CSV table, one row a unit. */
export function assessmentCsv(result: Assessment): string {
  const lines = result.units.map((unit) => columns.map(([, read]) => cell(read(unit))).join(','));
  return `${[columns.map(([name]) => name).join(','), ...lines].join('\n')}\n`;
}
