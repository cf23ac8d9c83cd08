import { slackAfter, type Choice, type PortfolioItems } from './portfolioItems.ts';

/**
 * What ranking by value for money gives: the steps from one option of a unit to its next dearer one, in the order of value
 * gained ÷ money added, each taken where it fits. Units that must be done start at their cheapest option. It is shown for
 * what it loses; it is not the plan.
 * @param costCents cost of each item, cents
 * @returns the choice
 * Source: Sinha & Zoltners, Operations Research 27 (1979) 503–515 (for one option a unit: Dantzig 1957).
 */
export function greedyChoice(items: PortfolioItems, costCents: Float64Array): Choice {
  const choice = new Int32Array(items.unitCount).fill(-1);
  const steps: { unit: number; item: number; rate: number }[] = [];
  for (let unit = 0; unit < items.unitCount; unit++) {
    let from = -1;
    if (items.mayRun[unit] === 0) {
      for (let item = items.start[unit]!; item < items.start[unit + 1]!; item++)
        if (from < 0 || costCents[item]! < costCents[from]!) from = item;
      choice[unit] = from;
    }
    for (let next = steepest(items, costCents, unit, from); next !== null;) {
      steps.push({ unit, ...next });
      next = steepest(items, costCents, unit, next.item);
    }
  }
  const left = slackAfter(items, choice);
  for (const { unit, item } of steps.sort((a, b) => b.rate - a.rate)) {
    const now = choice[unit]!;
    if (now >= 0 && items.valueCents[item]! <= items.valueCents[now]!) continue;
    const added = (k: number) =>
      items.use[item * items.rowCount + k]! - (now >= 0 ? items.use[now * items.rowCount + k]! : 0);
    let room = true;
    for (let k = 0; k < items.rowCount; k++) room &&= left[k]! - added(k) >= -1e-7;
    if (!room) continue;
    for (let k = 0; k < items.rowCount; k++) left[k]! -= added(k);
    choice[unit] = item;
  }
  return choice;
}

/** The next option on the way up: most value gained for each cent added, among those worth more. */
function steepest(items: PortfolioItems, costCents: Float64Array, unit: number, from: number) {
  const [value, cost] = from < 0 ? [0, 0] : [items.valueCents[from]!, costCents[from]!];
  let best: { item: number; rate: number } | null = null;
  for (let item = items.start[unit]!; item < items.start[unit + 1]!; item++) {
    const gain = items.valueCents[item]! - value;
    if (gain <= 0 || item === from) continue;
    const added = costCents[item]! - cost;
    const rate = added > 0 ? gain / added : Infinity;
    if (
      best === null ||
      rate > best.rate ||
      (rate === best.rate && gain > items.valueCents[best.item]! - value)
    )
      best = { item, rate };
  }
  return best;
}
