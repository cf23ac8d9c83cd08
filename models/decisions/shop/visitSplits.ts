/** A group's visits as bits over its jobs. */
export interface MaskGroup {
  readonly jobCount: number;
  readonly masks: readonly number[];
}

/** Every split of every group's jobs into visits, as a walk over what is left to do; flat arrays for speed. */
export interface GroupSplits {
  /** states of group g: stateStart[g] (nothing left) … stateStart[g + 1] − 1 (all left) */
  readonly stateStart: Int32Array;
  /** choices in state s: choiceStart[s] … choiceStart[s + 1] − 1 */
  readonly choiceStart: Int32Array;
  /** visit taken by the choice, numbered through all groups */
  readonly choiceBundle: Int32Array;
  /** state that is left after the choice */
  readonly choiceRest: Int32Array;
  /** visits of group g: bundleStart[g] … bundleStart[g + 1] − 1 */
  readonly bundleStart: Int32Array;
  /** work space: cost of the state, choice taken in it */
  readonly stateCents: Float64Array;
  readonly stateChoice: Int32Array;
}

/**
 * Lays out, for every group, the states that are reached when visits are taken off one after another, always one that
 * holds the first job left; so each split of the jobs is met once.
 * @param groups in order; visits are numbered through all groups
 */
export function groupSplits(groups: readonly MaskGroup[]): GroupSplits {
  const stateStart = [0];
  const choiceStart = [0];
  const choiceBundle: number[] = [];
  const choiceRest: number[] = [];
  const bundleStart = [0];
  for (const { jobCount, masks } of groups) {
    const firstBundle = bundleStart[bundleStart.length - 1];
    const states = reachedStates(jobCount, masks);
    const place = new Map(states.map((state, i) => [state, i]));
    const base = stateStart[stateStart.length - 1];
    for (const state of states) {
      const lowest = state & -state;
      masks.forEach((mask, i) => {
        if (state === 0 || (mask & lowest) === 0 || (mask & state) !== mask) return;
        choiceBundle.push(firstBundle + i);
        choiceRest.push(base + (place.get(state ^ mask) ?? 0));
      });
      choiceStart.push(choiceBundle.length);
    }
    stateStart.push(base + states.length);
    bundleStart.push(firstBundle + masks.length);
  }
  return {
    stateStart: Int32Array.from(stateStart),
    choiceStart: Int32Array.from(choiceStart),
    choiceBundle: Int32Array.from(choiceBundle),
    choiceRest: Int32Array.from(choiceRest),
    bundleStart: Int32Array.from(bundleStart),
    stateCents: new Float64Array(choiceStart.length - 1),
    stateChoice: new Int32Array(choiceStart.length - 1),
  };
}

function reachedStates(jobCount: number, masks: readonly number[]): number[] {
  const full = 2 ** jobCount - 1;
  const reached = new Set([full]);
  const queue = [full];
  for (let state = queue.pop(); state !== undefined; state = queue.pop()) {
    const lowest = state & -state;
    for (const mask of masks) {
      if (state === 0 || (mask & lowest) === 0 || (mask & state) !== mask || reached.has(state ^ mask))
        continue;
      reached.add(state ^ mask);
      queue.push(state ^ mask);
    }
  }
  return [...reached].sort((a, b) => a - b);
}

/**
 * Cheapest split of a group, given what each of its visits costs: dynamic programming over what is left to do.
 * @param bundleCents cost by visit, cents
 * @returns cents of the whole group; {@link chosenBundles} tells which visits
 * Source: set partitioning by dynamic programming; grouping of maintenance as in Wildeman, Dekker and Smit, European
 * Journal of Operational Research 99 (1997). Example: its due times 2, 2.6, 3.9, 4.3, 5.8, 7.7, 8.1 with set-up 100 → 353.79.
 */
export function cheapestSplit(splits: GroupSplits, group: number, bundleCents: Float64Array): number {
  const { stateStart, choiceStart, choiceBundle, choiceRest, stateCents, stateChoice } = splits;
  const first = stateStart[group];
  const end = stateStart[group + 1];
  stateCents[first] = 0;
  for (let state = first + 1; state < end; state++) {
    let best = Infinity;
    let at = choiceStart[state];
    for (let choice = choiceStart[state]; choice < choiceStart[state + 1]; choice++) {
      const cents = bundleCents[choiceBundle[choice]] + stateCents[choiceRest[choice]];
      if (cents < best) {
        best = cents;
        at = choice;
      }
    }
    stateCents[state] = best;
    stateChoice[state] = at;
  }
  return stateCents[end - 1];
}

/** The visits of the split that {@link cheapestSplit} found last for the group. */
export function chosenBundles(splits: GroupSplits, group: number): number[] {
  const chosen: number[] = [];
  for (let state = splits.stateStart[group + 1] - 1; state > splits.stateStart[group];) {
    const choice = splits.stateChoice[state];
    chosen.push(splits.choiceBundle[choice]);
    state = splits.choiceRest[choice];
  }
  return chosen;
}
