import type { OilState, RateMultipliers } from '../oil/exposure.ts';

/** A state with its 80 % range. */
export interface Ranged {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** The wear states of a unit on one day; null = not applicable (no chain, no phaser) or not known. */
export interface WearPoint {
  readonly day: number;
  readonly sludge: Ranged | null;
  readonly chainPercent: Ranged | null;
  readonly phaserShare: Ranged | null;
}

/** What one cause added to a state, in the state's own unit; the causes add up to the state. */
export interface StateCause {
  readonly state: 'sludge' | 'chain' | 'phaser';
  readonly cause: string;
  readonly amount: number;
}

/** A piece of evidence as the model took it. */
export interface EvidenceUse {
  readonly day: number;
  readonly state: 'sludge' | 'chain' | 'phaser' | 'oil';
  readonly words: string;
  /** the observed value on the state's scale, or null for yes/no evidence */
  readonly observed: number | null;
  readonly expected: number | null;
  /** 1 full weight, below 1 an outlier that was kept but down-weighted */
  readonly weight: number;
  readonly recordId: number | null;
}

/** A day on which a part was renewed or cleaned and what that reset. */
export interface Renewal {
  readonly day: number;
  readonly part:
    'timing_set' | 'phaser' | 'oil_control_solenoid' | 'tensioner_guides' | 'belt' | 'engine' | 'screen';
  readonly outcome: 'planned' | 'failed' | 'unknown';
  /** chance that it was a failure, where the outcome is not recorded, 0..1 */
  readonly failureChance: number;
  readonly bank: string | null;
  readonly recordId: number | null;
}

/** Everything the wear side says of one unit. */
export interface UnitStates {
  /** points at each drain, each piece of evidence and the as-of day, in order */
  readonly points: readonly WearPoint[];
  readonly now: WearPoint;
  /** oil state now, with the unit's own rates */
  readonly oilNow: OilState | null;
  /** oil state at the end of each charge of the timeline, same order */
  readonly chargeEnds: readonly (OilState | null)[];
  /** the unit's rates after all evidence (posterior median) and the log-sd of each */
  readonly rates: RateMultipliers;
  readonly ratesLogSd: RateMultipliers;
  readonly causes: readonly StateCause[];
  readonly evidence: readonly EvidenceUse[];
  readonly renewals: readonly Renewal[];
  /** direct evidence that raises `stop`, in words; empty when none or cleared by a named technician */
  readonly stops: readonly string[];
  /** caution limits passed, in words */
  readonly cautions: readonly string[];
  /** why a state is null */
  readonly notKnown: Readonly<Record<string, string>>;
}
