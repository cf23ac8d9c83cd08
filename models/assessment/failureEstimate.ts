import type { Contribution } from '../schema/assessment.ts';

/** The chance that a unit's timing drive fails within the horizon, and what it rests on. */
export interface FailureEstimate {
  readonly probability: number;
  readonly low: number;
  readonly high: number;
  /** share of what is known that comes from the fleet's own outcomes, 0..1 */
  readonly ownDataShare: number;
  readonly basis: string;
  readonly components: { readonly chain: number | null; readonly phaser: number | null };
  readonly contributions: readonly Contribution[];
}
