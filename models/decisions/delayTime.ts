import { crossing } from './ageReplacement.ts';

/** Looking at a fixed interval for defects that show before they fail. */
export interface InspectionPolicy {
  /** best time between inspections, in the unit of the rates; null = do not inspect */
  readonly every: number | null;
  /** cents per unit of time under the policy */
  readonly centsPerUnit: number;
  /** failures per unit of time under the policy */
  readonly failuresPerUnit: number;
  /** cents per unit of time without inspections */
  readonly runToFailureCentsPerUnit: number;
  readonly notes: readonly string[];
}

/** What the delay-time model takes. */
export interface DelayTimeInputs {
  /** defects arising per unit of time, above 0 */
  readonly defectsPerUnit: number;
  /** 1 ÷ mean time from a defect showing to its failure, per unit of time, above 0 */
  readonly failureRateOfDefect: number;
  /** cost of one inspection, cents, above 0 */
  readonly inspectionCents: number;
  /** cost of mending a defect found, cents, 0 or more */
  readonly repairCents: number;
  /** cost of a failure, cents, 0 or more */
  readonly failureCents: number;
}

/**
 * Best inspection interval with exponential delay time and perfect inspections: failures between inspections
 * B(T) = k[T − (1 − e^(−μT))/μ], cost rate (inspection + failure·B + repair·(kT − B))/T.
 * @returns k .08, μ .25, costs 60, 140, 5200 → every 1.2021 at 116.277 a unit against 416 without
 * @throws RangeError for values out of range
 * Source: Christer & Waller, Journal of the Operational Research Society 35 (1984) 401–406.
 */
export function bestInspectionInterval(inputs: DelayTimeInputs): InspectionPolicy {
  const { defectsPerUnit, failureRateOfDefect, inspectionCents, repairCents, failureCents } = inputs;
  for (const field of ['defectsPerUnit', 'failureRateOfDefect', 'inspectionCents'] as const)
    if (!(inputs[field] > 0 && Number.isFinite(inputs[field])))
      throw new RangeError(`${field} must be above 0, got ${inputs[field]}`);
  for (const field of ['repairCents', 'failureCents'] as const)
    if (!(inputs[field] >= 0 && Number.isFinite(inputs[field])))
      throw new RangeError(`${field} must be 0 or above, got ${inputs[field]}`);
  const without = defectsPerUnit * failureCents;
  const none = (note: string): InspectionPolicy => ({
    every: null,
    centsPerUnit: without,
    failuresPerUnit: defectsPerUnit,
    runToFailureCentsPerUnit: without,
    notes: [note],
  });
  const saved = failureCents - repairCents;
  if ((saved * defectsPerUnit) / failureRateOfDefect <= inspectionCents)
    return none('what inspections save does not cover their cost');
  const failuresBetween = (every: number) =>
    defectsPerUnit * (every + Math.expm1(-failureRateOfDefect * every) / failureRateOfDefect);
  const excess = (every: number) => {
    const decay = Math.exp(-failureRateOfDefect * every);
    const gain = (1 - decay) / failureRateOfDefect - every * decay;
    return saved * defectsPerUnit * gain - inspectionCents;
  };
  let far = 1 / failureRateOfDefect;
  for (let step = 0; excess(far) <= 0; step++) {
    if (step > 60) return none('the best interval is out of sight');
    far *= 2;
  }
  const every = crossing(excess, 0, far);
  const failures = failuresBetween(every);
  return {
    every,
    centsPerUnit: (inspectionCents + saved * failures) / every + repairCents * defectsPerUnit,
    failuresPerUnit: failures / every,
    runToFailureCentsPerUnit: without,
    notes: [],
  };
}
