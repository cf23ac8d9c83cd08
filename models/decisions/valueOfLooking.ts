/** A choice under uncertainty with a look that may be taken first. Rows by action or result, columns by state. */
export interface LookProblem {
  /** probability of each state, 0..1, sum 1 */
  readonly prior: readonly number[];
  /** cost of each action in each state, cents; negative = gain */
  readonly costCents: readonly (readonly number[])[];
  /** probability of each result of the look in each state; each column sums to 1 */
  readonly likelihood: readonly (readonly number[])[];
  /** cost of the look itself, cents, 0 or more */
  readonly lookCents: number;
}

/** What one result of a look leads to. */
export interface LookResult {
  /** probability of the result, 0..1 */
  readonly chance: number;
  /** probability of each state after it; the prior where the result can not occur */
  readonly posterior: readonly number[];
  /** index of the best action after it */
  readonly action: number;
  /** expected cost of that action, cents */
  readonly costCents: number;
}

/** The worth of looking before acting. */
export interface LookValue {
  /** index of the best action without a look */
  readonly actionNow: number;
  /** expected cost of it, cents */
  readonly costNowCents: number;
  /** worth of knowing the state for certain, cents, 0 or more */
  readonly perfectCents: number;
  /** worth of the look before its own cost, cents, 0 up to perfectCents; exactly 0 where no result changes the action */
  readonly lookWorthCents: number;
  /** lookWorthCents − lookCents */
  readonly netCents: number;
  readonly results: readonly LookResult[];
}

/**
 * Value of information for any number of states, results and actions:
 * worth of the look = min_a Σ p_s c_as − Σ_r min_a Σ_s p_s l_rs c_as; perfect knowledge = min_a Σ p_s c_as − Σ_s p_s min_a c_as.
 * @param problem see {@link LookProblem}
 * @returns worth of looking; drilling for oil (700/−100 against 90, oil .25, survey 30) → look worth 53 of at most 142.5
 * @throws RangeError when shapes differ, a probability lies outside 0..1 or a column does not sum to 1
 * Source: Raiffa & Schlaifer, Applied Statistical Decision Theory (1961).
 */
export function valueOfLooking(problem: LookProblem): LookValue {
  checkProblem(problem);
  const { prior, costCents, likelihood, lookCents } = problem;
  const actionNow = bestAction(costCents, prior, -1);
  const costNowCents = expected(costCents[actionNow]!, prior);
  let known = 0;
  prior.forEach((chance, state) => {
    if (chance > 0) known += chance * Math.min(...costCents.map((row) => row[state]!));
  });
  const perfectCents = Math.max(0, costNowCents - known);
  let gain = 0;
  const results = likelihood.map((row) => {
    const joint = row.map((share, state) => share * prior[state]!);
    const chance = joint.reduce((a, b) => a + b, 0);
    const posterior = chance > 0 ? joint.map((part) => part / chance) : prior;
    const action = bestAction(costCents, posterior, actionNow);
    const cost = expected(costCents[action]!, posterior);
    if (action !== actionNow && chance > 0)
      gain += expected(costCents[actionNow]!, joint) - expected(costCents[action]!, joint);
    return { chance, posterior, action, costCents: cost };
  });
  const lookWorthCents = Math.min(perfectCents, Math.max(0, gain));
  return {
    actionNow,
    costNowCents,
    perfectCents,
    lookWorthCents,
    netCents: lookWorthCents - lookCents,
    results,
  };
}

function expected(costs: readonly number[], weights: readonly number[]): number {
  let sum = 0;
  for (let state = 0; state < weights.length; state++) sum += weights[state]! * costs[state]!;
  return sum;
}

/** The cheapest action; the favoured one where it is as cheap, so that a look that changes nothing is worth exactly 0. */
function bestAction(
  costCents: LookProblem['costCents'],
  weights: readonly number[],
  favoured: number,
): number {
  let best = favoured >= 0 ? favoured : 0;
  let least = expected(costCents[best]!, weights);
  for (let action = 0; action < costCents.length; action++) {
    const cost = expected(costCents[action]!, weights);
    if (cost < least) [best, least] = [action, cost];
  }
  return best;
}

function checkProblem({ prior, costCents, likelihood, lookCents }: LookProblem): void {
  const states = prior.length;
  if (states === 0 || costCents.length === 0 || likelihood.length === 0)
    throw new RangeError('a look needs at least one state, one action and one result');
  for (const row of [...costCents, ...likelihood])
    if (row.length !== states) throw new RangeError(`each row must have ${states} states, got ${row.length}`);
  for (const row of [prior, ...likelihood])
    for (const share of row)
      if (!(share >= 0 && share <= 1)) throw new RangeError(`a probability must lie in 0..1, got ${share}`);
  for (const row of costCents)
    for (const cost of row)
      if (!Number.isFinite(cost)) throw new RangeError(`a cost must be a number, got ${cost}`);
  const whole = prior.reduce((a, b) => a + b, 0);
  if (Math.abs(whole - 1) > 1e-6) throw new RangeError(`prior must sum to 1, got ${whole}`);
  for (let state = 0; state < states; state++) {
    const column = likelihood.reduce((sum, row) => sum + row[state]!, 0);
    if (Math.abs(column - 1) > 1e-6)
      throw new RangeError(`likelihood of state ${state} must sum to 1, got ${column}`);
  }
  if (!(lookCents >= 0 && Number.isFinite(lookCents)))
    throw new RangeError(`lookCents must be 0 or above, got ${lookCents}`);
}
