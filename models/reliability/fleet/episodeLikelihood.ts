import { clockPathFor, damageOf, followClock, followClockWithDerivatives } from './clockPath.ts';
import type { ClockPath } from './clockPath.ts';
import type { CompiledFleet } from './compiledFleet.ts';
import { addHazard, clearHazard, hazardSumsFor, powerStopFor, setPowerStop } from './hazardSums.ts';
import type { HazardSums, PowerStop } from './hazardSums.ts';
import { addFailure } from './failureTerm.ts';
import { boundedExp } from './localParameters.ts';
import type { LocalParameters } from './localParameters.ts';

/** Room that the evaluation of episodes of one fleet needs, with the answers of the last call. */
export interface EpisodeWork {
  readonly localCount: number;
  /** of the log likelihood */
  readonly gradient: Float64Array;
  /** lower triangle */
  readonly hessian: Float64Array;
  readonly path: ClockPath;
  readonly stop: PowerStop;
  /** hazard while known sound, and between the last sound look and the end */
  readonly before: HazardSums;
  readonly within: HazardSums;
  readonly node: HazardSums;
  readonly stopFirst: Float64Array;
  readonly stopSecond: Float64Array;
}

export function episodeWorkFor(fleet: CompiledFleet): EpisodeWork {
  const path = clockPathFor(fleet);
  const localCount = 2 + path.q + fleet.evidenceCount;
  return {
    localCount,
    gradient: new Float64Array(localCount),
    hessian: new Float64Array(localCount * localCount),
    path,
    stop: powerStopFor(path.q),
    before: hazardSumsFor(localCount),
    within: hazardSumsFor(localCount),
    node: hazardSumsFor(localCount),
    stopFirst: new Float64Array(path.q),
    stopSecond: new Float64Array(path.q * path.q),
  };
}

/**
 * Log likelihood of one episode (density per day for a failure), with gradient and Hessian in `work`. The cumulative hazard of a run with
 * evidence e is e^(γ'e) [(D₂/scale)^shape − (D₁/scale)^shape], D the damage clock; entry is by truncation at the damage run before,
 * averaged over what that may have been.
 */
export function episodeLogLikelihood(
  fleet: CompiledFleet,
  episode: number,
  at: LocalParameters,
  work: EpisodeWork,
  withDerivatives: boolean,
): number {
  if (withDerivatives) followClockWithDerivatives(fleet, episode, at, work.path);
  else followClock(fleet, episode, at, work.path);
  const from = fleet.nodeFrom[episode];
  const to = fleet.nodeFrom[episode + 1];
  if (to - from === 1) {
    const value = nodeLogLikelihood(fleet, episode, from, at, work, withDerivatives);
    work.gradient.set(work.node.first);
    work.hessian.set(work.node.second);
    return value;
  }
  return mixNodes(fleet, episode, from, to, at, work, withDerivatives);
}

/** log Σ w e^l over entry nodes, kept relative to the largest so far. */
function mixNodes(
  fleet: CompiledFleet,
  episode: number,
  from: number,
  to: number,
  at: LocalParameters,
  work: EpisodeWork,
  withDerivatives: boolean,
): number {
  const { gradient, hessian, localCount } = work;
  gradient.fill(0);
  hessian.fill(0);
  let most = -Infinity;
  let total = 0;
  for (let node = from; node < to; node++) {
    const value =
      nodeLogLikelihood(fleet, episode, node, at, work, withDerivatives) + fleet.nodeLogWeight[node];
    if (!(value > -Infinity)) continue;
    const shrink = value > most ? Math.exp(most - value) : 1;
    const weight = value > most ? 1 : Math.exp(value - most);
    most = Math.max(most, value);
    total = total * shrink + weight;
    if (!withDerivatives) continue;
    const { first, second } = work.node;
    for (let i = 0; i < localCount; i++) {
      gradient[i] = gradient[i] * shrink + weight * first[i];
      for (let k = 0; k <= i; k++) {
        const cell = i * localCount + k;
        hessian[cell] = hessian[cell] * shrink + weight * (second[cell] + first[i] * first[k]);
      }
    }
  }
  for (let i = 0; i < localCount; i++) gradient[i] /= total;
  for (let i = 0; i < localCount; i++)
    for (let k = 0; k <= i; k++) {
      const cell = i * localCount + k;
      hessian[cell] = hessian[cell] / total - gradient[i] * gradient[k];
    }
  return most + Math.log(total);
}

/** Log likelihood given the earlier use of one node; derivatives into `work.node`. Needs the clock path followed before. */
export function nodeLogLikelihood(
  fleet: CompiledFleet,
  episode: number,
  node: number,
  at: LocalParameters,
  work: EpisodeWork,
  withDerivatives: boolean,
): number {
  const { node: out, stop } = work;
  const runs = fleet.runFrom[episode + 1] - fleet.runFrom[episode];
  clearHazard(out);
  if (fleet.soundRuns[episode] >= 0)
    return foundLogLikelihood(fleet, episode, node, runs, at, work, withDerivatives);
  for (let s = 0; s <= runs; s++) {
    setStop(fleet, episode, node, s, at, work, withDerivatives);
    if (s > 0) addRun(fleet, episode, s - 1, -1, at, out, work, withDerivatives);
    if (s < runs) addRun(fleet, episode, s, 1, at, out, work, withDerivatives);
  }
  const failed = fleet.failed[episode] > 0 && runs > 0;
  const value = out.value + (failed ? addFailure(fleet, episode, runs, at, stop, out, withDerivatives) : 0);
  return Number.isNaN(value) ? -Infinity : value;
}

/** The same for a failure found at an inspection: survival up to the last sound look, failure between it and the end. */
function foundLogLikelihood(
  fleet: CompiledFleet,
  episode: number,
  node: number,
  runs: number,
  at: LocalParameters,
  work: EpisodeWork,
  withDerivatives: boolean,
): number {
  const { before, within, node: out } = work;
  const sound = fleet.soundRuns[episode];
  clearHazard(before);
  clearHazard(within);
  for (let s = 0; s <= runs; s++) {
    setStop(fleet, episode, node, s, at, work, withDerivatives);
    if (s > 0) addRun(fleet, episode, s - 1, 1, at, s > sound ? within : before, work, withDerivatives);
    if (s < runs) addRun(fleet, episode, s, -1, at, s >= sound ? within : before, work, withDerivatives);
  }
  const chance = -Math.expm1(-within.value);
  const value = -before.value + Math.log(chance);
  if (withDerivatives) {
    addScaled(out, before, -1);
    if (chance > 0) addFound(out, within, Math.exp(-within.value) / chance);
  }
  return Number.isNaN(value) ? -Infinity : value;
}

function setStop(
  fleet: CompiledFleet,
  episode: number,
  node: number,
  s: number,
  at: LocalParameters,
  work: EpisodeWork,
  withDerivatives: boolean,
): void {
  const { path, stop, stopFirst, stopSecond } = work;
  const { q } = path;
  const share = fleet.nodeShare[node];
  const from = episode * fleet.clockCount;
  const earlier =
    share > 0
      ? share * damageOf(fleet.entryFull[episode], fleet.entryIdle[episode], fleet.entryClock, from, at)
      : 0;
  if (withDerivatives && q > 0) {
    stopFirst.set(path.first.subarray(s * q, (s + 1) * q));
    stopSecond.set(path.second.subarray(s * q * q, (s + 1) * q * q));
    if (earlier > 0) addEarlier(fleet, episode, at, earlier, stopFirst, stopSecond, q);
  }
  setPowerStop(
    stop,
    at.shape,
    at.logScale,
    earlier + path.sum[s],
    stopFirst,
    stopSecond,
    withDerivatives ? q : 0,
  );
}

function addEarlier(
  fleet: CompiledFleet,
  episode: number,
  at: LocalParameters,
  earlier: number,
  first: Float64Array,
  second: Float64Array,
  q: number,
): void {
  const { clockCount, entryClock, entryIdle, entryFull } = fleet;
  const weighted = at.idleWeight * entryIdle[episode];
  const idleDamage = fleet.withIdleWeight ? (earlier * weighted) / (entryFull[episode] + weighted) : 0;
  const slope = (j: number) => (j < clockCount ? entryClock[episode * clockCount + j] : 1);
  for (let j = 0; j < q; j++) {
    const base = j < clockCount ? earlier : idleDamage;
    first[j] += base * slope(j);
    for (let k = 0; k <= j; k++) second[j * q + k] += base * slope(j) * slope(k);
  }
}

function addRun(
  fleet: CompiledFleet,
  episode: number,
  run: number,
  sign: number,
  at: LocalParameters,
  sums: HazardSums,
  work: EpisodeWork,
  withDerivatives: boolean,
): void {
  const count = fleet.evidenceCount;
  const from = (fleet.runFrom[episode] + run) * count;
  let log = 0;
  for (let j = 0; j < count; j++) log += at.evidenceEffects[j] * fleet.evidence[from + j];
  addHazard(sums, sign * boundedExp(log), work.stop, fleet.evidence, from, count, withDerivatives);
}

function addScaled(out: HazardSums, from: HazardSums, factor: number): void {
  for (let i = 0; i < out.first.length; i++) out.first[i] += factor * from.first[i];
  for (let i = 0; i < out.second.length; i++) out.second[i] += factor * from.second[i];
}

/** Derivatives of ln(1 − e^−gap). */
function addFound(out: HazardSums, gap: HazardSums, pull: number): void {
  const size = gap.first.length;
  addScaled(out, gap, pull);
  for (let i = 0; i < size; i++)
    for (let k = 0; k <= i; k++) out.second[i * size + k] -= pull * (1 + pull) * gap.first[i] * gap.first[k];
}
