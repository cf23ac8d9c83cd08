import { fits, slackAfter, type Choice, type PortfolioItems } from './portfolioItems.ts';
import { pricedValue, type Relaxation } from './portfolioRelaxation.ts';

/**
 * A whole choice near the relaxation: each unit takes its largest share, units that are split take the option of theirs
 * that uses least, then the room left is filled. Null when units that must be done do not fit this way.
 */
export function roundPortfolio(items: PortfolioItems, relaxed: Relaxation): Choice | null {
  const choice = new Int32Array(items.unitCount).fill(-1);
  for (let unit = 0; unit < items.unitCount; unit++) {
    let taken = 0;
    let whole = -1;
    for (let item = items.start[unit]!; item < items.start[unit + 1]!; item++) {
      taken += relaxed.shares[item]!;
      if (relaxed.shares[item]! > 1 - 1e-7) whole = item;
    }
    if (whole >= 0) choice[unit] = whole;
    else if (items.mayRun[unit] === 0) choice[unit] = leastUse(items, relaxed, unit);
    else if (taken < 1e-7) choice[unit] = -1;
  }
  if (!fits(slackAfter(items, choice))) return null;
  improveChoice(items, relaxed.prices, choice);
  return choice;
}

function leastUse(items: PortfolioItems, relaxed: Relaxation, unit: number): number {
  let best = -1;
  let least = Infinity;
  for (let item = items.start[unit]!; item < items.start[unit + 1]!; item++) {
    const priced = items.valueCents[item]! - pricedValue(items, relaxed.prices, item);
    if (relaxed.shares[item]! > 1e-7 && priced < least) [best, least] = [item, priced];
  }
  return best;
}

/**
 * Fills the room that is left: again and again the change of one unit's option that gains most, then exchanges in which
 * one unit gives way to a dearer option of another. The choice is changed in place and never gets worse.
 */
export function improveChoice(items: PortfolioItems, prices: Float64Array, choice: Choice): void {
  const left = slackAfter(items, choice);
  for (let round = 0; round < 20; round++) {
    const gained = fill(items, left, choice);
    if (!exchange(items, prices, left, choice) && !gained) return;
  }
}

function fill(items: PortfolioItems, left: Float64Array, choice: Choice): boolean {
  let changed = false;
  for (;;) {
    let best = -1;
    let bestUnit = -1;
    let most = 1e-9;
    for (let unit = 0; unit < items.unitCount; unit++) {
      const now = choice[unit]!;
      const valueNow = now >= 0 ? items.valueCents[now]! : 0;
      for (let item = items.start[unit]!; item < items.start[unit + 1]!; item++) {
        const gain = items.valueCents[item]! - valueNow;
        if (gain > most && changeFits(items, left, now, item)) [best, bestUnit, most] = [item, unit, gain];
      }
    }
    if (best < 0) return changed;
    apply(items, left, choice, bestUnit, best);
    changed = true;
  }
}

/** Tries each unit's cheaper option together with each other unit's dearer one, among those near their priced best. */
function exchange(items: PortfolioItems, prices: Float64Array, left: Float64Array, choice: Choice): boolean {
  const moves: { unit: number; item: number; gain: number; loss: number }[] = [];
  for (let unit = 0; unit < items.unitCount; unit++) {
    const now = choice[unit]!;
    const [valueNow, pricedNow] =
      now >= 0 ? [items.valueCents[now]!, pricedValue(items, prices, now)] : [0, 0];
    if (now >= 0 && items.mayRun[unit] === 1)
      moves.push({ unit, item: -1, gain: -valueNow, loss: pricedNow });
    for (let item = items.start[unit]!; item < items.start[unit + 1]!; item++)
      if (item !== now)
        moves.push({
          unit,
          item,
          gain: items.valueCents[item]! - valueNow,
          loss: pricedNow - pricedValue(items, prices, item),
        });
  }
  const near = moves.sort((a, b) => a.loss - b.loss).slice(0, 150);
  let best: readonly [number, number] | null = null;
  let most = 1e-9;
  for (let i = 0; i < near.length; i++)
    for (let j = i + 1; j < near.length; j++) {
      const [a, b] = [near[i]!, near[j]!];
      if (a.unit === b.unit || a.gain + b.gain <= most) continue;
      if (bothFit(items, left, choice, a, b)) [best, most] = [[i, j], a.gain + b.gain];
    }
  if (best === null) return false;
  for (const index of best) apply(items, left, choice, near[index]!.unit, near[index]!.item);
  return true;
}

function useAt(items: PortfolioItems, item: number, k: number): number {
  return item < 0 ? 0 : items.use[item * items.rowCount + k]!;
}

function changeFits(items: PortfolioItems, left: Float64Array, from: number, to: number): boolean {
  for (let k = 0; k < items.rowCount; k++)
    if (left[k]! + useAt(items, from, k) - useAt(items, to, k) < -1e-7) return false;
  return true;
}

interface Move {
  readonly unit: number;
  readonly item: number;
}

function bothFit(items: PortfolioItems, left: Float64Array, choice: Choice, a: Move, b: Move): boolean {
  for (let k = 0; k < items.rowCount; k++) {
    const freed = useAt(items, choice[a.unit]!, k) + useAt(items, choice[b.unit]!, k);
    if (left[k]! + freed - useAt(items, a.item, k) - useAt(items, b.item, k) < -1e-7) return false;
  }
  return true;
}

function apply(items: PortfolioItems, left: Float64Array, choice: Choice, unit: number, item: number): void {
  for (let k = 0; k < items.rowCount; k++) left[k]! += useAt(items, choice[unit]!, k) - useAt(items, item, k);
  choice[unit] = item;
}
