import { damageOf, followClock } from './clockPath.ts';
import type { ClockPath } from './clockPath.ts';
import type { CompiledFleet } from './compiledFleet.ts';
import { boundedExp } from './localParameters.ts';
import type { LocalParameters } from './localParameters.ts';

/**
 * Log likelihood of one episode without derivatives, the same as `episodeLogLikelihood` gives: for resampling, which asks for it
 * a few hundred times per episode.
 */
export function episodeValue(
  fleet: CompiledFleet,
  episode: number,
  at: LocalParameters,
  path: ClockPath,
): number {
  followClock(fleet, episode, at, path);
  const from = fleet.nodeFrom[episode];
  const to = fleet.nodeFrom[episode + 1];
  const earlier =
    fleet.nodeShare[to - 1] > 0
      ? damageOf(
          fleet.entryFull[episode],
          fleet.entryIdle[episode],
          fleet.entryClock,
          episode * fleet.clockCount,
          at,
        )
      : 0;
  if (to - from === 1) return nodeValue(fleet, episode, at, path, earlier * fleet.nodeShare[from]);
  let most = -Infinity;
  let total = 0;
  for (let node = from; node < to; node++) {
    const value =
      fleet.nodeLogWeight[node] + nodeValue(fleet, episode, at, path, earlier * fleet.nodeShare[node]);
    if (!(value > -Infinity)) continue;
    if (value > most) {
      total = total * Math.exp(most - value) + 1;
      most = value;
    } else total += Math.exp(value - most);
  }
  return most + Math.log(total);
}

function nodeValue(
  fleet: CompiledFleet,
  episode: number,
  at: LocalParameters,
  { sum }: ClockPath,
  earlier: number,
): number {
  const { evidenceCount, evidence } = fleet;
  const firstRun = fleet.runFrom[episode];
  const runs = fleet.runFrom[episode + 1] - firstRun;
  const sound = fleet.soundRuns[episode];
  let before = 0;
  let within = 0;
  let effect = 0;
  let powerBefore = earlier > 0 ? Math.exp(at.shape * (Math.log(earlier) - at.logScale)) : 0;
  for (let run = 0; run < runs; run++) {
    const damage = earlier + sum[run + 1];
    const power = damage > 0 ? Math.exp(at.shape * (Math.log(damage) - at.logScale)) : 0;
    effect = 0;
    for (let j = 0; j < evidenceCount; j++)
      effect += at.evidenceEffects[j] * evidence[(firstRun + run) * evidenceCount + j];
    const hazard = (effect === 0 ? 1 : boundedExp(effect)) * (power - powerBefore);
    if (sound >= 0 && run >= sound) within += hazard;
    else before += hazard;
    powerBefore = power;
  }
  if (sound >= 0) return -before + Math.log(-Math.expm1(-within));
  const chance = fleet.failed[episode];
  if (!(chance > 0) || runs === 0) return -before;
  const logDamage = Math.log(earlier + sum[runs]);
  let log = Math.log(at.shape) + (at.shape - 1) * logDamage - at.shape * at.logScale + effect;
  log += Math.log(fleet.lastFull[episode] + at.idleWeight * fleet.lastIdle[episode]);
  for (let j = 0; j < fleet.clockCount; j++)
    log += at.clockEffects[j] * fleet.lastClock[episode * fleet.clockCount + j];
  return chance * log - before;
}
