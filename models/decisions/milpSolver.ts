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
  run(watch?: { readonly 6?: (event: MilpEvent) => undefined }): { readonly modelStatus: number };
  getSolution(): { readonly colValue: Float64Array; readonly rowDual: Float64Array };
  getObjectiveValue(): number;
  setSolution(start: { readonly colValue: Float64Array }): unknown;
  dispose(): void;
}

/** What a mixed-integer solve tells on its way. */
export interface MilpEvent {
  readonly data: { readonly mip_total_lp_iterations?: bigint; readonly mip_dual_bound?: number };
  interrupt(): void;
}

/** Ends a mixed-integer solve by what was done, not by the clock, so that the same problem gives the same answer. */
export interface MilpLimits {
  /** most nodes of the tree */
  readonly nodes: number;
  /** most steps of the simplex method */
  readonly steps: number;
  /** gap at which the solve may stop, in units of the objective */
  readonly absoluteGap: number;
  /** a solve whose bound is below this after so many steps is given up; left out: none is */
  readonly hope?: { readonly steps: number; readonly bound: number };
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
  /** steps of the simplex method */
  readonly steps: number;
}

// model status codes of the HiGHS C interface
const optimalStatus = 7;
const infeasibleStatus = 8;

/**
 * Solves one problem with HiGHS (Huangfu & Hall, Mathematical Programming Computation 10, 2018) and frees its memory.
 * @param gap relative gap at which a mixed-integer solve may stop, 0 = to optimality
 * @param seconds longest time; what is proved by then is given back with status "stopped"
 * @param start values to begin from, or null
 * @param limits of a mixed-integer solve beside the time, or null
 * @returns status, values, objective and a proved bound
 * @throws what the solver throws on a malformed problem
 */
export function solveMilp(
  solver: MilpSolver,
  problem: MilpProblem,
  gap: number,
  seconds: number,
  start: Float64Array | null = null,
  limits: MilpLimits | null = null,
): MilpResult {
  const model = solver.createModel(problem);
  try {
    const whole = problem.integrality !== undefined;
    model.options.set('output_flag', false);
    if (seconds < Infinity) model.options.set('time_limit', seconds);
    if (whole) {
      model.options.set('mip_rel_gap', gap);
      model.options.set('mip_abs_gap', limits?.absoluteGap ?? 0);
      if (limits) {
        model.options.set('mip_max_nodes', limits.nodes);
        // a second root would take the steps that the tree is to have
        model.options.set('mip_allow_restart', false);
      }
      if (start) model.setSolution({ colValue: start });
    }
    const { modelStatus } = model.run(
      limits === null
        ? undefined
        : {
            6: (event) => {
              const steps = Number(event.data.mip_total_lp_iterations ?? 0);
              const { hope } = limits;
              const hopeless =
                hope !== undefined &&
                steps > hope.steps &&
                (event.data.mip_dual_bound ?? Infinity) < hope.bound;
              if (hopeless || steps > limits.steps) event.interrupt();
              return undefined;
            },
          },
    );
    const none = new Float64Array(0);
    const steps = Math.max(0, Number(model.info.get('simplex_iteration_count')));
    if (modelStatus === infeasibleStatus)
      return {
        status: 'infeasible',
        values: null,
        objective: Infinity,
        bound: Infinity,
        rowDual: none,
        steps,
      };
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
      steps,
    };
  } finally {
    model.dispose();
  }
}
