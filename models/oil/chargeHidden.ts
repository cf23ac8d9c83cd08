import { normalCdf } from '../numeric/normal.ts';
import type { DutyRules } from './dutyRules.ts';

/** What a span between two recorded drains looks like from outside. */
export interface DrainGap {
  /** length of the span in usual intervals, 0 or more */
  readonly intervals: number;
  /** the span is still running: no drain recorded at its end yet */
  readonly running: boolean;
  /** spread of the unit's intervals about its usual one (logarithm), above 0 */
  readonly logSd: number;
  /** chance that a drain falls out of the records here, 0..1 */
  readonly unrecordedChance: number;
}

/** Drains that probably happened unrecorded. */
export interface HiddenDrains {
  /** chance of at least one, 0..1 */
  readonly chance: number;
  /** the likeliest number where at least one is missing, otherwise 0 */
  readonly count: number;
}

const most = 60;

/** Chance that a sum of n intervals is longer than the span, each log-normal about 1. */
function longer(n: number, span: number, logSd: number): number {
  if (n === 0) return 0;
  const spread = Math.sqrt(Math.log(1 + (Math.exp(logSd ** 2) - 1) / n));
  return 1 - normalCdf((Math.log(span / n) + spread ** 2 / 2 - logSd ** 2 / 2) / spread);
}

/** Density of a span that is the sum of n intervals, on the log scale. */
function density(n: number, span: number, logSd: number): number {
  const spread = Math.sqrt(Math.log(1 + (Math.exp(logSd ** 2) - 1) / n));
  const z = (Math.log(span / n) + spread ** 2 / 2 - logSd ** 2 / 2) / spread;
  return Math.exp(-0.5 * z * z) / (spread * Math.sqrt(2 * Math.PI));
}

/**
 * How many drains are hidden in a gap. Intervals are log-normal about the usual one, some are simply run long. With
 * chance q drains fell out of the records here, and where one did the next did too with chance r: no hidden drain weighs
 * 1 − q, n of them q(1 − r)rⁿ⁻¹, × the likelihood of the span as n + 1 intervals (closed span) or of n drains done
 * and the next not yet (running span).
 * @param gap the span in usual intervals
 * @param rules catalog values
 * @returns an interval of 1.0 at q 0.05 and spread 0.3 → chance near 0; 3.1 intervals → chance near 1, count 2
 * Source: mixture of log-normal intervals, common practice, no source.
 */
export function hiddenDrains(gap: DrainGap, rules: DutyRules): HiddenDrains {
  const span = gap.intervals;
  if (!(span > 0.05)) return { chance: 0, count: 0 };
  const q = Math.min(0.99, Math.max(0.001, gap.unrecordedChance));
  const sd = Math.max(0.08, gap.logSd);
  const wide = Math.max(sd, rules.longIntervalLogSd);
  const long = rules.longIntervalChance;
  const limit = Math.min(most, Math.ceil(3 * span) + 3);
  let none = 0;
  let some = 0;
  let best = 0;
  let count = 1;
  const runOn = rules.unrecordedRunOn;
  let weight = 1 - q;
  for (let n = 0; n <= limit; n++) {
    const usual = gap.running
      ? Math.max(0, longer(n + 1, span, sd) - longer(n, span, sd))
      : density(n + 1, span, sd);
    // one interval may simply have been run long
    const stretched =
      n > 0
        ? 0
        : gap.running
          ? longer(1, span / Math.exp(wide / 2), wide)
          : density(1, span / Math.exp(wide / 2), wide);
    const part = weight * (n > 0 ? usual : (1 - long) * usual + long * stretched);
    if (n === 0) none = part;
    else {
      some += part;
      if (part > best) {
        best = part;
        count = n;
      }
    }
    weight = n === 0 ? q * (1 - runOn) : weight * runOn;
  }
  const total = none + some;
  if (!(total > 0)) return { chance: q, count: Math.max(1, Math.round(span) - 1) };
  const chance = some / total;
  return { chance, count: chance < 0.005 ? 0 : count };
}
