import type { DueDates } from '../decisions/duedates.ts';
import type { Measurand } from '../oil/condemningLimits.ts';
import { isoFromDay } from '../schema/day.ts';
import type { OilView } from './assessOil.ts';
import type { JudgedSample, JudgedValue } from './judgeSample.ts';
import { measurandWords } from './measurandWords.ts';

/** What the newest sample of the oil in the engine asks for. */
export interface SampleEffect {
  readonly judged: JudgedSample;
  /** the oil has to come out now: absolute limits that a change answers */
  readonly condemns: boolean;
  /** in words, for the call */
  readonly cautions: readonly string[];
}

/** The newest judged sample of the charge now running, or null. */
export function newestOfRunning(samples: readonly JudgedSample[]): JudgedSample | null {
  return samples.findLast(({ sampled }) => sampled !== null && sampled.charge.running) ?? null;
}

/** Warnings whose cause stays when the oil is changed. */
const lasting: ReadonlySet<string> = new Set(['fuel_source', 'water_source', 'coolant', 'dirt']);

/**
 * What the sample of the oil drained last still says of the oil now in: fuel, water, coolant and dirt come back until
 * their source is found, and the change hides them. Nothing once a newer sample is there.
 */
export function lastingCautions(samples: readonly JudgedSample[]): string[] {
  const newest = samples.at(-1);
  const sampled = newest?.sampled ?? null;
  if (newest === undefined || sampled === null || sampled.charge.running) return [];
  return newest.warnings
    .filter(({ code }) => lasting.has(code))
    .map(({ words }) => `sample of ${newest.sample.sampledOn}, of the oil drained since: ${words}`);
}

/**
 * Fuel comes to an equilibrium within days, and so does viscosity lost to it or to shear: a change does not cure them,
 * so they ask for their source and never bring the due date near. Oil that thickened is worn out.
 */
function changeAnswers({ measurand, absolute }: JudgedValue, thin: boolean): boolean {
  if (absolute?.level !== 'condemn') return false;
  return measurand !== 'fuelPercent' && !(measurand === 'kv100' && thin);
}

/**
 * What a sample does at once. Past an absolute condemning limit the oil is due now. The fleet's own alarm limits tell
 * what is unusual among like samples; what is unusual is looked into, and no oil is condemned by them alone.
 * @param freshKv100 of the oil put in, mm²/s
 */
export function sampleEffect(judged: JudgedSample, freshKv100: number): SampleEffect {
  const on = judged.sample.sampledOn;
  const condemning: string[] = [];
  const cautions: string[] = judged.warnings.map(({ words }) => `sample of ${on}: ${words}`);
  const said = new Set(judged.warnings.map(({ code }) => code));
  for (const value of judged.values) {
    const { measurand, absolute, fleet } = value;
    if (changeAnswers(value, measurand === 'kv100' && value.value < freshKv100))
      condemning.push(shown(measurand, value.value));
    else if (absolute !== null && absolute.level !== 'normal' && !covered(measurand, said))
      cautions.push(`sample of ${on}: ${absolute.words}`);
    if (
      fleet !== null &&
      (fleet.level === 'alert' || fleet.level === 'condemn') &&
      absolute?.level !== 'condemn'
    )
      cautions.push(
        `sample of ${on}: ${measurandWords[measurand].label} ${Number(fleet.value.toPrecision(2))} ${fleet.limit.unit} is above ${Number(fleet.limit[fleet.level].toPrecision(2))}, the ${fleet.level} level of ${fleet.limit.samples} like samples (${fleet.population}): look for the source`,
      );
  }
  return {
    judged,
    condemns: condemning.length > 0,
    cautions: [
      ...(condemning.length > 0
        ? [`sample of ${on} condemns the oil (${condemning.join(', ')}): change it and find the source`]
        : []),
      ...cautions,
    ],
  };
}

const shown = (measurand: Measurand, value: number): string => {
  const { label, unit } = measurandWords[measurand];
  return `${label} ${value} ${unit}`;
};

/** A warning that was given already says it. */
function covered(measurand: Measurand, said: ReadonlySet<string>): boolean {
  if (measurand === 'fuelPercent') return said.has('fuel_source');
  if (measurand === 'waterPercent') return said.has('water_source');
  if (measurand === 'sodiumPpm' || measurand === 'potassiumPpm') return said.has('coolant');
  return false;
}

/** The oil view of a unit whose oil a sample condemns: due now, whatever the interval would have allowed. */
export function dueNow(
  oil: OilView,
  asOfDay: number,
  odometerKm: number | null,
  engineHours: number | null,
): OilView {
  const before = oil.due;
  const dueDay = Math.min(asOfDay, before?.dueDay ?? asOfDay);
  const dueOn = isoFromDay(dueDay);
  const due: DueDates = {
    dueDay,
    earliestDay: dueDay,
    latestDay: dueDay,
    dueOn,
    earliestOn: dueOn,
    latestOn: dueOn,
    chancePastNow: 1,
    weeklyProbability: (before?.weeklyProbability ?? new Array<number>(13).fill(0)).map(() => 0),
    laterProbability: 0,
    governing: 'oil_sample',
    reasons: [],
  };
  const least = (own: number | null, now: number | null): number | null =>
    now === null ? own : own === null ? Math.round(now) : Math.min(own, Math.round(now));
  return {
    ...oil,
    due,
    assessment: {
      ...oil.assessment,
      dueOn,
      dueOnEarliest: dueOn,
      dueOnLatest: dueOn,
      dueOdometerKm: least(oil.assessment.dueOdometerKm, odometerKm),
      dueEngineHours: least(oil.assessment.dueEngineHours, engineHours),
    },
  };
}
