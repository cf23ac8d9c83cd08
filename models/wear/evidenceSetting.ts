import type { Coefficients } from '../schema/coefficient.ts';
import type { Engine } from '../schema/engine.ts';
import type { ChainLimit } from './phaseGeometry.ts';
import type { Trajectory } from './trajectory.ts';

/** What the builders of evidence need of a unit. */
export interface EvidenceSetting {
  readonly engine: Engine | null;
  readonly chainLimit: ChainLimit | null;
  readonly hasPhaser: boolean;
  readonly coefficients: Coefficients;
  /** segment that ends on a day; -1 when the day lies outside */
  readonly segmentAt: (day: number) => number;
}

/** Chain elongation of a bank; the worse of both where the bank is not told. */
export function chainOf(states: Trajectory, segment: number, bank: string | null): number {
  if (bank === '1') return states.chain1[segment];
  if (bank === '2') return states.chain2[segment];
  return Math.max(states.chain1[segment], states.chain2[segment]);
}

/** Phaser wear of a bank; the worse of both where the bank is not told. */
export function phaserOf(states: Trajectory, segment: number, bank: string | null): number {
  if (bank === '1') return states.phaser1[segment];
  if (bank === '2') return states.phaser2[segment];
  return Math.max(states.phaser1[segment], states.phaser2[segment]);
}
