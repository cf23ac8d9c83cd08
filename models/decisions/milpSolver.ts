/** A linear or mixed-integer problem: least cost·x with lower ≤ x ≤ upper and rowLower ≤ A·x ≤ rowUpper, A by rows. */
export interface MilpProblem {
  readonly numCols: number;
  readonly numRows: number;
  readonly colCost: Float64Array;
  readonly colLower: Float64Array;
  readonly colUpper: Float64Array;
  readonly rowLower: Float64Array;
  readonly rowUpper: Float64Array;
  readonly matrix: {
    readonly format: 'csr';
    readonly numRows: number;
    readonly numCols: number;
    readonly starts: Int32Array;
    readonly indices: Int32Array;
    readonly values: Float64Array;
  };
  /** 1 = whole numbers only, 0 = any; left out: all continuous */
  readonly integrality?: Int32Array;
}

/** The part of the HiGHS interface that is used; the package `highs`, once loaded, has this shape. */
export interface MilpSolver {
  createModel(source: MilpProblem): SolverModel;
}

export interface SolverModel {
  readonly options: { set(name: string, value: boolean | number | string): unknown };
  readonly info: { get(name: string): number | bigint };
  run(): { readonly modelStatus: number };
  getSolution(): { readonly colValue: Float64Array; readonly rowDual: Float64Array };
  getObjectiveValue(): number;
  setSolution(start: { readonly colValue: Float64Array }): unknown;
  dispose(): void;
}

/** Result of one solve; `values` is null when no feasible point was found. */
export interface MilpResult {
  readonly status: 'optimal' | 'infeasible' | 'stopped';
  readonly values: Float64Array | null;
  /** objective of `values`; Infinity when there are none */
  readonly objective: number;
  /** no feasible point costs less than this */
  readonly bound: number;
  /** worth of one more unit of each row's limit (continuous problems only; empty otherwise) */
  readonly rowDual: Float64Array;
}

// model status codes of the HiGHS C interface
const optimalStatus = 7;
const infeasibleStatus = 8;

/**
 * Solves one problem with HiGHS (Huangfu & Hall, Mathematical Programming Computation 10, 2018) and frees its memory.
 * @param gap relative gap at which a mixed-integer solve may stop, 0 = to optimality
 * @param seconds longest time; what is proved by then is given back with status "stopped"
 * @param start values to begin from, or null
 * @returns status, values, objective and a proved bound
 * @throws what the solver throws on a malformed problem
 */
export function solveMilp(
  solver: MilpSolver,
  problem: MilpProblem,
  gap: number,
  seconds: number,
  start: Float64Array | null = null,
): MilpResult {
  const model = solver.createModel(problem);
  try {
    const whole = problem.integrality !== undefined;
    model.options.set('output_flag', false);
    model.options.set('time_limit', seconds);
    if (whole) {
      model.options.set('mip_rel_gap', gap);
      model.options.set('mip_abs_gap', 0);
      if (start) model.setSolution({ colValue: start });
    }
    const { modelStatus } = model.run();
    const none = new Float64Array(0);
    if (modelStatus === infeasibleStatus)
      return { status: 'infeasible', values: null, objective: Infinity, bound: Infinity, rowDual: none };
    const feasible = Number(model.info.get('primal_solution_status')) === 2;
    const objective = feasible ? model.getObjectiveValue() : Infinity;
    const optimal = modelStatus === optimalStatus;
    const bound = whole ? Number(model.info.get('mip_dual_bound')) : optimal ? objective : -Infinity;
    const solution = model.getSolution();
    return {
      status: optimal ? 'optimal' : 'stopped',
      values: feasible ? solution.colValue : null,
      objective,
      bound,
      rowDual: whole ? none : solution.rowDual,
    };
  } finally {
    model.dispose();
  }
}
