import { cumulativeAlarmLimits, nearestRank, type AlarmLimits, type AlarmRule } from '../oil/alarmLimits.ts';
import type { UnitTimeline } from '../oil/charge.ts';
import { limitsFor, type CondemningLimits, type Measurand } from '../oil/condemningLimits.ts';
import { metalRate } from '../oil/metalRate.ts';
import { reportedValue } from '../oil/sampleVerdicts.ts';
import type { AdditiveMetals } from '../oil/sampleWarnings.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { UnitHistory } from '../schema/history.ts';
import type { Sample } from '../schema/sample.ts';
import type { FillOf } from '../wear/segments.ts';
import { measurandWords } from './measurandWords.ts';
import { chargeOfSample, type SampledCharge } from './sampleCharge.ts';

/** Alarm limits of one measurand in one population, with the middle of what was found. */
export interface PopulationLimit extends AlarmLimits {
  readonly measurand: Measurand;
  readonly unit: string;
  /** 10th, 50th and 90th percentile of the samples */
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/** Like samples: of one engine family, apart for the first drains after engine or cover work. */
export interface AlarmPopulation {
  readonly engineFamily: string;
  readonly breakIn: boolean;
  readonly samples: number;
  /** only where there are samples enough to start with */
  readonly limits: readonly PopulationLimit[];
}

/** What the fleet's own samples teach. */
export interface FleetAlarms {
  readonly populations: readonly AlarmPopulation[];
  /** additive metals of new oil by {@link oilName}, from samples of oil that had hardly run */
  readonly freshMetals: ReadonlyMap<string, AdditiveMetals>;
}

/** One unit's samples, for the fleet's limits. */
export interface SampledUnit {
  readonly history: UnitHistory;
  readonly timeline: UnitTimeline;
  readonly fillOf: FillOf;
}

/** Grade and category as recorded, as one name; null when no grade is recorded. */
export function oilName(grade: string | null, category: string | null): string | null {
  return grade === null ? null : [grade, category ?? ''].join('|').trim().toLowerCase();
}

/** The shares and numbers of samples of the catalog. */
export function alarmRuleOf(c: Coefficients): AlarmRule {
  return {
    cautionShare: c['oil.alarm_caution_share'],
    alertShare: c['oil.alarm_alert_share'],
    condemnShare: c['oil.alarm_condemn_share'],
    leastSamples: c['oil.alarm_least_samples'],
    trustedSamples: c['oil.alarm_trusted_samples'],
  };
}

/**
 * The value that alarm limits of a measurand are set on: wear metals in ppm per 1000 km, corrected for make-up oil and,
 * for silicon, for the new oil; others as reported; null where it is not known or has no alarm limits.
 */
export function alarmValue(
  sample: Sample,
  measurand: Measurand,
  { oilKm, topUpLiters }: SampledCharge,
  sumpLiters: number,
  c: Coefficients,
): number | null {
  const value = reportedValue(sample, measurand);
  const { alarm } = measurandWords[measurand];
  if (value === null || alarm === 'no') return null;
  if (alarm === 'as_reported') return value;
  const fresh = measurand === 'siliconPpm' ? c['sample.fresh_silicon_ppm'] : 0;
  return oilKm === null || oilKm <= c['sample.fresh_km']
    ? null
    : metalRate(value, oilKm, topUpLiters, sumpLiters, fresh).ppmPer1000Km;
}

interface Gathered {
  readonly engineFamily: string;
  readonly breakIn: boolean;
  readonly fuelSystem: Parameters<typeof limitsFor>[1];
  samples: number;
  readonly values: Map<Measurand, number[]>;
}

/**
 * Alarm limits by engine family from all samples of the fleet, units that left included (ASTM D7720, cumulative
 * distribution). Absolute limits of values as reported are never loosened but in the break-in population; those of wear
 * metals are in ppm and judge beside the limits per 1000 km. The order of units and samples does not matter.
 */
export function fleetAlarms(
  units: readonly SampledUnit[],
  limits: CondemningLimits,
  c: Coefficients,
): FleetAlarms {
  const gathered = new Map<string, Gathered>();
  const fresh = new Map<string, Map<keyof AdditiveMetals, number[]>>();
  for (const { history, timeline, fillOf } of units)
    for (const sample of history.samples) {
      const sampled = chargeOfSample(timeline, sample, c['sample.fresh_km']);
      if (sampled === null) continue;
      if (sample.oilKm !== null && sample.oilKm <= c['sample.fresh_km'])
        addFresh(fresh, sample, oilName(sampled.charge.grade, sampled.charge.category));
      const family = history.engine?.engineFamily ?? null;
      if (family === null) continue;
      const { engine } = fillOf(sampled.charge);
      const { breakIn } = sampled.charge;
      const key = `${family}|${breakIn}`;
      const own = gathered.get(key) ?? {
        engineFamily: family,
        breakIn,
        fuelSystem: engine.fuelSystem,
        samples: 0,
        values: new Map<Measurand, number[]>(),
      };
      gathered.set(key, own);
      own.samples += 1;
      for (const measurand of Object.keys(measurandWords) as Measurand[]) {
        const value = alarmValue(sample, measurand, sampled, engine.sumpLiters, c);
        if (value === null) continue;
        const list = own.values.get(measurand) ?? [];
        list.push(value);
        own.values.set(measurand, list);
      }
    }
  const rule = alarmRuleOf(c);
  return {
    populations: [...gathered.values()]
      .map((own) => populationOf(own, limits, rule))
      .sort(
        (a, b) => a.engineFamily.localeCompare(b.engineFamily, 'en') || Number(a.breakIn) - Number(b.breakIn),
      ),
    freshMetals: new Map([...fresh].map(([name, metals]) => [name, medians(metals)])),
  };
}

function populationOf(own: Gathered, limits: CondemningLimits, rule: AlarmRule): AlarmPopulation {
  const { engineFamily, breakIn, samples, values } = own;
  const found: PopulationLimit[] = [];
  for (const [measurand, list] of values) {
    if (list.length < rule.leastSamples) continue;
    const { alarm, unit } = measurandWords[measurand];
    const absolute =
      alarm === 'as_reported'
        ? (limitsFor(measurand, own.fuelSystem, limits).find(({ basis }) => basis === 'absolute') ?? null)
        : null;
    const made = cumulativeAlarmLimits(list, absolute, breakIn, rule);
    if (made === null) continue;
    found.push({
      ...made,
      measurand,
      unit: alarm === 'per_1000_km' ? 'ppm per 1000 km' : unit,
      low: nearestRank(list, 0.1),
      middle: nearestRank(list, 0.5),
      high: nearestRank(list, 0.9),
    });
  }
  const order = Object.keys(measurandWords);
  found.sort((a, b) => order.indexOf(a.measurand) - order.indexOf(b.measurand));
  return { engineFamily, breakIn, samples, limits: found };
}

const additives = [
  'calciumPpm',
  'magnesiumPpm',
  'zincPpm',
  'phosphorusPpm',
  'boronPpm',
  'molybdenumPpm',
] as const;

function addFresh(
  fresh: Map<string, Map<keyof AdditiveMetals, number[]>>,
  sample: Sample,
  name: string | null,
): void {
  if (name === null) return;
  const metals = fresh.get(name) ?? new Map<keyof AdditiveMetals, number[]>();
  fresh.set(name, metals);
  for (const metal of additives) {
    const value = sample[metal];
    if (value !== null) metals.set(metal, [...(metals.get(metal) ?? []), value]);
  }
}

function medians(metals: ReadonlyMap<keyof AdditiveMetals, readonly number[]>): AdditiveMetals {
  return Object.fromEntries([...metals].map(([metal, values]) => [metal, nearestRank(values, 0.5)]));
}

/** The population that a sample belongs to, or null. */
export function populationFor(
  alarms: FleetAlarms,
  engineFamily: string | null,
  breakIn: boolean,
): AlarmPopulation | null {
  return (
    alarms.populations.find(
      (population) => population.engineFamily === engineFamily && population.breakIn === breakIn,
    ) ?? null
  );
}
