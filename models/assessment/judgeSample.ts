import type { UnitTimeline } from '../oil/charge.ts';
import { comparableBaseNumber, isIncomparableMethod } from '../oil/baseNumberMethod.ts';
import type { CondemningLimits, Measurand } from '../oil/condemningLimits.ts';
import { noiseSd } from '../oil/expectedMeasurand.ts';
import type { OilEngine, OilFill } from '../oil/exposure.ts';
import { reportedValue, sampleLevels, sampleVerdicts, type SampleLevel } from '../oil/sampleVerdicts.ts';
import { sampleWarnings, type SampleWarning } from '../oil/sampleWarnings.ts';
import { stayInGrade } from '../oil/stayInGrade.ts';
import type { KnownFill, OilCatalog } from '../oil/oilFill.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso } from '../schema/day.ts';
import type { Sourced, UnitHistory } from '../schema/history.ts';
import type { Sample } from '../schema/sample.ts';
import type { FillOf } from '../wear/segments.ts';
import {
  alarmValue,
  oilName,
  populationFor,
  type FleetAlarms,
  type PopulationLimit,
} from './alarmPopulations.ts';
import { requiredOilOf, type FillReader } from './fillsOfUnit.ts';
import { measurandWords } from './measurandWords.ts';
import { chargeOfSample, type SampledCharge } from './sampleCharge.ts';

/** One value judged by the absolute limits and by the fleet's own. */
export interface JudgedValue {
  readonly measurand: Measurand;
  readonly value: number;
  /** the worse of both */
  readonly level: SampleLevel;
  readonly absolute: { readonly level: SampleLevel; readonly words: string; readonly source: string } | null;
  readonly fleet: {
    readonly level: SampleLevel;
    readonly value: number;
    readonly limit: PopulationLimit;
    readonly population: string;
  } | null;
}

/** A sample judged. */
export interface JudgedSample {
  readonly sample: Sourced<Sample>;
  readonly sampled: SampledCharge | null;
  readonly level: SampleLevel;
  readonly values: readonly JudgedValue[];
  readonly warnings: readonly SampleWarning[];
  /** what was left out, and why */
  readonly notes: readonly string[];
}

/** What samples of one unit are judged with. */
export interface JudgeInputs {
  readonly history: UnitHistory;
  readonly timeline: UnitTimeline;
  readonly fillOf: FillOf;
  readonly readFill: FillReader;
  readonly oilCatalog: OilCatalog;
  readonly limits: CondemningLimits;
  readonly alarms: FleetAlarms;
  readonly coefficients: Coefficients;
}

/** The worst of some levels; none → normal. */
export function worstLevel(levels: readonly SampleLevel[]): SampleLevel {
  return levels.reduce<SampleLevel>(
    (worst, next) => (sampleLevels.indexOf(next) > sampleLevels.indexOf(worst) ? next : worst),
    'normal',
  );
}

/** A population in words. */
export function populationName(engineFamily: string, breakIn: boolean): string {
  return breakIn ? `${engineFamily}, first drains after engine or cover work` : engineFamily;
}

/** All samples of a unit, judged, oldest first. */
export function judgeSamples(inputs: JudgeInputs): readonly JudgedSample[] {
  return inputs.history.samples
    .filter(({ sampledOn }) => dayFromIso(sampledOn) <= inputs.timeline.asOfDay)
    .map((sample) => judgeSample(sample, inputs));
}

/**
 * Judges one sample by the absolute limits and by those of like samples. A sample without a charge of the records is
 * shown with the reason, and only glycol is said of it: nothing says what its values are to be compared with.
 */
export function judgeSample(reported: Sourced<Sample>, inputs: JudgeInputs): JudgedSample {
  const { history, timeline, fillOf, readFill, limits, alarms, coefficients: c } = inputs;
  const sampled = chargeOfSample(timeline, reported, c['sample.fresh_km']);
  if (sampled === null)
    return {
      sample: reported,
      sampled,
      level: 'normal',
      values: [],
      warnings: sampleWarnings(reported, [], null, [], c).filter(({ code }) => code === 'coolant'),
      notes: ['no oil charge on record covers the day of this sample: its values are not judged'],
    };
  const { charge } = sampled;
  const { fill, engine } = fillOf(charge);
  const { sample, notes } = withoutIncomparable(reported, fill, engine, c);
  const named = oilName(charge.grade, charge.category);
  const known = readFill(charge.grade, charge.category, requiredOilOf(history.engine));
  const verdicts = sampleVerdicts(
    { ...sample, oilKm: sampled.oilKm },
    {
      fill,
      engine,
      topUpLiters: sampled.topUpLiters,
      freshSiliconPpm: c['sample.fresh_silicon_ppm'],
      breakIn: charge.breakIn,
    },
    limits,
    c,
  );
  const population = populationFor(alarms, history.engine?.engineFamily ?? null, charge.breakIn);
  const values: JudgedValue[] = [];
  for (const measurand of Object.keys(measurandWords) as Measurand[]) {
    const value = reportedValue(sample, measurand);
    if (value === null) continue;
    const verdict = verdicts.find((entry) => entry.measurand === measurand) ?? null;
    const limit = population?.limits.find((entry) => entry.measurand === measurand) ?? null;
    const compared = alarmValue(sample, measurand, sampled, engine.sumpLiters, c);
    const fleet =
      population === null || limit === null || compared === null
        ? null
        : {
            level: levelBy(compared, limit),
            value: compared,
            limit,
            population: populationName(population.engineFamily, population.breakIn),
          };
    const limited =
      verdict === null ? null : { level: verdict.level, words: verdict.words, source: verdict.source };
    const absolute = measurand === 'kv100' ? withGrade(limited, value, known, fill, inputs) : limited;
    values.push({
      measurand,
      value,
      level: worstLevel([absolute?.level ?? 'normal', fleet?.level ?? 'normal']),
      absolute,
      fleet,
    });
  }
  return {
    sample: reported,
    sampled,
    level: worstLevel(values.map(({ level }) => level)),
    values,
    warnings: sampleWarnings(
      sample,
      verdicts,
      named === null ? null : (alarms.freshMetals.get(named) ?? null),
      known.inferred.includes('category') ? [] : known.categories,
      c,
    ),
    notes,
  };
}

type Absolute = NonNullable<JudgedValue['absolute']>;

const levelOfGrade = { in_grade: 'normal', caution: 'caution', condemn: 'condemn' } as const;

/** The verdict on viscosity with the stay-in-grade test against the grade on the record; the worse of both counts. */
function withGrade(
  limited: Absolute | null,
  kv100: number,
  { grade, inferred }: KnownFill,
  fill: OilFill,
  { oilCatalog, coefficients: c }: Pick<JudgeInputs, 'oilCatalog' | 'coefficients'>,
): Absolute | null {
  if (inferred.includes('grade')) return limited;
  const tested = stayInGrade(kv100, grade, fill.kv100, oilCatalog.grades, c);
  const level = levelOfGrade[tested.verdict];
  if (limited === null) return { level, words: tested.words, source: 'SAE J300' };
  return {
    level: worstLevel([limited.level, level]),
    words: `${limited.words} ${tested.words}`,
    source: `${limited.source}; SAE J300`,
  };
}

/** A value against alarm limits: above a level is past it. */
export function levelBy(
  value: number,
  limit: Pick<PopulationLimit, 'caution' | 'alert' | 'condemn'>,
): SampleLevel {
  if (value > limit.condemn) return 'condemn';
  if (value > limit.alert) return 'alert';
  return value > limit.caution ? 'caution' : 'normal';
}

/** Takes a base number out that cannot be compared: by a method of another scale, or above that of the new oil. */
function withoutIncomparable(
  sample: Sourced<Sample>,
  fill: OilFill,
  engine: OilEngine,
  c: Coefficients,
): { sample: Sourced<Sample>; notes: string[] } {
  const { baseNumberMgKohG: base, baseNumberMethod: method } = sample;
  if (base === null) return { sample, notes: [] };
  const without = { ...sample, baseNumberMgKohG: null };
  if (isIncomparableMethod(method))
    return {
      sample: without,
      notes: [
        `base number ${base} is by ${method}, which is not compared with D2896 or D4739: it is not judged`,
      ],
    };
  const comparable = comparableBaseNumber(base, method, c);
  const error = Math.hypot(
    comparable.methodSd,
    noiseSd('baseNumber', base, { methodKnown: true, sampleKmKnown: true }, c),
    c['sample.typical_base_number_sd'],
  );
  // 2 standard deviations: what the error explains is kept and judged
  if (engine.fuelSystem !== 'gas' && comparable.value > fill.baseNumber + 2 * error)
    return {
      sample: without,
      notes: [
        `base number ${base} is above that of the new oil (about ${fill.baseNumber}) by more than its error: another oil is in, or samples were mixed up; it is not judged`,
      ],
    };
  return { sample, notes: [] };
}
