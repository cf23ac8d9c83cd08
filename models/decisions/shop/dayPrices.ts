import type { CapacityChain } from './capacityChain.ts';
import { impossibleCents, type SiteProblem } from './siteProblem.ts';
import { cheapestSplit, splitChoice } from './splitChoice.ts';

/** What hours are worth by day, and what no plan can undercut. */
export interface DayPrices {
  /** no plan costs less, cents */
  readonly boundCents: number;
  /** cost with unlimited bays and people, cents */
  readonly idealCents: number;
  /** price of a visit's hours by type and day, cents, at [type·days + d]; impossible where the type can't fit */
  readonly prices: Float64Array;
  /** cheapest cost of each bundle at these prices, cents */
  readonly bundleCents: Float64Array;
}

const smoothing = 0.4;
const patience = 15;

/**
 * Prices for a cell of each day and skill stage that make the cheapest plans of all units, each for itself, add up to a
 * bound as high as found: Lagrangian relaxation of the day's room, raised by smoothed subgradient steps of Polyak's length.
 * @param upperCents cost of some plan, or an estimate above the bound, cents
 * @param steps most steps, 1 or more; 1 gives the ideal alone
 * Source: Held, Wolfe and Crowder, Mathematical Programming 6 (1974), value from memory.
 */
export function dayPrices(
  problem: SiteProblem,
  chain: CapacityChain,
  upperCents: number,
  steps: number,
): DayPrices {
  const { stages, typeStage, cells, fits } = chain;
  const dayCount = problem.days.length;
  const types = problem.typeCells.length;
  const bundles = problem.bundleType.length;
  const rows = dayCount * stages;
  const price = new Float64Array(rows);
  const bestPrice = new Float64Array(rows);
  const load = new Float64Array(rows);
  const direction = new Float64Array(rows);
  const prices = new Float64Array(types * dayCount);
  const bundleCents = new Float64Array(bundles);
  const bundleDay = new Int32Array(bundles);
  const work = splitChoice(problem);

  const setPrices = () => {
    for (let type = 0; type < types; type++) {
      const length = problem.typeCells[type]!;
      for (let d = 0; d < dayCount; d++) {
        let sum = 0;
        for (let m = Math.max(0, typeStage[type]!); m < stages; m++) sum += price[d * stages + m]!;
        prices[type * dayCount + d] = fits[type * dayCount + d] === 1 ? sum * length : impossibleCents;
      }
    }
  };
  const evaluate = (): number => {
    setPrices();
    chooseDays(problem, prices, bundleCents, bundleDay);
    let total = 0;
    for (let r = 0; r < rows; r++) {
      total -= price[r]! * cells[r]!;
      load[r] = -cells[r]!;
    }
    const { stateStart, choiceBundle, choiceRest } = problem.splits;
    for (let group = 0; group < problem.groupUnit.length; group++) {
      total += cheapestSplit(problem, group, bundleCents, work);
      for (let state = stateStart[group + 1]! - 1; state > stateStart[group]!; ) {
        const choice = work.stateChoice[state]!;
        const bundle = choiceBundle[choice]!;
        const d = bundleDay[bundle]!;
        const type = problem.bundleType[bundle]!;
        if (d >= 0)
          for (let m = typeStage[type]!; m < stages; m++)
            load[d * stages + m] = load[d * stages + m]! + problem.typeCells[type]!;
        state = choiceRest[choice]!;
      }
    }
    return total;
  };

  let best = -Infinity;
  let idealCents = 0;
  let stepScale = 1;
  let since = 0;
  for (let step = 0; step < steps && stepScale > 1e-4; step++) {
    const bound = evaluate();
    if (step === 0) idealCents = bound;
    if (bound > best + 1e-6 * Math.abs(upperCents - idealCents) || step === 0) {
      best = bound;
      since = 0;
      bestPrice.set(price);
    } else if (++since > patience) {
      stepScale *= 0.7;
      since = 0;
      price.set(bestPrice);
      direction.fill(0);
      continue;
    }
    let norm = 0;
    for (let r = 0; r < rows; r++) {
      const toward = smoothing * load[r]! + (1 - smoothing) * direction[r]!;
      direction[r] = toward;
      if (price[r]! > 0 || toward > 0) norm += toward * toward;
    }
    if (norm < 1e-9) break;
    const length = (stepScale * Math.max(upperCents - bound, 1)) / norm;
    for (let r = 0; r < rows; r++) price[r] = Math.max(0, price[r]! + length * direction[r]!);
  }
  price.set(bestPrice);
  const boundCents = evaluate();
  return { boundCents, idealCents, prices, bundleCents };
}

/** Cheapest day of each bundle under the prices; -1 = cheaper without a bay of one's own. */
function chooseDays(
  problem: SiteProblem,
  prices: Float64Array,
  bundleCents: Float64Array,
  bundleDay: Int32Array,
): void {
  const { bundleType, bundleFirstDay, bundleStart, costs, bundleOtherCents } = problem;
  const dayCount = problem.days.length;
  for (let b = 0; b < bundleType.length; b++) {
    const start = bundleStart[b]!;
    const end = bundleStart[b + 1]!;
    let best = bundleOtherCents[b]!;
    let at = -1;
    let p = bundleType[b]! * dayCount + bundleFirstDay[b]!;
    for (let i = start; i < end; i++, p++) {
      const cents = costs[i]! + prices[p]!;
      if (cents < best) {
        best = cents;
        at = i;
      }
    }
    bundleCents[b] = best;
    bundleDay[b] = at < 0 ? -1 : at - start + bundleFirstDay[b]!;
  }
}
