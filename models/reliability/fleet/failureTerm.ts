import type { CompiledFleet } from './compiledFleet.ts';
import type { HazardSums, PowerStop } from './hazardSums.ts';
import type { LocalParameters } from './localParameters.ts';

/** Failure chance × log hazard at the last stop: ln shape + u − ln D + ln rate + γ'e. */
export function addFailure(
  fleet: CompiledFleet,
  episode: number,
  runs: number,
  at: LocalParameters,
  stop: PowerStop,
  out: HazardSums,
  withDerivatives: boolean,
): number {
  const { clockCount, evidenceCount, lastClock, lastFull, lastIdle } = fleet;
  const chance = fleet.failed[episode];
  const evidenceFrom = (fleet.runFrom[episode] + runs - 1) * evidenceCount;
  const weighted = at.idleWeight * lastIdle[episode];
  const whole = lastFull[episode] + weighted;
  let log = Math.log(at.shape) + stop.log - stop.logDamage + Math.log(whole);
  for (let j = 0; j < clockCount; j++) log += at.clockEffects[j] * lastClock[episode * clockCount + j];
  for (let j = 0; j < evidenceCount; j++) log += at.evidenceEffects[j] * fleet.evidence[evidenceFrom + j];
  if (!withDerivatives) return chance * log;
  const inner = stop.first.length;
  const size = inner + evidenceCount;
  const slope = (i: number) => stop.first[i] / at.shape; // dD/D for the clock's parameters
  for (let i = 0; i < inner; i++) {
    out.first[i] += chance * stop.first[i];
    for (let k = 0; k <= i; k++) {
      // −ln D takes its own curvature off u's, which is shape times as large
      const curvature = stop.second[i * inner + k] * (i >= 2 && k >= 2 ? 1 - 1 / at.shape : 1);
      out.second[i * size + k] += chance * curvature;
    }
    if (i >= 2) out.first[i] -= chance * slope(i);
  }
  out.first[0] += chance;
  for (let j = 0; j < clockCount; j++) out.first[2 + j] += chance * lastClock[episode * clockCount + j];
  if (fleet.withIdleWeight) {
    const share = weighted / whole;
    const cell = inner - 1;
    out.first[cell] += chance * share;
    out.second[cell * size + cell] += chance * share * (1 - share);
  }
  for (let j = 0; j < evidenceCount; j++) out.first[inner + j] += chance * fleet.evidence[evidenceFrom + j];
  return chance * log;
}
