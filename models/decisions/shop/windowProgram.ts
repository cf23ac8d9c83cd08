import { solveMilp, type MilpSolver } from '../milpSolver.ts';
import type { SiteProblem } from './siteProblem.ts';

/** A choice of a window: a visit in a lane, without a bay, or somewhere beyond the window. */
export interface WindowChoice {
  readonly visit: number;
  /** lane in which the visit begins; −1 = none of the window's */
  readonly lane: number;
  /** lanes of the window that it takes, and cells in each */
  readonly takes: readonly { readonly lane: number; readonly cells: number }[];
  readonly cents: number;
  /** whether its jobs must be done by some choice */
  readonly owed: boolean;
  /** whether the plan in hand has it */
  readonly taken: boolean;
}

/** How long a window may be worked on. */
export interface WindowEffort {
  readonly nodes: number;
  /** steps of the simplex method that are left for this window and those after it; counted down */
  readonly budget: { steps: number };
  /** a solution this near to its bound is good enough, cents */
  readonly gapCents: number;
}

// costs are of the size of 1e6 cents and the solver reckons in doubles
const roundingCents = 0.01;

/**
 * Picks choices of a window so that every owed job is done once, no job twice and no lane is overfull, at least cost: a
 * knapsack-constrained assignment as a mixed-integer programme.
 * @param roomCells cells of each lane that are free for the choices
 * @returns the choices picked, or null, and what no pick undercuts, cents
 */
export function solveWindow(
  { bundles }: SiteProblem,
  solver: MilpSolver,
  choices: readonly WindowChoice[],
  roomCells: (lane: number) => number,
  { nodes, budget, gapCents }: WindowEffort,
): { readonly picked: readonly WindowChoice[] | null; readonly boundCents: number } {
  // the solver takes no programme without columns
  if (choices.length === 0) return { picked: [], boundCents: 0 };
  if (budget.steps <= 0) return { picked: null, boundCents: -Infinity };
  const lower: number[] = [];
  const upper: number[] = [];
  const jobRow = new Map<string, number>();
  for (const { visit, owed } of choices)
    for (const { jobId } of bundles[visit].jobs) {
      let row = jobRow.get(jobId);
      if (row === undefined) {
        row = lower.push(-Infinity) - 1;
        upper.push(1);
        jobRow.set(jobId, row);
      }
      if (owed) lower[row] = 1;
    }
  const laneRow = new Map<number, number>();
  for (const [lane, cells] of mostCells(choices))
    if (cells > roomCells(lane)) {
      laneRow.set(lane, lower.push(-Infinity) - 1);
      upper.push(roomCells(lane));
    }
  const rows = lower.map(() => ({ columns: [] as number[], values: [] as number[] }));
  const enter = (row: number | undefined, column: number, value: number) => {
    if (row === undefined) return;
    rows[row].columns.push(column);
    rows[row].values.push(value);
  };
  choices.forEach(({ visit, takes }, column) => {
    for (const { jobId } of bundles[visit].jobs) enter(jobRow.get(jobId), column, 1);
    for (const { lane, cells } of takes) enter(laneRow.get(lane), column, cells);
  });
  const starts = [0];
  for (const { columns } of rows) starts.push(starts[starts.length - 1] + columns.length);
  const numCols = choices.length;
  const numRows = rows.length;
  const result = solveMilp(
    solver,
    {
      numCols,
      numRows,
      colCost: Float64Array.from(choices, ({ cents }) => cents),
      colLower: new Float64Array(numCols),
      colUpper: new Float64Array(numCols).fill(1),
      rowLower: Float64Array.from(lower),
      rowUpper: Float64Array.from(upper),
      matrix: {
        format: 'csr',
        numRows,
        numCols,
        starts: Int32Array.from(starts),
        indices: Int32Array.from(rows.flatMap(({ columns }) => columns)),
        values: Float64Array.from(rows.flatMap(({ values }) => values)),
      },
      integrality: new Int32Array(numCols).fill(1),
    },
    0,
    Infinity,
    Float64Array.from(choices, ({ taken }) => (taken ? 1 : 0)),
    { nodes, steps: budget.steps, absoluteGap: gapCents },
  );
  budget.steps -= result.steps;
  return {
    picked: result.values === null ? null : choices.filter((_, i) => (result.values?.[i] ?? 0) > 0.5),
    boundCents: result.bound - roundingCents,
  };
}

/** Cells that a lane is asked for when it takes all that may lie there. */
function mostCells(choices: readonly WindowChoice[]): ReadonlyMap<number, number> {
  const most = new Map<number, number>();
  for (const { takes } of choices)
    for (const { lane, cells } of takes) most.set(lane, (most.get(lane) ?? 0) + cells);
  return most;
}
