import type { BookInterval } from './bookInterval.ts';
import type { Exposure, OilEngine, OilFill, OilState, RateMultipliers } from './exposure.ts';

/** What an interval is asked for. */
export interface IntervalQuestion {
  /** the duty to come, in order of time (one mean stretch, or month by month); the last goes on for ever */
  readonly coming: readonly Exposure[];
  readonly engine: OilEngine;
  readonly fill: OilFill;
  readonly rates: RateMultipliers;
  readonly book: BookInterval;
  /** severe service by the duty */
  readonly severe: boolean;
  /** factor on a missing severe book interval, 0..1; left out: the catalog's */
  readonly severeFactor?: number;
  /** the charge so far; left out: fresh oil */
  readonly soFar?: { readonly state: OilState; readonly exposure: Exposure };
}
