import type { Contribution } from '../schema/assessment.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { UnitHistory } from '../schema/history.ts';
import { chainLimitOf } from '../wear/phaseGeometry.ts';
import type { UnitStates } from '../wear/states.ts';

/** The chance that a unit's timing drive fails within the horizon, as the fleet's model tells it. Plain data. */
export interface UnitChance {
  readonly probability: number;
  readonly low: number;
  readonly high: number;
  /** share of what is known that comes from the fleet's own outcomes, 0..1 */
  readonly ownDataShare: number;
  readonly basis: string;
  readonly contributions: readonly Contribution[];
}

/** The same, split by what fails. */
export interface FailureEstimate extends UnitChance {
  readonly components: { readonly chain: number | null; readonly phaser: number | null };
}

/**
 * Splits a unit's chance between chain and phaser side by the slope of a Weibull on each state (shapes of the catalog); null
 * where the side does not apply.
 */
export function failureEstimateOf(
  chance: UnitChance,
  states: UnitStates,
  history: UnitHistory,
  coefficients: Coefficients,
): FailureEstimate {
  const share = chainShare(states, history, coefficients);
  const part = (fraction: number | null): number | null =>
    fraction === null ? null : 1 - (1 - chance.probability) ** fraction;
  return { ...chance, components: { chain: part(share.chain), phaser: part(share.phaser) } };
}

function chainShare(
  states: UnitStates,
  history: UnitHistory,
  coefficients: Coefficients,
): { chain: number | null; phaser: number | null } {
  const { chainPercent, phaserShare } = states.now;
  if (chainPercent === null && phaserShare === null) return { chain: null, phaser: null };
  if (phaserShare === null) return { chain: 1, phaser: null };
  if (chainPercent === null) return { chain: null, phaser: 1 };
  const limit = chainLimitOf(history.engine, coefficients)?.percent ?? 0.5;
  const chain = (Math.max(chainPercent.value, 0.01) / (2 * limit)) ** coefficients['wear.chain_shape'];
  const phaser = Math.max(phaserShare.value, 0.01) ** coefficients['wear.phaser_shape'];
  const share = chain / (chain + phaser);
  return { chain: share, phaser: 1 - share };
}
