import { countInterval } from '../counts/countInterval.ts';
import { countMean, countQuantile } from '../counts/countSummary.ts';
import { mixCounts, poissonBinomial } from '../counts/poissonBinomial.ts';
import { gammaQuantile } from '../../numeric/gammaQuantile.ts';
import { normalQuantile } from '../../numeric/normal.ts';
import { normalDraw, seededRandom } from '../../numeric/random.ts';
import type { Random } from '../../numeric/random.ts';
import { pullToBaseRate } from './baseRatePull.ts';
import { compileAhead, hazardFromToday } from './compiledAhead.ts';
import type { CompiledAhead } from './compiledAhead.ts';
import { contributionsOf } from './contributions.ts';
import { checkEpisode } from './episode.ts';
import type { FleetFit, Ranged } from './fleetFit.ts';
import type { CountForecast, FleetForecast, ForecastRequest, UnitForecast } from './forecast.ts';
import type { LocalParameters } from './localParameters.ts';
import { failureBeforeRenewal, plannedRateAt } from './renewalPractice.ts';
import { fleetScaleAt, localParameters } from './structurePosterior.ts';
import { windowDays } from './trainingWindows.ts';
import { unitOwnShare } from './unitOwnShare.ts';
import { versionOf } from './versionOf.ts';

/**
 * Chances of failure over the use ahead for many units, with ranges from the draws of the fit and from the error of the use ahead, and the
 * distribution of the number of failures (Poisson-binomial per draw, then mixed: what is not known of the parameters is shared by all units;
 * Hong, Meeker & McCalley, Annals of Applied Statistics 3, 2009).
 * @throws RangeError naming the unit and field of an impossible request
 */
export function forecastFleet(
  fit: FleetFit,
  requests: readonly ForecastRequest[],
  random: Random,
): FleetForecast {
  for (const { episode, future, useLogSd } of requests) {
    checkEpisode({ ...episode, intervalFound: undefined }, fit.covariates.length);
    checkEpisode({ ...episode, segments: future, intervalFound: undefined }, fit.covariates.length);
    if (!(useLogSd >= 0 && useLogSd < Infinity))
      throw new RangeError(`unit ${episode.unitNumber}: useLogSd must be 0 or above, got ${useLogSd}`);
  }
  const drawCount = fit.structures.reduce((sum, structure) => sum + structure.draws.length, 0);
  const days = requests.map(({ future }) => future.reduce((sum, segment) => sum + segment.days, 0));
  const ahead = fit.structures.map((structure) => compileAhead(fit, structure, requests));
  const hazards = drawnHazards(fit, ahead, requests, days, drawCount, random);
  const shares = unitOwnShare(fit, ahead);
  const chances = (rate: (unit: number, hazard: number) => number) => (unit: number, draw: number) => {
    const hazard = hazards[draw * requests.length + unit];
    return failureBeforeRenewal(hazard, rate(unit, hazard));
  };
  const practised = chances((unit, hazard) =>
    days[unit] > 0 ? plannedRateAt(fit.practice, hazard / days[unit]) * days[unit] : 0,
  );
  const unrenewed = chances(() => 0);
  const causes = contributionsOf(fit, ahead, requests, days);
  const units = requests.map(({ episode }, unit): UnitForecast => {
    const { value: probability, low, high } = meanAndRange(practised, unit, drawCount);
    const ifNotRenewed = meanAndRange(unrenewed, unit, drawCount);
    return {
      unitNumber: episode.unitNumber,
      family: episode.family,
      horizonDays: days[unit],
      probability,
      low,
      high,
      ifNotRenewed,
      ownDataShare: shares[unit],
      ...causes(unit, probability, ifNotRenewed.value),
    };
  });
  return {
    units,
    count: countOf(practised, requests.length, drawCount),
    countIfNotRenewed: countOf(unrenewed, requests.length, drawCount),
  };
}

/** Hazards over the use ahead, draw by draw, pulled to the base rate and brought to the fit's level. */
function drawnHazards(
  fit: FleetFit,
  ahead: readonly CompiledAhead[],
  requests: readonly ForecastRequest[],
  days: readonly number[],
  drawCount: number,
  random: Random,
): Float64Array {
  const hazards = new Float64Array(requests.length * drawCount);
  const deviates = Float64Array.from({ length: drawCount }, (_, d) => normalQuantile((d + 0.5) / drawCount));
  // each unit goes through all deviates of its use, from a place and with a step of its own, whatever the order of the units
  const own = requests.map(({ episode }) =>
    seededRandom(parseInt(versionOf(episode.unitNumber).slice(-8), 16)),
  );
  const places = own.map((ownRandom) => Math.floor(ownRandom() * drawCount));
  const steps = own.map((ownRandom) => coprimeStep(drawCount, ownRandom));
  const yearFactors = yearFactorsOf(fit, Math.max(0, ...days), drawCount, random);
  let draw = 0;
  fit.structures.forEach((structure, k) => {
    const compiled = ahead[k];
    for (const { at, spread } of structure.draws) {
      const strange = Float64Array.from(at);
      strange[fleetScaleAt] += spread * normalDraw(random);
      const local: LocalParameters[] = fit.families.map((_, g) => localParameters(structure.layout, at, g));
      const unseen = localParameters(structure.layout, strange, -1);
      for (let unit = 0; unit < requests.length; unit++) {
        const family = compiled.fleet.family[unit];
        const deviate = deviates[(places[unit] + draw * steps[unit]) % drawCount];
        const useFactor = Math.exp(requests[unit].useLogSd * deviate);
        const hazard = hazardFromToday(compiled, unit, family < 0 ? unseen : local[family], useFactor);
        hazards[draw * requests.length + unit] =
          days[unit] > 0
            ? fit.level * yearFactors[draw] * pullToBaseRate(hazard, days[unit], fit.baseRatePerDay, fit.pull)
            : 0;
      }
      draw++;
    }
  });
  return hazards;
}

/**
 * A factor per draw that all units share: how far the time ahead may lie from what is expected of it beyond chance, gamma with mean 1, one draw of each
 * of its equal parts in an order of its own. Over more than a year the years' factors average out.
 */
function yearFactorsOf(fit: FleetFit, days: number, drawCount: number, random: Random): Float64Array {
  const shape = Math.max(1, days / windowDays) / fit.yearSpread ** 2;
  const step = coprimeStep(drawCount, random);
  const factors = Float64Array.from(
    { length: drawCount },
    (_, d) => gammaQuantile(shape, (((d * step) % drawCount) + 0.5) / drawCount) / shape,
  );
  const mean = factors.reduce((a, b) => a + b, 0) / drawCount;
  return factors.map((factor) => factor / mean);
}

function coprimeStep(count: number, random: Random): number {
  const divides = (a: number, b: number): number => (b === 0 ? a : divides(b, a % b));
  let step = 1 + Math.floor(random() * count);
  while (divides(step, count) !== 1) step++;
  return step;
}

type Chance = (unit: number, draw: number) => number;

function meanAndRange(chance: Chance, unit: number, drawCount: number): Ranged {
  const values = Float64Array.from({ length: drawCount }, (_, draw) => chance(unit, draw));
  const value = values.reduce((a, b) => a + b, 0) / drawCount;
  values.sort();
  const at = (p: number) => values[Math.min(drawCount - 1, Math.floor(p * drawCount))];
  return { value, low: Math.min(at(0.1), value), high: Math.max(at(0.9), value) };
}

function countOf(chance: Chance, units: number, drawCount: number): CountForecast {
  const pmf = mixCounts(
    Array.from({ length: drawCount }, (_, draw) =>
      poissonBinomial(Float64Array.from({ length: units }, (_unused, unit) => chance(unit, draw))),
    ),
  );
  return {
    pmf,
    mean: countMean(pmf),
    median: countQuantile(pmf, 0.5),
    ...countInterval(pmf),
  };
}
