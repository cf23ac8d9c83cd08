import { hazardFromToday } from './compiledAhead.ts';
import type { CompiledAhead } from './compiledAhead.ts';
import type { FittedStructure, FleetFit } from './fleetFit.ts';
import type { Contribution, ForecastRequest } from './forecast.ts';
import type { LocalParameters } from './localParameters.ts';
import { fleetScaleAt, localParameters } from './structurePosterior.ts';

const leastHazard = 1e-12;

/** What the whole is made of for one unit, given its chance as renewals are practised and its chance if not renewed. */
export type CausesOf = (
  unit: number,
  probability: number,
  ifNotRenewed: number,
) => { baseLogHazard: number; contributions: readonly Contribution[] };

/**
 * Why a unit's hazard differs from the fleet's base rate: one factor after the other is put in (use since renewal, use ahead, engine family, each
 * covariate), at the mode of each clock, averaged over clocks; what averaging and the pull to the base rate add stands last, so that the causes
 * add up to the whole.
 */
export function contributionsOf(
  fit: FleetFit,
  ahead: readonly CompiledAhead[],
  requests: readonly ForecastRequest[],
  days: readonly number[],
): CausesOf {
  const causes = new Map<string, Float64Array>();
  const add = (cause: string, unit: number, amount: number) => {
    const list = causes.get(cause) ?? new Float64Array(requests.length);
    list[unit] += amount;
    causes.set(cause, list);
  };
  fit.structures.forEach((structure, k) => addStructure(fit, structure, ahead[k], requests, days, add));
  return (unit, probability, ifNotRenewed) => {
    const rate = fit.baseRatePerDay > 0 ? fit.baseRatePerDay : leastHazard;
    const baseLogHazard = Math.log(Math.max(rate * days[unit], leastHazard));
    if (!(days[unit] > 0) || !(probability > 0)) return { baseLogHazard, contributions: [] };
    const logHazard = (chance: number) => Math.log(-Math.log1p(-Math.min(chance, 1 - 1e-15)));
    const whole = logHazard(probability) - baseLogHazard;
    const renewals = logHazard(probability) - logHazard(ifNotRenewed);
    const named = [...causes].map(([cause, list]) => ({ cause, logHazard: list[unit] }));
    if (renewals !== 0) named.push({ cause: 'planned renewals as practised', logHazard: renewals });
    const rest = whole - named.reduce((sum, one) => sum + one.logHazard, 0);
    return {
      baseLogHazard,
      contributions: [...named, { cause: 'averaging over what is not known', logHazard: rest }],
    };
  };
}

function addStructure(
  fit: FleetFit,
  structure: FittedStructure,
  compiled: CompiledAhead,
  requests: readonly ForecastRequest[],
  days: readonly number[],
  add: (cause: string, unit: number, amount: number) => void,
): void {
  const { layout, best, weight, clock, usePerDay } = structure;
  const names = (kind: 'clock' | 'evidence') =>
    fit.covariates.filter((spec) => spec.kind === kind).map((spec) => spec.name);
  const clockNames = clock.withCovariates ? names('clock') : [];
  const evidenceNames = names('evidence');
  for (let unit = 0; unit < requests.length; unit++) {
    if (!(days[unit] > 0)) continue;
    const own = localParameters(layout, best.mode, compiled.fleet.family[unit]);
    const clockEffects = new Float64Array(own.clockEffects.length);
    const evidenceEffects = new Float64Array(own.evidenceEffects.length);
    const plain = { ...own, clockEffects, evidenceEffects };
    let before = Math.log(Math.max(fit.baseRatePerDay * days[unit], leastHazard));
    const step = (cause: string, at: LocalParameters, useFactor: number) => {
      const now = Math.log(Math.max(hazardFromToday(compiled, unit, at, useFactor), leastHazard));
      add(cause, unit, weight * (now - before));
      before = now;
    };
    const own12Months = usualOverOwnUse(structure, requests[unit], days[unit], own.idleWeight);
    const fleetScale = { ...plain, logScale: best.mode[fleetScaleAt] };
    step('use since installation', fleetScale, own12Months ?? 1);
    if (own12Months !== null && usePerDay.full > 0) step('use ahead', fleetScale, 1);
    step('engine family', plain, 1);
    clockNames.forEach((name, j) => {
      clockEffects[j] = own.clockEffects[j];
      step(name, plain, 1);
    });
    evidenceNames.forEach((name, j) => {
      evidenceEffects[j] = own.evidenceEffects[j];
      step(name, plain, 1);
    });
  }
}

/** The fleet's usual use over the horizon against this unit's, null where either is nothing. */
function usualOverOwnUse(
  { clock, usePerDay }: FittedStructure,
  { future }: ForecastRequest,
  days: number,
  idleWeight: number,
): number | null {
  const unit = Math.exp(clock.life.mean);
  const own = future.reduce((sum, segment) => {
    const use = clock.use(segment);
    return sum + (use.full + idleWeight * use.idle) / unit;
  }, 0);
  const usual = (usePerDay.full + idleWeight * usePerDay.idle) * days;
  return own > 0 && usual > 0 ? usual / own : null;
}
