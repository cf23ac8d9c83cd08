import type { GroupSplits } from './siteProblem.ts';

/** A group's bundles as bits over its jobs, in bundle order. */
export interface MaskGroup {
  readonly jobCount: number;
  readonly masks: readonly number[];
}

/**
 * Lays out, for every group, the states that are reached when bundles are taken off one after another, always one that
 * holds the first job left; so each split of the jobs is met once.
 * @param groups in order; bundles are numbered through all groups
 */
export function groupSplits(groups: readonly MaskGroup[]): GroupSplits {
  const stateStart = [0];
  const choiceStart = [0];
  const choiceBundle: number[] = [];
  const choiceRest: number[] = [];
  const groupBundleStart = [0];
  for (const { jobCount, masks } of groups) {
    const firstBundle = groupBundleStart[groupBundleStart.length - 1]!;
    const states = reachedStates(jobCount, masks);
    const place = new Map(states.map((state, i) => [state, i]));
    const base = stateStart[stateStart.length - 1]!;
    for (const state of states) {
      const lowest = state & -state;
      masks.forEach((mask, i) => {
        if (state === 0 || (mask & lowest) === 0 || (mask & state) !== mask) return;
        choiceBundle.push(firstBundle + i);
        choiceRest.push(base + place.get(state ^ mask)!);
      });
      choiceStart.push(choiceBundle.length);
    }
    stateStart.push(base + states.length);
    groupBundleStart.push(firstBundle + masks.length);
  }
  return {
    stateStart: Int32Array.from(stateStart),
    choiceStart: Int32Array.from(choiceStart),
    choiceBundle: Int32Array.from(choiceBundle),
    choiceRest: Int32Array.from(choiceRest),
    groupBundleStart: Int32Array.from(groupBundleStart),
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
