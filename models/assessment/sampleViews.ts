import type { CondemningLimit, CondemningLimits, Measurand } from '../oil/condemningLimits.ts';
import { limitsFor } from '../oil/condemningLimits.ts';
import { comparableBaseNumber } from '../oil/baseNumberMethod.ts';
import { modelledMeasurands, type ModelledMeasurand } from '../oil/expectedMeasurand.ts';
import type { OilEngine, OilFill } from '../oil/exposure.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso, isoFromDay } from '../schema/day.ts';
import type { MeasuredView, SampleCourse, SampleView } from '../schema/sampleView.ts';
import { populationFor, type FleetAlarms } from './alarmPopulations.ts';
import { expectedReading, oilOnDay, type ExpectedReading } from './expectedReading.ts';
import type { JudgedSample, JudgedValue } from './judgeSample.ts';
import { measurandWords } from './measurandWords.ts';
import { round } from './round.ts';
import { sampleTrend, trended, trendWords } from './sampleTrend.ts';
import type { UnitView } from './unitView.ts';

const isModelled = (measurand: Measurand): measurand is ModelledMeasurand =>
  (modelledMeasurands as readonly string[]).includes(measurand);

const known = (km: number | null): number | null => (km === null ? null : round(km, 4));

const rounded = ({ value, low, high }: ExpectedReading): ExpectedReading => ({
  value: round(value, 3),
  low: round(low, 3),
  high: round(high, 3),
});

/** Evidence of a sample that the wear models kept, but weighted down as far from what was expected. */
function countedLess(view: UnitView, judged: JudgedSample, measurand: Measurand): boolean {
  const { label } = measurandWords[measurand];
  return view.states.evidence.some(
    (entry) =>
      entry.recordId === judged.sample.source.id &&
      entry.weight < 0.5 &&
      entry.words.startsWith(`sample: ${label}`),
  );
}

/** The judged samples of a unit as its page shows them, newest first, each value beside what the model expects. */
export function sampleViews(view: UnitView, coefficients: Coefficients): SampleView[] {
  return view.samples
    .map((judged): SampleView => {
      const { sample, sampled } = judged;
      const oil =
        sampled === null
          ? null
          : oilOnDay(view, sampled.index, dayFromIso(sample.sampledOn), sample.oilKm, coefficients);
      const basis = { methodKnown: sample.baseNumberMethod !== null, sampleKmKnown: sample.oilKm !== null };
      const valueView = (value: JudgedValue): MeasuredView => {
        const { measurand, fleet } = value;
        const expected =
          oil === null || sampled === null || !isModelled(measurand)
            ? null
            : expectedReading(view, sampled.index, oil, measurand, basis, coefficients);
        return {
          measurand,
          label: measurandWords[measurand].label,
          value: value.value,
          unit: measurandWords[measurand].unit,
          level: value.level,
          absolute: value.absolute === null ? null : { ...value.absolute },
          fleet:
            fleet === null
              ? null
              : {
                  level: fleet.level,
                  value: round(fleet.value, 3),
                  unit: fleet.limit.unit,
                  caution: round(fleet.limit.caution, 3),
                  alert: round(fleet.limit.alert, 3),
                  condemn: round(fleet.limit.condemn, 3),
                  samples: fleet.limit.samples,
                  provisional: fleet.limit.provisional,
                  population: fleet.population,
                },
          expected: expected === null ? null : rounded(expected),
          countedLess: countedLess(view, judged, measurand),
        };
      };
      return {
        on: sample.sampledOn,
        recordId: sample.source.id,
        labNumber: sample.labNumber,
        oilKm: known(sampled?.oilKm ?? null),
        running: sampled?.charge.running ?? false,
        breakIn: sampled?.charge.breakIn ?? false,
        level: judged.level,
        values: judged.values.map(valueView),
        warnings: judged.warnings.map((warning) => ({ ...warning })),
        notes: [...judged.notes],
      };
    })
    .reverse();
}

/** Shown as measured points over the model's band. */
const charted = ['baseNumber', 'fuelPercent', 'sootPercent', 'oxidation', 'kv100'] as const;
/** Charges that a band is drawn for, the newest; and points of each. */
const mostCharges = 16;
const pointsPerCharge = 5;

/**
 * Measured points over the model's band for the charges since the first sample shown, and iron per 1000 km over what
 * like samples have.
 */
export function sampleCourses(
  view: UnitView,
  alarms: FleetAlarms,
  limits: CondemningLimits,
  coefficients: Coefficients,
): SampleCourse[] {
  const { timeline, samples } = view;
  const placed = samples.filter(({ sampled }) => sampled !== null);
  if (placed.length === 0) return [];
  const firstIndex = Math.max(placed[0].sampled?.index ?? 0, timeline.charges.length - mostCharges);
  const trends = new Map<Measurand, string>();
  for (const measurand of trended) {
    const trend = sampleTrend(view, placed, measurand, coefficients);
    if (trend !== null) trends.set(measurand, trendWords(trend));
  }
  const shown = placed.filter(({ sampled }) => (sampled?.index ?? -1) >= firstIndex);
  if (shown.length === 0) return [];
  const days: { index: number; day: number }[] = [];
  timeline.charges.forEach(({ startDay, endDay }, index) => {
    if (index < firstIndex || endDay <= startDay) return;
    for (let step = 0; step < pointsPerCharge; step += 1)
      days.push({
        index,
        day: Math.round(startDay + ((endDay - startDay) * step) / (pointsPerCharge - 1)),
      });
  });
  const oils = days.map((at) => ({ ...at, oil: oilOnDay(view, at.index, at.day, null, coefficients) }));
  const basis = { methodKnown: true, sampleKmKnown: true };
  const { fill, engine } = view.fillOf(timeline.charges[timeline.charges.length - 1]);
  const courses = charted.map((measurand): SampleCourse => ({
    measurand,
    label: measurandWords[measurand].label,
    unit: measurandWords[measurand].unit,
    words:
      measurand === 'baseNumber'
        ? 'what a laboratory should read by D2896; measured values by other methods are shifted to it'
        : 'what a laboratory should read, with the rates of this unit',
    trend: trends.get(measurand) ?? null,
    band: oils.map(({ index, day, oil }) => ({
      on: isoFromDay(day),
      ...rounded(expectedReading(view, index, oil, measurand, basis, coefficients)),
    })),
    measured: shown.flatMap((judged) => pointOf(judged, measurand, coefficients)),
    limits: limitValues(measurand, fill, engine, limits),
  }));
  return [...courses, { ...ironCourse(view, shown, alarms), trend: trends.get('ironPpm') ?? null }].filter(
    ({ measured }) => measured.length > 0,
  );
}

function pointOf(
  { sample, values }: JudgedSample,
  measurand: Measurand,
  coefficients: Coefficients,
): SampleCourse['measured'] {
  const found = values.find((value) => value.measurand === measurand);
  if (found === undefined) return [];
  const value =
    measurand === 'baseNumber'
      ? comparableBaseNumber(found.value, sample.baseNumberMethod, coefficients).value
      : found.value;
  return [{ on: sample.sampledOn, value: round(value, 3), level: found.level }];
}

/** Condemning limits of a measurand in the unit it is reported in. */
export function limitValues(
  measurand: Measurand,
  fill: OilFill,
  engine: OilEngine,
  limits: CondemningLimits,
): SampleCourse['limits'] {
  const valueOf = ({ basis }: CondemningLimit, bound: number): number | null => {
    if (basis === 'absolute') return bound;
    if (basis === 'above_fresh') return measurand === 'acidNumber' ? fill.acidNumber + bound : null;
    if (basis === 'share_of_fresh') return bound * (measurand === 'kv100' ? fill.kv100 : fill.baseNumber);
    return null;
  };
  const own = limitsFor(measurand, engine.fuelSystem, limits);
  const list: SampleCourse['limits'] = [];
  for (const side of ['min', 'max'] as const)
    for (const level of ['caution', 'condemn'] as const) {
      const bounds = own
        .filter((limit) => limit.side === side)
        .map((limit) => valueOf(limit, limit[level]))
        .filter((value) => value !== null);
      // the first limit that is met is the one that holds
      if (bounds.length > 0)
        list.push({ level, value: round(side === 'min' ? Math.max(...bounds) : Math.min(...bounds), 3) });
    }
  return list;
}

function ironCourse(
  view: UnitView,
  shown: readonly JudgedSample[],
  alarms: FleetAlarms,
): Omit<SampleCourse, 'trend'> {
  const family = view.history.engine?.engineFamily ?? null;
  const limit =
    populationFor(alarms, family, false)?.limits.find(({ measurand }) => measurand === 'ironPpm') ?? null;
  const measured = shown.flatMap(({ sample, values }) => {
    const iron = values.find(({ measurand }) => measurand === 'ironPpm');
    const fleet = iron?.fleet ?? null;
    return fleet === null ? [] : [{ on: sample.sampledOn, value: round(fleet.value, 3), level: fleet.level }];
  });
  const ends = measured.length === 0 ? [] : [...new Set([measured[0].on, isoFromDay(view.timeline.asOfDay)])];
  return {
    measurand: 'ironPpm',
    label: 'iron per 1000 km',
    unit: 'ppm per 1000 km',
    words:
      limit === null
        ? 'there are too few like samples for a band'
        : `the middle 80 % of ${limit.samples} samples of ${family}; iron has no model of its own`,
    band:
      limit === null
        ? []
        : ends.map((on) => ({
            on,
            value: round(limit.middle, 3),
            low: round(limit.low, 3),
            high: round(limit.high, 3),
          })),
    measured,
    limits:
      limit === null
        ? []
        : (['caution', 'alert', 'condemn'] as const).map((level) => ({
            level,
            value: round(limit[level], 3),
          })),
  };
}
