/** One thing that may be done on a unit in one year of the plan. Running on is always there and costs nothing. */
export interface PortfolioOption {
  /** renew, look, clean, … */
  readonly action: string;
  /** year of the plan from 0 */
  readonly year: number;
  /** money it takes from that year's budget, whole cents, 0 or more */
  readonly costCents: number;
  /** shop hours it takes in that year, 0 or more */
  readonly hours: number;
  /** expected saving against running on, its own cost taken off where wanted; may be negative, cents */
  readonly valueCents: number;
}

export interface PortfolioUnit {
  readonly unitNumber: string;
  readonly options: readonly PortfolioOption[];
  /** true: some option must be taken; an action: that one must be taken */
  readonly mustDo?: boolean | string;
  /** true: nothing may be done; actions: these may not be taken */
  readonly mustNot?: boolean | readonly string[];
}

/** A choice of at most one option for each unit under limits. Infinity = no limit. */
export interface PortfolioProblem {
  readonly units: readonly PortfolioUnit[];
  /** one entry a year, cents, up to five years */
  readonly budgetCentsByYear: readonly number[];
  /** one entry a year, h */
  readonly hoursByYear: readonly number[];
  /** over all years, cents */
  readonly totalBudgetCents: number;
}

/** How far to go. */
export interface PortfolioEffort {
  /** relative gap at which the search may stop, 0 = prove the best */
  readonly gap: number;
  /** longest time of each solver run, s */
  readonly seconds: number;
}

/** The problem flattened for fast loops: items of all units one after another, limits as rows. */
export interface PortfolioItems {
  readonly unitCount: number;
  readonly rowCount: number;
  /** limit of each row */
  readonly limits: Float64Array;
  /** items of unit u are start[u] up to start[u + 1] */
  readonly start: Int32Array;
  /** index of the item among its unit's options */
  readonly option: Int32Array;
  readonly valueCents: Float64Array;
  /** use of row k by item i at i·rowCount + k */
  readonly use: Float64Array;
  /** 1 where the unit may be left to run */
  readonly mayRun: Uint8Array;
  readonly notes: readonly string[];
}

/** A choice: item index of each unit, −1 = run. */
export type Choice = Int32Array;

/**
 * Flattens a portfolio. Options that are not allowed, or that no limit would ever let through, are left out.
 * @throws RangeError for a negative cost or hours, a year outside the plan, or a limit that is negative or NaN
 */
export function portfolioItems(problem: PortfolioProblem): PortfolioItems {
  const years = problem.budgetCentsByYear.length;
  if (years < 1 || years > 5 || problem.hoursByYear.length !== years)
    throw new RangeError(
      `budgetCentsByYear and hoursByYear must have the same 1 to 5 years, got ${years} and ${problem.hoursByYear.length}`,
    );
  const all = [...problem.budgetCentsByYear, ...problem.hoursByYear, problem.totalBudgetCents];
  for (const limit of all)
    if (!(limit >= 0)) throw new RangeError(`a limit must be 0 or above, got ${limit}`);
  const rows = all.map((limit, index) => ({ limit, index })).filter((row) => row.limit < Infinity);
  const notes: string[] = [];
  const start = new Int32Array(problem.units.length + 1);
  const mayRun = new Uint8Array(problem.units.length);
  const option: number[] = [];
  const value: number[] = [];
  const use: number[] = [];
  problem.units.forEach((unit, u) => {
    const must = unit.mustDo ?? false;
    unit.options.forEach((entry, index) => {
      checkOption(unit.unitNumber, entry, years);
      const barred =
        unit.mustNot === true || (Array.isArray(unit.mustNot) && unit.mustNot.includes(entry.action));
      if (barred || (typeof must === 'string' && entry.action !== must)) return;
      option.push(index);
      value.push(entry.valueCents);
      for (const row of rows) use.push(useOf(entry, row.index, years));
    });
    start[u + 1] = option.length;
    mayRun[u] = must === false || start[u + 1] === start[u] ? 1 : 0;
    if (must !== false && start[u + 1] === start[u])
      notes.push(`${unit.unitNumber}: nothing that must be done may be done; it is left to run`);
  });
  return {
    unitCount: problem.units.length,
    rowCount: rows.length,
    limits: Float64Array.from(rows, (row) => row.limit),
    start,
    option: Int32Array.from(option),
    valueCents: Float64Array.from(value),
    use: Float64Array.from(use),
    mayRun,
    notes,
  };
}

function useOf(entry: PortfolioOption, row: number, years: number): number {
  if (row === 2 * years) return entry.costCents;
  if (row < years) return row === entry.year ? entry.costCents : 0;
  return row - years === entry.year ? entry.hours : 0;
}

function checkOption(unitNumber: string, entry: PortfolioOption, years: number): void {
  for (const field of ['costCents', 'hours'] as const)
    if (!(entry[field] >= 0 && Number.isFinite(entry[field])))
      throw new RangeError(`${field} of ${unitNumber} must be 0 or above, got ${entry[field]}`);
  if (!Number.isFinite(entry.valueCents))
    throw new RangeError(`valueCents of ${unitNumber} must be a number, got ${entry.valueCents}`);
  if (!(Number.isInteger(entry.year) && entry.year >= 0 && entry.year < years))
    throw new RangeError(`year of ${unitNumber} must be a year of the plan from 0, got ${entry.year}`);
}

/** What a choice is worth, cents. */
export function choiceValue(items: PortfolioItems, choice: Choice): number {
  let sum = 0;
  for (const item of choice) if (item >= 0) sum += items.valueCents[item]!;
  return sum;
}

/** What is left of each row after a choice; negative = over the limit. */
export function slackAfter(items: PortfolioItems, choice: Choice): Float64Array {
  const left = items.limits.slice();
  for (const item of choice)
    if (item >= 0) for (let k = 0; k < items.rowCount; k++) left[k]! -= items.use[item * items.rowCount + k]!;
  return left;
}

/** Whether a choice keeps within all limits (to a millionth of a cent or hour). */
export function fits(left: Float64Array): boolean {
  for (const value of left) if (value < -1e-6) return false;
  return true;
}
