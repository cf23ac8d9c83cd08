import { comparableBaseNumber } from '../oil/baseNumberMethod.ts';
import type { CondemningLimits, Measurand } from '../oil/condemningLimits.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { FleetSamples, PopulationView } from '../schema/sampleView.ts';
import type { UnitHistory } from '../schema/history.ts';
import { alarmValue, type AlarmPopulation, type FleetAlarms } from './alarmPopulations.ts';
import { oilEngineOf } from './fillsOfUnit.ts';
import { populationName, type JudgedSample, type JudgedValue } from './judgeSample.ts';
import { measurandWords } from './measurandWords.ts';
import { round } from './round.ts';
import type { UnitView } from './unitView.ts';

/** Compared with the fresh oil, so that samples of different oils stand on one scale. */
const sharesOfFresh: ReadonlySet<Measurand> = new Set(['baseNumber', 'kv100']);
const mostSamples = 5000;

function unitOf(measurand: Measurand): string {
  if (sharesOfFresh.has(measurand)) return '% of fresh';
  const { alarm, unit } = measurandWords[measurand];
  return alarm === 'per_1000_km' ? 'ppm per 1000 km' : unit;
}

const known = (km: number | null): number | null => (km === null ? null : round(km, 4));

/** A value on the scale that the fleet's page plots; null where it can't be brought there. */
function plotted(view: UnitView, judged: JudgedSample, value: JudgedValue, c: Coefficients): number | null {
  const { sample, sampled } = judged;
  if (sampled === null) return null;
  const { measurand } = value;
  const { fill, engine } = view.fillOf(sampled.charge);
  if (measurand === 'baseNumber')
    return (100 * comparableBaseNumber(value.value, sample.baseNumberMethod, c).value) / fill.baseNumber;
  if (measurand === 'kv100') return (100 * value.value) / fill.kv100;
  return measurandWords[measurand].alarm === 'per_1000_km'
    ? alarmValue(sample, measurand, sampled, engine.sumpLiters, c)
    : value.value;
}

function populationView({ engineFamily, breakIn, samples, limits }: AlarmPopulation): PopulationView {
  return {
    name: populationName(engineFamily, breakIn),
    engineFamily,
    breakIn,
    samples,
    limits: limits.map((limit) => ({
      measurand: limit.measurand,
      label: measurandWords[limit.measurand].label,
      unit: limit.unit,
      caution: round(limit.caution, 3),
      alert: round(limit.alert, 3),
      condemn: round(limit.condemn, 3),
      samples: limit.samples,
      provisional: limit.provisional,
    })),
  };
}

/** One line of the fleet's samples. */
export type SampleLine = FleetSamples['samples'][number];

/** The judged samples of one unit as the fleet's page plots them. Plain data. */
export function unitSampleLines(view: UnitView, coefficients: Coefficients): readonly SampleLine[] {
  return view.samples.map((judged): SampleLine => ({
    unitNumber: view.history.unit.unitNumber,
    engineFamily: view.history.engine?.engineFamily ?? null,
    on: judged.sample.sampledOn,
    recordId: judged.sample.source.id,
    oilKm: known(judged.sampled?.oilKm ?? null),
    running: judged.sampled?.charge.running ?? false,
    breakIn: judged.sampled?.charge.breakIn ?? false,
    level: judged.level,
    warnings: judged.warnings.map(({ code }) => code),
    values: judged.values.flatMap((value) => {
      const shown = plotted(view, judged, value, coefficients);
      return shown === null
        ? []
        : [{ measurand: value.measurand, value: round(shown, 3), level: value.level }];
    }),
  }));
}

/** What the fleet's samples are shown with beside their lines. */
export interface SampledFleet {
  /** ISO date */
  readonly asOf: string;
  /** units in service */
  readonly units: readonly Pick<UnitHistory, 'engine'>[];
  readonly alarms: FleetAlarms;
}

/** Every judged sample of units in service, newest first, with the limits that it was judged by. */
export function fleetSamplesOf(
  lines: readonly SampleLine[],
  { asOf, units, alarms }: SampledFleet,
  limits: CondemningLimits,
  coefficients: Coefficients,
): FleetSamples {
  const samples = [...lines].sort((a, b) => (a.on === b.on ? a.recordId - b.recordId : a.on < b.on ? 1 : -1));
  const measured = new Set(samples.flatMap(({ values }) => values.map(({ measurand }) => measurand)));
  const fuelSystems = new Map(
    units.flatMap(({ engine }) =>
      engine === null ? [] : [[engine.engineFamily, oilEngineOf(engine, coefficients).fuelSystem] as const],
    ),
  );
  return {
    asOf,
    leastSamples: coefficients['oil.alarm_least_samples'],
    leftOff: Math.max(0, samples.length - mostSamples),
    populations: alarms.populations.map(populationView),
    measurands: (Object.keys(measurandWords) as Measurand[])
      .filter((measurand) => measured.has(measurand))
      .map((measurand) => ({
        measurand,
        label: measurandWords[measurand].label,
        unit: unitOf(measurand),
        limits: limits
          .filter(
            (limit) =>
              limit.measurand === measurand &&
              limit.basis === (sharesOfFresh.has(measurand) ? 'share_of_fresh' : 'absolute') &&
              measurandWords[measurand].alarm !== 'per_1000_km',
          )
          .flatMap((limit) =>
            (['caution', 'condemn'] as const).map((level) => ({
              level,
              side: limit.side,
              value: round(limit[level] * (sharesOfFresh.has(measurand) ? 100 : 1), 3),
              families:
                limit.fuelSystems === null
                  ? null
                  : [...fuelSystems]
                      .filter(([, system]) => limit.fuelSystems?.includes(system) === true)
                      .map(([family]) => family),
            })),
          ),
      })),
    samples: samples.slice(0, mostSamples),
  };
}
