import type { ShopTechnician } from './resources.ts';

/** Stands for "not possible"; far above any cost, far below where a sum of doubles loses cents. */
export const impossibleCents = 1e12;

/**
 * One site's planning problem in flat arrays. Days are open days of the site by index; time within a day is counted in
 * cells of `cellMinutes` from opening. A bundle is one possible visit of one unit (a set of its jobs); a type is a length
 * with the technicians who may do it; a group is the jobs of one unit that are split into bundles together.
 */
export interface SiteProblem {
  /** day number of each open day */
  readonly days: Int32Array;
  /** cells from opening to closing */
  readonly openCells: number;
  readonly bayCount: number;
  readonly technicians: readonly ShopTechnician[];
  /** most cells technician k works on day d, at [d·technicians + k]; 0 = away */
  readonly technicianCells: Int32Array;
  /** what locked visits hold */
  readonly held: readonly HeldCells[];
  readonly typeCells: Int32Array;
  /** technicians who may do the type */
  readonly typeTechnicians: readonly Int32Array[];
  readonly bundleGroup: Int32Array;
  readonly bundleType: Int32Array;
  /** jobs of the bundle, positions in the site's job list */
  readonly bundleJobs: readonly (readonly number[])[];
  /** first day index with a cost; the costs of the days from there on stand at costs[bundleStart[b]..bundleStart[b+1]) */
  readonly bundleFirstDay: Int32Array;
  readonly bundleStart: Int32Array;
  readonly costs: Float64Array;
  /** cost of leaving the bundle undone within the horizon; impossible for more than one job (its jobs do that singly) */
  readonly bundleUndoneCents: Float64Array;
  /** cheapest outside shop: cost, position in the list (-1 none), first and last day number away */
  readonly bundleOutsideCents: Float64Array;
  readonly bundleOutsideShop: Int32Array;
  readonly bundleOutsideDay: Int32Array;
  readonly bundleOutsideEnd: Int32Array;
  /** the cheaper of undone and outside */
  readonly bundleOtherCents: Float64Array;
  /** unit of the group */
  readonly groupUnit: Int32Array;
  /** groups of each unit */
  readonly unitGroups: readonly (readonly number[])[];
  readonly splits: GroupSplits;
}

/** Cells that a locked visit holds. */
export interface HeldCells {
  readonly dayIndex: number;
  /** -1 = none of this site's bays */
  readonly bay: number;
  /** -1 = none of this site's people */
  readonly technician: number;
  readonly firstCell: number;
  readonly endCell: number;
}

/**
 * The ways to split each group into bundles: states of group g are stateStart[g]..stateStart[g+1), the first is "nothing
 * left" and the last the whole group; choices of state s are choiceStart[s]..choiceStart[s+1), each a bundle and the
 * state that remains.
 */
export interface GroupSplits {
  readonly stateStart: Int32Array;
  readonly choiceStart: Int32Array;
  readonly choiceBundle: Int32Array;
  readonly choiceRest: Int32Array;
  /** bundles of group g: groupBundleStart[g]..groupBundleStart[g+1) */
  readonly groupBundleStart: Int32Array;
}

/** Where a bundle stands in a plan: a day index from 0 up, or one of these. */
export const bundleOutside = -1;
export const bundleUndone = -2;
export const bundleUnused = -3;
