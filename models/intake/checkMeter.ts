import { isoFromDay } from '../schema/day.ts';
import type { CheckRecord, HeldRecord, UnitSpan } from './checkRecord.ts';
import { oldYearMend } from './dateMends.ts';
import { meterEvents } from './meterEvents.ts';
import { mendFor, windowFor, type MeterMend, type Window, kmPerMile } from './meterMends.ts';
import { newMeterRun } from './newMeterRun.ts';
import { isRollover, rolloverMend } from './meterRollover.ts';
import { typicalGain } from './meterSeries.ts';
import { keptOf, meterWords, standsOf, type MeterName, type Stand } from './meterStands.ts';
import { reason, type Reason } from './reasons.ts';

/** A whole source in the other unit of distance: its rows agree with each other, but not with the rest. */
function sourcesInOtherUnit(
  meter: MeterName,
  build: (scale: ReadonlyMap<string, number>) => Stand[],
  fresh: readonly CheckRecord[],
  leftOut: number,
): Map<string, number> {
  const found = new Map<string, number>();
  if (meter !== 'odometerKm' || leftOut < 3) return found;
  const { rule } = meterWords[meter];
  for (const source of [...new Set(fresh.map((entry) => entry.source))].sort()) {
    const rows = fresh.filter((entry) => entry.source === source && typeof entry.record[meter] === 'number');
    if (rows.length < 3) continue;
    const factor = rows.some(({ odometerUnit }) => odometerUnit === 'mi') ? 1 / kmPerMile : kmPerMile;
    const stands = build(new Map([[source, factor]]));
    if (
      stands.some(({ entry }) => entry !== null && entry.source !== source) &&
      (stands.length - keptOf(stands, rule).size) * 4 <= leftOut
    )
      found.set(source, factor);
  }
  return found;
}

function reasonFor(meter: MeterName, stand: Stand, mend: MeterMend | null, window: Window | null): Reason {
  const { name, unit, back, jump } = meterWords[meter];
  const where =
    window === null
      ? ''
      : `, where ${Math.round(window.low)} to ${Math.round(window.high)} ${unit} would fit`;
  const found = `${name} ${stand.shown} ${unit} on ${isoFromDay(stand.day)}${where}`;
  // what ran back says so, whatever slip of the pen the mend proposes for it
  if (window !== null && stand.value < window.low) return reason(back, meter, found);
  if (meter === 'odometerKm' && mend?.how === 'unit') return reason('odometer_unit', meter, found);
  if (meter === 'odometerKm' && mend?.how === 'digits') return reason('odometer_digit', meter, found);
  return reason(jump, meter, found);
}

function heldFor(
  meter: MeterName,
  stand: Stand,
  kept: readonly Stand[],
  gain: number | null,
): HeldRecord | null {
  const { entry } = stand;
  if (entry === null) return null;
  const { rule } = meterWords[meter];
  const near = kept.filter((other) => other.stretch === stand.stretch && other !== stand);
  const windowOn = (day: number): Window | null =>
    windowFor(
      day,
      near.findLast((other) => other.day < day || (other.day === day && other.value <= stand.value)),
      near.find((other) => other.day > day || (other.day === day && other.value > stand.value)),
      gain,
      rule,
    );
  const window = windowOn(stand.day);
  const year = oldYearMend(entry, stand.day, near[near.length - 1]?.day ?? stand.day, (day) => {
    const there = windowOn(day);
    return there !== null && stand.value >= there.low && stand.value <= there.high;
  });
  const isDistance = meter === 'odometerKm';
  const factor = factorOf(entry, meter);
  const shown = Number((stand.shown / factor).toPrecision(9));
  const value = year !== null || window === null ? null : mendFor(shown, factor, isDistance, window);
  const rolled =
    isDistance && year === null && window !== null && stand.value < window.low && value?.how !== 'unit'
      ? rolloverMend(shown, factor, window)
      : null;
  const plain = rolled ?? value;
  const empty: MeterMend | null =
    entry.kind === 'service' ? null : { how: 'empty', value: null, words: 'leave it empty' };
  const mend = plain ?? empty;
  return {
    key: entry.key,
    reasons: [reasonFor(meter, stand, plain, window)],
    mend: year ?? (mend === null ? null : { ...mend, field: meter }),
  };
}

const factorOf = (entry: CheckRecord, meter: MeterName) =>
  entry.odometerUnit === 'mi' && meter === 'odometerKm' ? kmPerMile : 1;

/** A last value that no rule forbids, but that fits the unit's pace only in the other unit of distance. */
function strayEnds(kept: readonly Stand[], gain: number | null): Stand[] {
  const last = kept[kept.length - 1];
  const before = kept[kept.length - 2];
  if (
    gain === null ||
    gain <= 0 ||
    last === undefined ||
    before === undefined ||
    last.entry === null ||
    kept.length < 7
  )
    return [];
  const days = last.day - before.day;
  if (days < 1 || last.stretch !== before.stretch) return [];
  const pace = (last.value - before.value) / days;
  const other =
    (last.value * (last.entry.odometerUnit === 'mi' ? 1 / kmPerMile : kmPerMile) - before.value) / days;
  return pace > 4 * gain && other > 0.1 * gain && other < 2.5 * gain ? [last] : [];
}

/** Checks one meter of a unit; a finding's key tells whether a new or an earlier record is meant. */
export function checkMeter(
  meter: MeterName,
  span: UnitSpan,
  existing: readonly CheckRecord[],
  fresh: readonly CheckRecord[],
): HeldRecord[] {
  const { rule } = meterWords[meter];
  const all = [...existing, ...fresh];
  const events = meter === 'odometerKm' || meter === 'engineHoursH' ? meterEvents(meter, all) : [];
  const build = (scale: ReadonlyMap<string, number>) => standsOf(meter, span, existing, fresh, events, scale);
  let stands = build(new Map());
  let kept = keptOf(stands, rule);
  const findings: HeldRecord[] = [];
  const otherUnit = sourcesInOtherUnit(meter, build, fresh, stands.length - kept.size);
  if (otherUnit.size > 0) {
    for (const stand of stands) {
      const factor = stand.entry === null ? undefined : otherUnit.get(stand.entry.source);
      if (stand.entry === null || factor === undefined || !fresh.includes(stand.entry)) continue;
      const found = `all odometer values of ${stand.entry.source} fit only in ${factor > 1 ? 'miles' : 'kilometers'}`;
      findings.push({
        key: stand.entry.key,
        reasons: [reason('odometer_unit', meter, found)],
        mend: {
          how: 'unit',
          field: meter,
          value: Number((stand.shown * factor).toPrecision(10)),
          words: found,
        },
      });
    }
    stands = stands.filter(
      ({ entry }) => entry === null || !otherUnit.has(entry.source) || !fresh.includes(entry),
    );
    kept = keptOf(stands, rule);
  }
  const run = stands.filter((stand) => kept.has(stand));
  const gain = typicalGain(run);
  if (meter === 'odometerKm') for (const stray of strayEnds(run, gain)) kept.delete(stray);
  // Values after a rollover can be the many, but they are the ones that take the turn.
  const odd = stands.filter((stand) => !kept.has(stand));
  const scaleOf = odd[0]?.entry ?? null;
  const isTurned =
    meter === 'odometerKm' &&
    scaleOf !== null &&
    isRollover(odd, run, factorOf(scaleOf, meter), gain, rule) &&
    run.every(({ entry }) => entry !== null);
  if (isTurned) kept = new Set(odd);
  const keptRun = stands.filter((stand) => kept.has(stand));
  const left = stands.filter((stand) => !kept.has(stand));
  const isReplaceable = events.length === 0 && (meter === 'odometerKm' || meter === 'engineHoursH');
  const replaced = isReplaceable ? newMeterRun(keptRun, left, rule) : null;
  for (const stand of left) {
    const finding = heldFor(meter, stand, keptRun, gain);
    if (finding === null) continue;
    const isMended = finding.mend?.how === 'rollover' || finding.mend?.how === 'date';
    findings.push(
      replaced === null || isMended ? finding : { ...finding, mend: { ...replaced, field: meter } },
    );
  }
  return findings;
}
