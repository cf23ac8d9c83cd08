import type { Coefficients } from '../schema/coefficient.ts';
import { coefficientValue } from './coefficientValue.ts';
import { bestDrainInterval, drainCost, type DrainCost, type DrainCosts } from './drainInterval.ts';
import type { Range } from './range.ts';

/** One duty group as the policy sees it. */
export interface DutyInputs {
  readonly duty: string;
  /** interval kept today, km, above 0; null = not known */
  readonly currentIntervalKm: number | null;
  /** longest interval the book allows for this duty, km; null = not known */
  readonly bookIntervalKm: number | null;
  /** lab results and an inspection support more than the book, and a named person has approved it */
  readonly beyondBookApproved: boolean;
  /** the oil in use */
  readonly oil: DrainCosts;
  /** other service categories that could be bought, by name */
  readonly categories?: readonly { readonly category: string; readonly oil: DrainCosts }[];
}

/** What another service category would change. */
export interface CategoryEffect {
  readonly category: string;
  readonly bestIntervalKm: number;
  /** at today's interval (null when that is not known), and at its own best, cents per 1 000 km */
  readonly centsPer1000Km: { readonly current: number | null; readonly best: number };
  /** what it saves against the oil in use, both at their best, cents per 1 000 km; below 0: dearer */
  readonly savingCentsPer1000Km: number;
}

/** The cheapest interval of a duty group. */
export interface DutyPolicy {
  readonly duty: string;
  readonly currentIntervalKm: number | null;
  readonly bestIntervalKm: number;
  /** 80 % range of the best interval over what is not known about wear */
  readonly bestIntervalRangeKm: Range;
  readonly flatFromKm: number;
  readonly flatToKm: number;
  /** what may be set: the best, but not beyond the book unless approved */
  readonly recommendedIntervalKm: number;
  readonly centsPer1000Km: {
    readonly current: number | null;
    readonly best: number;
    readonly recommended: number;
  };
  readonly categories: readonly CategoryEffect[];
  readonly curve: readonly DrainCost[];
  readonly notes: readonly string[];
}

/**
 * The drain interval per duty group that is cheapest over the life of the engine.
 * @param duties costs in cents, intervals in km, wear as a function of the interval
 * @param coefficients `policy.*` of the catalog
 * @returns one policy a duty; kilometres and cents per 1 000 km are whole numbers
 * @throws RangeError as {@link bestDrainInterval}
 * Source: {@link bestDrainInterval}; that no interval goes beyond the book without lab results, an inspection and a named
 * person's approval is a rule of the product.
 */
export function policyCase(
  duties: readonly DutyInputs[],
  coefficients: Coefficients,
): { readonly duties: readonly DutyPolicy[] } {
  return { duties: duties.map((duty) => dutyPolicy(duty, coefficients)) };
}

function dutyPolicy(inputs: DutyInputs, coefficients: Coefficients): DutyPolicy {
  const { duty, currentIntervalKm, bookIntervalKm, oil } = inputs;
  const value = (id: string) => coefficientValue(coefficients, id);
  const anchor = bookIntervalKm ?? currentIntervalKm ?? value('policy.anchor_km');
  const fromKm = Math.min(value('policy.from_share') * anchor, currentIntervalKm ?? Infinity);
  const toKm = Math.max(value('policy.to_share') * anchor, currentIntervalKm ?? 0);
  const flatShare = value('policy.flat_share');
  const optimum = bestDrainInterval(oil, fromKm, toKm, flatShare);
  const bestIntervalKm = Math.round(optimum.best.intervalKm);
  const notes = [...optimum.notes];
  let recommendedIntervalKm = bestIntervalKm;
  if (bookIntervalKm === null)
    notes.push('the book interval is not known: check it before setting an interval');
  else if (bestIntervalKm > bookIntervalKm && !inputs.beyondBookApproved) {
    recommendedIntervalKm = Math.round(bookIntervalKm);
    notes.push(
      `the cheapest interval lies beyond the book (${recommendedIntervalKm} km); lab results, an inspection and a named person's approval come first`,
    );
  }
  const currentCost = currentIntervalKm === null ? null : cents(oil, currentIntervalKm);
  if (currentIntervalKm === null) notes.push('the interval kept today is not known');
  else if (bookIntervalKm !== null && currentIntervalKm > bookIntervalKm && !inputs.beyondBookApproved)
    notes.push(`today's interval is longer than the book's ${Math.round(bookIntervalKm)} km: shorten it`);
  else if (currentIntervalKm >= optimum.flatFromKm && currentIntervalKm <= optimum.flatToKm)
    notes.push(
      `today's interval lies within ${Number((100 * flatShare).toPrecision(2))} % of the cheapest: leave it`,
    );
  return {
    duty,
    currentIntervalKm,
    bestIntervalKm,
    bestIntervalRangeKm: {
      low: Math.round(optimum.bestRangeKm.low),
      mid: Math.round(optimum.bestRangeKm.mid),
      high: Math.round(optimum.bestRangeKm.high),
    },
    flatFromKm: Math.round(optimum.flatFromKm),
    flatToKm: Math.round(optimum.flatToKm),
    recommendedIntervalKm,
    centsPer1000Km: {
      current: currentCost,
      best: Math.round(optimum.best.centsPer1000Km),
      recommended: cents(oil, recommendedIntervalKm),
    },
    categories: (inputs.categories ?? []).map(({ category, oil: other }) => {
      const its = bestDrainInterval(other, fromKm, toKm, flatShare).best;
      return {
        category,
        bestIntervalKm: Math.round(its.intervalKm),
        centsPer1000Km: {
          current: currentIntervalKm === null ? null : cents(other, currentIntervalKm),
          best: Math.round(its.centsPer1000Km),
        },
        savingCentsPer1000Km: Math.round(optimum.best.centsPer1000Km - its.centsPer1000Km),
      };
    }),
    curve: optimum.curve,
    notes,
  };
}

function cents(oil: DrainCosts, intervalKm: number): number {
  return Math.round(drainCost(oil, intervalKm).centsPer1000Km);
}
