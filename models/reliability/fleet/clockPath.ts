import type { CompiledFleet } from './compiledFleet.ts';
import { boundedExp } from './localParameters.ts';
import type { LocalParameters } from './localParameters.ts';

/**
 * Damage since the start of observation at each run's end, stop 0 being the start, with first and second derivatives by clock effects
 * and log idle weight (q of them).
 */
export interface ClockPath {
  readonly q: number;
  readonly sum: Float64Array;
  readonly first: Float64Array;
  /** lower triangles */
  readonly second: Float64Array;
}

export function clockPathFor(fleet: CompiledFleet): ClockPath {
  const q = fleet.clockCount + (fleet.withIdleWeight ? 1 : 0);
  const stops = fleet.longestRunCount + 1;
  return {
    q,
    sum: new Float64Array(stops),
    first: new Float64Array(stops * q),
    second: new Float64Array(stops * q * q),
  };
}

/** Damage of one stretch of use: (full + idleWeight × idle) × exp(effects · covariates). */
export function damageOf(
  full: number,
  idle: number,
  covariates: Float64Array,
  from: number,
  { clockEffects, idleWeight }: LocalParameters,
): number {
  let log = 0;
  for (let j = 0; j < clockEffects.length; j++) log += clockEffects[j] * covariates[from + j];
  return (full + idleWeight * idle) * boundedExp(log);
}

/** Fills the path's sums for an episode. */
export function followClock(
  fleet: CompiledFleet,
  episode: number,
  { clockEffects, idleWeight }: LocalParameters,
  { sum }: ClockPath,
): void {
  const { clockCount, full, idle, clock, runEnd } = fleet;
  const lastRun = fleet.runFrom[episode + 1];
  let segment = fleet.segmentFrom[episode];
  let damage = 0;
  sum[0] = 0;
  for (let run = fleet.runFrom[episode], stop = 1; run < lastRun; run++, stop++) {
    const end = runEnd[run];
    if (clockCount === 0)
      for (; segment < end; segment++) damage += full[segment] + idleWeight * idle[segment];
    else
      for (; segment < end; segment++) {
        let log = 0;
        const from = segment * clockCount;
        for (let j = 0; j < clockCount; j++) log += clockEffects[j] * clock[from + j];
        damage += (full[segment] + idleWeight * idle[segment]) * boundedExp(log);
      }
    sum[stop] = damage;
  }
}

/** Fills the path for an episode with its derivatives. */
export function followClockWithDerivatives(
  fleet: CompiledFleet,
  episode: number,
  at: LocalParameters,
  path: ClockPath,
): void {
  const { clockCount, full, idle, clock, runEnd } = fleet;
  const { q, sum, first, second } = path;
  sum[0] = 0;
  first.fill(0, 0, q);
  second.fill(0, 0, q * q);
  let segment = fleet.segmentFrom[episode];
  for (let run = fleet.runFrom[episode], stop = 1; run < fleet.runFrom[episode + 1]; run++, stop++) {
    sum[stop] = sum[stop - 1];
    first.copyWithin(stop * q, (stop - 1) * q, stop * q);
    second.copyWithin(stop * q * q, (stop - 1) * q * q, stop * q * q);
    for (; segment < runEnd[run]; segment++) {
      const damage = damageOf(full[segment], idle[segment], clock, segment * clockCount, at);
      sum[stop] += damage;
      if (q > 0) addDerivatives(fleet, segment, at, damage, path, stop);
    }
  }
}

function addDerivatives(
  fleet: CompiledFleet,
  segment: number,
  at: LocalParameters,
  damage: number,
  { q, first, second }: ClockPath,
  stop: number,
): void {
  const { clockCount, full, idle, clock, withIdleWeight } = fleet;
  const from = segment * clockCount;
  const cells = stop * q * q;
  for (let j = 0; j < clockCount; j++) {
    const part = damage * clock[from + j];
    first[stop * q + j] += part;
    for (let k = 0; k <= j; k++) second[cells + j * q + k] += part * clock[from + k];
  }
  if (!withIdleWeight) return;
  const weighted = at.idleWeight * idle[segment];
  const whole = full[segment] + weighted;
  const idleDamage = whole > 0 ? (damage * weighted) / whole : 0;
  const last = clockCount;
  first[stop * q + last] += idleDamage;
  for (let k = 0; k < clockCount; k++) second[cells + last * q + k] += idleDamage * clock[from + k];
  second[cells + last * q + last] += idleDamage;
}
