import { damageOf, followClock } from './clockPath.ts';
import type { ClockPath } from './clockPath.ts';
import type { CompiledFleet } from './compiledFleet.ts';
import { boundedExp } from './localParameters.ts';
import type { LocalParameters } from './localParameters.ts';

/** Where an episode's known past ends, and by how much use after that is scaled. */
export interface Ahead {
  readonly nowStop: number;
  readonly useFactor: number;
}

const asRecorded: Ahead = { nowStop: Infinity, useFactor: 1 };

/**
 * Cumulative hazard of an episode at each stop (run end), counted from the start of observation, given survival until then: −ln of the
 * survival averaged over what may have been run before entry.
 * @param out one value per stop, the first 0
 */
export function cumulativeHazards(
  fleet: CompiledFleet,
  episode: number,
  at: LocalParameters,
  path: ClockPath,
  out: Float64Array,
  { nowStop, useFactor }: Ahead = asRecorded,
): void {
  followClock(fleet, episode, at, path);
  const { sum } = path;
  const runs = fleet.runFrom[episode + 1] - fleet.runFrom[episode];
  const from = fleet.nodeFrom[episode];
  const nodes = fleet.nodeFrom[episode + 1] - from;
  for (let s = runs; s > nowStop; s--) sum[s] = sum[nowStop] + useFactor * (sum[s] - sum[nowStop]);
  const used = fleet.entryFull[episode] + fleet.entryIdle[episode] > 0;
  const { entryFull, entryIdle, entryClock, clockCount } = fleet;
  const earlier = used
    ? damageOf(entryFull[episode], entryIdle[episode], entryClock, episode * clockCount, at)
    : 0;
  out.fill(0, 0, runs + 1);
  for (let node = from; node < from + nodes; node++) {
    const weight = nodes === 1 ? 0 : Math.exp(fleet.nodeLogWeight[node]);
    addNode(fleet, episode, at, sum, earlier * fleet.nodeShare[node], weight, out);
  }
  if (nodes === 1) return;
  // survival this small says no more than that the set is long past its life
  out[0] = 0;
  for (let s = 1; s <= runs; s++) out[s] = -Math.log(Math.max(out[s], 1e-300));
}

/** Adds one node's weighted survival at each stop, or its cumulative hazard itself when it is the only one (weight 0). */
function addNode(
  fleet: CompiledFleet,
  episode: number,
  at: LocalParameters,
  sum: Float64Array,
  earlier: number,
  weight: number,
  out: Float64Array,
): void {
  const { evidenceCount, evidence } = fleet;
  const firstRun = fleet.runFrom[episode];
  const runs = fleet.runFrom[episode + 1] - firstRun;
  let hazard = 0;
  let before = powerOf(earlier, at);
  for (let run = 0; run < runs; run++) {
    const after = powerOf(earlier + sum[run + 1], at);
    let effect = 0;
    for (let j = 0; j < evidenceCount; j++)
      effect += at.evidenceEffects[j] * evidence[(firstRun + run) * evidenceCount + j];
    hazard += (effect === 0 ? 1 : boundedExp(effect)) * (after - before);
    before = after;
    out[run + 1] += weight === 0 ? hazard : weight * Math.exp(-hazard);
  }
}

function powerOf(damage: number, { shape, logScale }: LocalParameters): number {
  return damage > 0 ? Math.exp(Math.min(shape * (Math.log(damage) - logScale), 50)) : 0;
}
