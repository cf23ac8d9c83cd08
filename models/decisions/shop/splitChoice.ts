import type { SiteProblem } from './siteProblem.ts';

/** Work space for choosing the cheapest split of every group. */
export interface SplitChoice {
  /** cost of the state, by state */
  readonly stateCents: Float64Array;
  /** choice taken in the state, by state */
  readonly stateChoice: Int32Array;
}

export function splitChoice(problem: SiteProblem): SplitChoice {
  const states = problem.splits.choiceStart.length - 1;
  return { stateCents: new Float64Array(states), stateChoice: new Int32Array(states) };
}

/**
 * Cheapest split of a group, given what each of its bundles costs.
 * @param bundleCents cost by bundle, cents
 * @returns cents of the whole group; the choices stand in the work space, from the group's last state on
 */
export function cheapestSplit(
  problem: SiteProblem,
  group: number,
  bundleCents: Float64Array,
  work: SplitChoice,
): number {
  const { stateStart, choiceStart, choiceBundle, choiceRest } = problem.splits;
  const { stateCents, stateChoice } = work;
  const first = stateStart[group]!;
  const end = stateStart[group + 1]!;
  stateCents[first] = 0;
  for (let state = first + 1; state < end; state++) {
    let best = Infinity;
    let at = -1;
    for (let choice = choiceStart[state]!; choice < choiceStart[state + 1]!; choice++) {
      const cents = bundleCents[choiceBundle[choice]!]! + stateCents[choiceRest[choice]!]!;
      if (cents < best) {
        best = cents;
        at = choice;
      }
    }
    stateCents[state] = best;
    stateChoice[state] = at;
  }
  return stateCents[end - 1]!;
}

/**
 * For each bundle of a group: how much dearer the group's cheapest split gets when it must hold the bundle.
 * @param work as {@link cheapestSplit} left it for the group
 * @param head work space, by state
 * @param extraCents filled for the group's bundles, cents, 0 or more; Infinity where no split holds it
 */
export function forcedExtra(
  problem: SiteProblem,
  group: number,
  bundleCents: Float64Array,
  work: SplitChoice,
  head: Float64Array,
  extraCents: Float64Array,
): void {
  const { stateStart, choiceStart, choiceBundle, choiceRest, groupBundleStart } = problem.splits;
  const first = stateStart[group]!;
  const last = stateStart[group + 1]! - 1;
  for (let b = groupBundleStart[group]!; b < groupBundleStart[group + 1]!; b++) extraCents[b] = Infinity;
  for (let state = first; state < last; state++) head[state] = Infinity;
  head[last] = 0;
  const best = work.stateCents[last]!;
  for (let state = last; state > first; state--)
    for (let choice = choiceStart[state]!; choice < choiceStart[state + 1]!; choice++) {
      const bundle = choiceBundle[choice]!;
      const rest = choiceRest[choice]!;
      const upTo = head[state]! + bundleCents[bundle]!;
      if (upTo < head[rest]!) head[rest] = upTo;
      const extra = upTo + work.stateCents[rest]! - best;
      if (extra < extraCents[bundle]!) extraCents[bundle] = extra;
    }
}
