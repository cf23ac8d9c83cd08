import type { OilCharge, UnitTimeline } from '../oil/charge.ts';
import { oilCondition, partOfExposure } from '../oil/condition.ts';
import type { OilState } from '../oil/exposure.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso } from '../schema/day.ts';
import type { Sourced, UnitHistory } from '../schema/history.ts';
import type { Sample } from '../schema/sample.ts';
import type { Evidence } from './evidence.ts';
import { latent, ratesOf } from './latents.ts';
import { oilStep } from './response.ts';
import type { Response } from './response.ts';

type OilValue = 'baseNumber' | 'acidNumber' | 'kv100' | 'fuelPercent' | 'sootPercent' | 'oxidation';

/** The rates that samples speak of, in the order of the runs. */
export const oilRates = ['base', 'baseNumberLife', 'oxidation', 'fuel', 'soot'] as const;
/** The oil at a sample's moment: at the base rates, and with each rate one step up. */
type OilRuns = Readonly<Record<(typeof oilRates)[number], OilState>>;

/** A distance on the oil that differs by more than this share from the timeline's tells of another drain. */
const otherOilShare = 0.3;

/** The samples of a unit as evidence on its oil; metals as weak evidence on the chain. */
export function sampleEvidence(
  history: UnitHistory,
  timeline: UnitTimeline,
  response: Response,
  segmentAt: (day: number) => number,
  coefficients: Coefficients,
): readonly Evidence[] {
  const found: Evidence[] = [];
  for (const sample of history.samples) {
    const segment = segmentAt(dayFromIso(sample.sampledOn));
    if (segment < 0 || response.segments[segment].chargeIndex < 0) continue;
    found.push(...evidenceOfSample(sample, segment, timeline, response, coefficients));
  }
  return found;
}

function evidenceOfSample(
  sample: Sourced<Sample>,
  segment: number,
  timeline: UnitTimeline,
  response: Response,
  c: Coefficients,
): readonly Evidence[] {
  const { fill } = response.segments[segment].fillAndEngine;
  const charge = timeline.charges[response.segments[segment].chargeIndex];
  const runs = oilRunsAt(sample, segment, charge, timeline, response, c);
  if (runs === null) return [];
  const at = runs.base;
  const distanceDoubt = sample.oilKm === null ? c['evidence.oil_distance_unknown_sd'] : 0;
  const usage = Math.max(charge.spread.distance, 0.5 * charge.spread.idleHours);
  const scatter = Math.hypot(c['evidence.charge_log_sd'], distanceDoubt, usage);
  const list: Evidence[] = [];
  const add = (value: OilValue, words: string, observed: number | null, sd: number, shift = 0): void => {
    if (observed !== null)
      list.push(oilEvidence(sample, segment, response, runs, value, words, observed, sd, shift));
  };
  const usedTest = /4739/.test(sample.baseNumberMethod ?? '');
  add(
    'baseNumber',
    'base number',
    sample.baseNumberMgKohG,
    Math.hypot(
      c['evidence.base_number_sd'],
      scatter * Math.max(0, fill.baseNumber - at.baseNumber),
      usedTest ? c['evidence.method_offset_sd'] : 0,
    ),
    usedTest ? c['evidence.method_offset'] : 0,
  );
  add(
    'acidNumber',
    'acid number',
    sample.acidNumberMgKohG,
    Math.hypot(
      Math.max(
        c['evidence.acid_number_sd'],
        c['evidence.acid_number_relative_sd'] * (sample.acidNumberMgKohG ?? 0),
      ),
      scatter * Math.max(0, at.acidNumber - fill.acidNumber),
    ),
  );
  add('kv100', 'viscosity at 100 °C', sample.kv100Mm2S, c['evidence.viscosity_relative_sd'] * at.kv100);
  add(
    'fuelPercent',
    'fuel',
    sample.fuelPercent,
    Math.hypot(c['evidence.fuel_sd'], c['evidence.fuel_relative_sd'] * at.fuelPercent),
  );
  add(
    'sootPercent',
    'soot',
    sample.sootPercent,
    Math.hypot(c['evidence.soot_sd'], (c['evidence.soot_relative_sd'] + scatter) * at.sootPercent),
  );
  add(
    'oxidation',
    'oxidation',
    sample.oxidationACm,
    Math.hypot(c['evidence.oxidation_sd'], scatter * at.oxidation),
  );
  return list;
}

function oilRunsAt(
  sample: Sourced<Sample>,
  segment: number,
  charge: OilCharge,
  timeline: UnitTimeline,
  response: Response,
  c: Coefficients,
): OilRuns | null {
  const day = dayFromIso(sample.sampledOn);
  const done = response.segments[segment].endsCharge
    ? charge.exposure.distanceKm
    : timeline.exposureBetween(charge.startDay, day).distanceKm;
  const told = sample.oilKm;
  const other = told !== null && told > 0 && Math.abs(told - done) > otherOilShare * Math.max(told, done);
  if (other && charge.exposure.distanceKm > 0) {
    // the laboratory's distance on the oil comes first: the drain it tells of is not in the records
    const exposure = partOfExposure(charge.exposure, told / charge.exposure.distanceKm);
    const { fill, engine } = response.segments[segment].fillAndEngine;
    const runAt = (index: number | null): OilState => {
      const moved = response.base.slice();
      if (index !== null) moved[index] += oilStep;
      return oilCondition(exposure, engine, fill, ratesOf(moved), c).state;
    };
    return {
      base: runAt(null),
      baseNumberLife: runAt(latent.baseNumberLife),
      oxidation: runAt(latent.oxidation),
      fuel: runAt(latent.fuel),
      soot: runAt(latent.soot),
    };
  }
  const runs: Partial<Record<(typeof oilRates)[number], OilState>> = {};
  for (const rate of oilRates) {
    const state = response.oilRuns[rate]?.[segment] ?? null;
    if (state === null) return null;
    runs[rate] = state;
  }
  return runs as OilRuns;
}

function oilEvidence(
  sample: Sourced<Sample>,
  segment: number,
  response: Response,
  runs: OilRuns,
  value: OilValue,
  words: string,
  observed: number,
  sd: number,
  shift: number,
): Evidence {
  const at = Math.max(1e-6, runs.base[value]);
  const slope = (run: OilState): number => Math.log(Math.max(1e-6, run[value]) / at) / oilStep;
  const byLife = slope(runs.baseNumberLife);
  const byOxidation = slope(runs.oxidation);
  const byFuel = slope(runs.fuel);
  const bySoot = slope(runs.soot);
  const { base } = response;
  return {
    day: dayFromIso(sample.sampledOn),
    segment,
    state: 'oil',
    words: `sample: ${words} ${observed}`,
    observed,
    recordId: sample.source.id,
    bank: null,
    teaches: 'looks',
    likelihood: { kind: 'measured', value: observed, sd },
    expect: (_states, unknowns) =>
      shift +
      at *
        Math.exp(
          byLife * (unknowns[latent.baseNumberLife] - base[latent.baseNumberLife]) +
            byOxidation * (unknowns[latent.oxidation] - base[latent.oxidation]) +
            byFuel * (unknowns[latent.fuel] - base[latent.fuel]) +
            bySoot * (unknowns[latent.soot] - base[latent.soot]),
        ),
  };
}
