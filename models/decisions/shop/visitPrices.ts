import type { DayPrices } from './dayPrices.ts';
import type { LanePacker } from './lanePacking.ts';
import type { PackingRoom } from './packingRoom.ts';
import type { SiteProblem } from './siteProblem.ts';
import { cheapestSplit } from './visitSplits.ts';

/** What having a visit in a bay is worth, and how these prices are moving. */
export interface VisitPrices {
  /** worth of each visit, cents; at most what it costs without a bay */
  readonly visitCents: Float64Array;
  readonly direction: Float64Array;
  /** visits that the plan must have count with their cost, those that it can't have with Infinity */
  readonly settledCents: Float64Array;
  /** width of each visit's steps, 1 where nobody pays */
  readonly pace: Float64Array;
  /** what a visit pays for room in the middle of all, cents */
  readonly usualCents: number;
  /** highest bound so far, cents, and the prices that prove it; those of hours prove the first but for rounding */
  boundCents: number;
  readonly provedCents: Float64Array;
}

/** One run of steps. */
export interface PriceSteps {
  readonly steps: number;
  /** first and last step, cents; they shrink geometrically */
  readonly fromCents: number;
  readonly toCents: number;
  /** share of the newest imbalance in the direction, 0..1 */
  readonly smoothing: number;
}

/** Prices that follow from the prices of hours: the bound begins at least as high as theirs. */
export function pricesFromHours(
  { bundles, table }: SiteProblem,
  { prices, boundCents }: DayPrices,
): VisitPrices {
  const dayCount = table.days.length;
  const paidCents = new Float64Array(bundles.length);
  const visitCents = Float64Array.from(bundles, ({ costs, otherCents, type, firstDay }, b) => {
    let least = otherCents;
    const base = type * dayCount + firstDay;
    let free = otherCents;
    for (let i = 0; i < costs.length; i++) {
      least = Math.min(least, costs[i] + prices[base + i]);
      free = Math.min(free, costs[i]);
    }
    // a visit that no day takes and nobody else offers pays nothing
    paidCents[b] = free < Infinity ? least - free : 0;
    return least;
  });
  const usualCents = mean(paidCents);
  return {
    visitCents,
    direction: new Float64Array(bundles.length),
    settledCents: new Float64Array(bundles.length).fill(NaN),
    pace: paces(paidCents, usualCents),
    usualCents,
    boundCents,
    provedCents: visitCents.slice(),
  };
}

/**
 * Visits that pay more are farther from their price: their steps are wider, by the root of what they pay; all are narrower
 * the more visits pay, since these then move together.
 */
function paces(paidCents: Float64Array, usualCents: number): Float64Array {
  const own = paidCents.map((cents) => 1 + Math.sqrt(cents / Math.max(1, usualCents)));
  const usual = mean(own);
  return own.map((pace) => pace / usual ** 2);
}

function mean(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
}

/**
 * Moves the worth of each visit until the groups' cheapest splits ask for the visits that the packed lanes hold: Lagrangian
 * decomposition into groups and lanes, a bound at every step, as strong as the convex hull of all packings of a lane.
 * @param room what is settled already, in cells
 * @param prices moved in place, cents; the bound only rises
 * @param seen called after each step with the packing
 * @param apart lanes of a day don't share a visit: the direction is nearer to a plan, no bound is taken, and all steps are as
 * wide
 * Source: Guignard and Kim, Mathematical Programming 39 (1987); geometric steps: Goffin, Mathematical Programming 13 (1977);
 * values from memory. Example: two visits of 5 h, one day of 8 h, 10.00 or 30.00 outside → 40.00; by hours alone 28.00.
 */
export function movePrices(
  problem: SiteProblem,
  packer: LanePacker,
  room: PackingRoom,
  prices: VisitPrices,
  { steps, fromCents, toCents, smoothing }: PriceSteps,
  apart: boolean,
  seen: (visits: Int32Array, lanes: Int32Array, count: number) => void,
): void {
  const { bundles, groupUnit, splits } = problem;
  const { stateStart, stateChoice, choiceBundle, choiceRest } = splits;
  const { visitCents, direction, settledCents, pace: paceOf, provedCents } = prices;
  const without = Float64Array.from(bundles, ({ otherCents }) => otherCents);
  const splitCents = new Float64Array(bundles.length);
  const wanted = new Float64Array(bundles.length);
  const decay = (toCents / fromCents) ** (1 / Math.max(1, steps));
  let pace = fromCents;
  for (let step = 0; step < steps; step++) {
    for (let b = 0; b < bundles.length; b++) {
      splitCents[b] = Number.isNaN(settledCents[b]) ? Math.min(visitCents[b], without[b]) : settledCents[b];
      wanted[b] = 0;
    }
    const { worth, visits, lanes, count } = packer(visitCents, room, apart);
    let total = -worth;
    for (let group = 0; group < groupUnit.length; group++) {
      total += cheapestSplit(splits, group, splitCents);
      for (let state = stateStart[group + 1] - 1; state > stateStart[group];) {
        const b = choiceBundle[stateChoice[state]];
        state = choiceRest[stateChoice[state]];
        if (Number.isNaN(settledCents[b]) && visitCents[b] <= without[b]) wanted[b] += 1;
      }
    }
    for (let i = 0; i < count; i++) wanted[visits[i]] -= 1;
    if (!apart && total > prices.boundCents) {
      prices.boundCents = total;
      provedCents.set(visitCents);
    }
    seen(visits, lanes, count);
    for (let b = 0; b < bundles.length; b++) {
      direction[b] = smoothing * wanted[b] + (1 - smoothing) * direction[b];
      const width = apart ? pace : pace * paceOf[b];
      visitCents[b] = Math.min(without[b], visitCents[b] + width * direction[b]);
    }
    pace *= decay;
  }
}
