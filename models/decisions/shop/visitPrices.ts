import type { CapacityChain } from './capacityChain.ts';
import { dayFill, dayItems, fillDay, type DayFill, type DayItems } from './dayKnapsack.ts';
import { impossibleCents, type SiteProblem } from './siteProblem.ts';
import { cheapestSplit, forcedExtra, splitChoice, type SplitChoice } from './splitChoice.ts';

/** A sharper bound, and which visits a better plan can still hold. */
export interface VisitPrices {
  /** no plan costs less, cents */
  readonly boundCents: number;
  /** price of a visit's hours by type and day, cents, at [type·days + d] */
  readonly prices: Float64Array;
  /** visits by day that a plan cheaper than the given one may hold */
  readonly items: DayItems;
  /** 1 = a cheaper plan may leave the bundle to others or undone */
  readonly otherKept: Uint8Array;
}

export interface VisitPriceEffort {
  /** most steps, 0 or more */
  readonly steps: number;
  /** most steps of inner work (cells looked at) */
  readonly workCells: number;
}

const smoothing = 0.2;
const patience = 20;
const strikeEvery = 60;

interface Ascent {
  readonly problem: SiteProblem;
  readonly chain: CapacityChain;
  readonly items: DayItems;
  readonly fill: DayFill;
  readonly worth: Float64Array;
  readonly bundleCents: Float64Array;
  readonly load: Float64Array;
  readonly work: SplitChoice;
}

/**
 * Bound by splitting the plan in two: every unit chooses its visits at a price for having each bundle done, every day
 * fills its room with the visits whose price pays most (a 0-1 knapsack); the prices are raised until both want the same.
 * It is at least as high as the bound by hours alone. Visits that no plan cheaper than `upperCents` can hold are struck out
 * on the way.
 * @param startCents first price of each bundle, cents, e.g. its cheapest cost with the price of the hours
 * @param upperCents cost of a known plan, cents
 * Source: Lagrangian decomposition (Guignard and Kim, Mathematical Programming 39, 1987), reduced-cost fixing, value from
 * memory.
 */
export function visitPrices(
  problem: SiteProblem,
  chain: CapacityChain,
  startCents: Float64Array,
  upperCents: number,
  effort: VisitPriceEffort,
): VisitPrices {
  const bundles = problem.bundleType.length;
  const worth = Float64Array.from(startCents);
  const bestWorth = Float64Array.from(startCents);
  const direction = new Float64Array(bundles);
  const ascent: Ascent = {
    problem,
    chain,
    items: dayItems(problem, chain),
    fill: dayFill(problem, chain),
    worth,
    bundleCents: new Float64Array(bundles),
    load: new Float64Array(bundles),
    work: splitChoice(problem),
  };
  let best = -Infinity;
  let stepScale = 1;
  let since = 0;
  for (let step = 0; step < effort.steps && stepScale > 1e-3; step++) {
    if (ascent.fill.workCells > effort.workCells || upperCents - best < 1) break;
    if (step % strikeEvery === strikeEvery - 1) {
      worth.set(bestWorth);
      strikeOut(ascent, upperCents);
    }
    const bound = evaluate(ascent);
    if (step === 0 || bound > best + 1e-6 * (upperCents - best)) {
      best = Math.max(best, bound);
      since = 0;
      bestWorth.set(worth);
    } else if (++since > patience) {
      stepScale *= 0.7;
      since = 0;
      worth.set(bestWorth);
      direction.fill(0);
      continue;
    }
    let norm = 0;
    for (let b = 0; b < bundles; b++) {
      direction[b] = smoothing * ascent.load[b]! + (1 - smoothing) * direction[b]!;
      norm += direction[b]! * direction[b]!;
    }
    if (norm < 1e-9) break;
    const length = (stepScale * Math.max(upperCents - bound, 1)) / norm;
    for (let b = 0; b < bundles; b++) worth[b] = worth[b]! + length * direction[b]!;
  }
  worth.set(bestWorth);
  const otherKept = strikeOut(ascent, upperCents);
  return { boundCents: evaluate(ascent), prices: hourPrices(ascent), items: ascent.items, otherKept };
}

/** Bound at the present prices; `load` becomes how often units want each bundle in a bay, less how often days do. */
function evaluate({ problem, chain, items, fill, worth, bundleCents, load, work }: Ascent): number {
  const { stateStart, choiceBundle, choiceRest } = problem.splits;
  load.fill(0);
  for (let b = 0; b < worth.length; b++) bundleCents[b] = Math.min(worth[b]!, problem.bundleOtherCents[b]!);
  let total = 0;
  for (let group = 0; group < problem.groupUnit.length; group++) {
    total += cheapestSplit(problem, group, bundleCents, work);
    for (let state = stateStart[group + 1]! - 1; state > stateStart[group]!; ) {
      const choice = work.stateChoice[state]!;
      const bundle = choiceBundle[choice]!;
      if (worth[bundle]! < problem.bundleOtherCents[bundle]!) load[bundle] = 1;
      state = choiceRest[choice]!;
    }
  }
  for (let day = 0; day < problem.days.length; day++) {
    fillDay(problem, chain, items, day, worth, fill);
    total -= fill.gainCents;
    for (const i of fill.taken) load[items.bundle[i]!] = load[items.bundle[i]!]! - 1;
  }
  return total;
}

/** Strikes out the visits that would lift the bound above what is known; returns which bundles may do without a bay. */
function strikeOut(ascent: Ascent, upperCents: number): Uint8Array {
  const { problem, chain, items, fill, worth, bundleCents, work } = ascent;
  const bound = evaluate(ascent);
  const spare = upperCents - 1 + 1e-6 - bound;
  const extra = new Float64Array(worth.length);
  const head = new Float64Array(problem.splits.choiceStart.length - 1);
  for (let group = 0; group < problem.groupUnit.length; group++)
    forcedExtra(problem, group, bundleCents, work, head, extra);
  for (let day = 0; day < problem.days.length; day++) {
    fillDay(problem, chain, items, day, worth, fill);
    const most = chain.cells[(day + 1) * chain.stages - 1]!;
    let kept = items.start[day]!;
    for (let i = items.start[day]!; i < items.end[day]!; i++) {
      const b = items.bundle[i]!;
      const length = problem.typeCells[problem.bundleType[b]!]!;
      const surplus = worth[b]! - problem.costs[items.at[i]!]!;
      const displaced = fill.simple ? 0 : fill.gain[most]! - fill.gain[most - length]!;
      const inBay = worth[b]! - bundleCents[b]!;
      if (extra[b]! + inBay + Math.max(0, displaced - surplus) > spare) continue;
      items.bundle[kept] = b;
      items.at[kept] = items.at[i]!;
      kept++;
    }
    items.end[day] = kept;
  }
  return Uint8Array.from(extra, (cents, b) => {
    const other = problem.bundleOtherCents[b]!;
    return other < impossibleCents && cents + other - bundleCents[b]! <= spare ? 1 : 0;
  });
}

/** What a visit of each type displaces on each day, cents. */
function hourPrices({ problem, chain, items, fill, worth }: Ascent): Float64Array {
  const dayCount = problem.days.length;
  const prices = new Float64Array(problem.typeCells.length * dayCount).fill(impossibleCents);
  for (let day = 0; day < dayCount; day++) {
    fillDay(problem, chain, items, day, worth, fill);
    const most = chain.cells[(day + 1) * chain.stages - 1]!;
    problem.typeCells.forEach((length, type) => {
      if (chain.fits[type * dayCount + day] === 0 || length > most) return;
      prices[type * dayCount + day] = fill.simple ? 0 : fill.gain[most]! - fill.gain[most - length]!;
    });
  }
  return prices;
}
