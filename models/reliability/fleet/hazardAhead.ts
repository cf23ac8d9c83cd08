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
  followClock(fleet, episode, at, path, false);
  const { sum } = path;
  const runs = fleet.runFrom[episode + 1] - fleet.runFrom[episode];
  const from = fleet.nodeFrom[episode];
  const nodes = fleet.nodeFrom[episode + 1] - from;
  for (let s = runs; s > nowStop; s--) sum[s] = sum[nowStop] + useFactor * (sum[s] - sum[nowStop]);
  out.fill(0, 0, runs + 1);
  const earlier =
    fleet.entryFull[episode] + fleet.entryIdle[episode] > 0
      ? damageOf(
          fleet.entryFull[episode],
          fleet.entryIdle[episode],
          fleet.entryClock,
          episode * fleet.clockCount,
          at,
        )
      : 0;
  if (nodes === 1) {
    addNode(
      fleet,
      episode,
      at,
      path,
      earlier * fleet.nodeShare[from],
      runs,
      (s, hazard) => (out[s] = hazard),
    );
    return;
  }
  for (let node = from; node < from + nodes; node++) {
    const weight = Math.exp(fleet.nodeLogWeight[node]);
    addNode(fleet, episode, at, path, earlier * fleet.nodeShare[node], runs, (s, hazard) => {
      out[s] += weight * Math.exp(-hazard);
    });
  }
  // survival this small says no more than that the set is long past its life
  for (let s = 0; s <= runs; s++) out[s] = s === 0 ? 0 : -Math.log(Math.max(out[s], 1e-300));
}

function addNode(
  fleet: CompiledFleet,
  episode: number,
  at: LocalParameters,
  { sum }: ClockPath,
  earlier: number,
  runs: number,
  visit: (stop: number, hazard: number) => void,
): void {
  const count = fleet.evidenceCount;
  const power = (damage: number) =>
    damage > 0 ? Math.exp(Math.min(at.shape * (Math.log(damage) - at.logScale), 50)) : 0;
  let hazard = 0;
  let before = power(earlier);
  visit(0, 0);
  for (let s = 1; s <= runs; s++) {
    const after = power(earlier + sum[s]);
    const from = (fleet.runFrom[episode] + s - 1) * count;
    let log = 0;
    for (let j = 0; j < count; j++) log += at.evidenceEffects[j] * fleet.evidence[from + j];
    hazard += boundedExp(log) * (after - before);
    before = after;
    visit(s, hazard);
  }
}
