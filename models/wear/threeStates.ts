import type { Coefficients } from '../schema/coefficient.ts';
import { normalCdf, rangeDeviations } from '../numeric/normal.ts';
import type { ChainLimit } from './phaseGeometry.ts';
import type { Ranged, UnitStates } from './states.ts';

/** Chances of what a look would find; they add up to 1. */
export interface ThreeStates {
  /** screen or spool restricted by sludge, chain and phaser sound */
  readonly restricted: number;
  /** chain or phaser worn, whatever the sludge */
  readonly worn: number;
  readonly neither: number;
}

/** Chance that a state is above a level, from its 80 % range as a log-normal with its own spread on either side. */
export function chanceAbove({ value, low, high }: Ranged, level: number): number {
  const floor = 1e-6;
  const at = Math.log(Math.max(floor, level) / Math.max(floor, value));
  const side =
    at > 0
      ? Math.log(Math.max(floor, high) / Math.max(floor, value))
      : Math.log(Math.max(floor, value) / Math.max(floor, low));
  const sd = Math.max(1e-3, side / rangeDeviations);
  return 1 - normalCdf(at / sd);
}

/**
 * What a look at a unit would find, by its states: restricted, worn, or neither.
 * Formula: worn = 1 − (1 − P(chain > share of limit)) (1 − P(phaser > level)); restricted = P(sludge > level) (1 − worn).
 * Levels: catalog evidence.sludge_worn, evidence.chain_plan, evidence.phaser_caution.
 * @returns chances that add up to 1; null when no state is known
 */
export function threeStates(
  { now }: UnitStates,
  chainLimit: ChainLimit | null,
  c: Coefficients,
): ThreeStates | null {
  const { sludge, chainPercent, phaserShare } = now;
  if (sludge === null && chainPercent === null && phaserShare === null) return null;
  const chain =
    chainPercent === null || chainLimit === null
      ? 0
      : chanceAbove(chainPercent, c['evidence.chain_plan'] * chainLimit.percent);
  const phaser = phaserShare === null ? 0 : chanceAbove(phaserShare, c['evidence.phaser_caution']);
  const worn = 1 - (1 - chain) * (1 - phaser);
  const restricted = (sludge === null ? 0 : chanceAbove(sludge, c['evidence.sludge_worn'])) * (1 - worn);
  return { restricted, worn, neither: 1 - worn - restricted };
}
