import type { Coefficients } from '../schema/coefficient.ts';
import type { Amounts } from './amounts.ts';
import { addAmounts, amountsOf } from './amounts.ts';
import { oilCondition } from './condition.ts';
import type { Exposure, OilEngine, OilFill, OilState, RateMultipliers } from './exposure.ts';
import type { ChemicalLimitName } from './limitReach.ts';
import { chemicalLimitNames, limitReach } from './limitReach.ts';

/** Where one limit falls. */
export interface LimitAhead {
  /** from now */
  readonly left: Amounts;
  /** true: it falls there only without the duty's idling, which boils fuel off; with it a little later */
  readonly withoutIdling: boolean;
}
/** How far the oil goes from now until each chemical limit, thinning by fuel among them; null: never on this duty. */
export type LimitsAhead = Readonly<Record<ChemicalLimitName | 'thinning', LimitAhead | null>>;

/**
 * Takes the oil through coming stretches (months, say) and notes where each limit falls; the last goes on for ever.
 * Idling boils petrol off, yet more idling must never look like a gain: each limit is the nearer of the duty as it is
 * and the duty without its idling.
 * @param coming stretches in order of time, at least one, days above 0
 * @param from the oil now; left out: fresh oil
 * Throws as `oilCondition`.
 */
export function limitsAhead(
  coming: readonly Exposure[],
  engine: OilEngine,
  fill: OilFill,
  rates: RateMultipliers,
  coefficients: Coefficients,
  from?: OilState,
): LimitsAhead {
  const left = { thinning: null } as Record<ChemicalLimitName | 'thinning', LimitAhead | null>;
  for (const name of chemicalLimitNames) left[name] = null;
  let passed: Amounts = { distanceKm: 0, engineHours: 0, days: 0 };
  let state = from;
  for (let i = 0; i < coming.length; i++) {
    const stretch = coming[i];
    const last = i === coming.length - 1;
    const most = last ? Infinity : 1;
    const asIs = limitReach(stretch, engine, fill, rates, coefficients, state, most);
    const still =
      stretch.idleHours > 0
        ? limitReach({ ...stretch, idleHours: 0 }, engine, fill, rates, coefficients, state, most)
        : asIs;
    const note = (name: ChemicalLimitName | 'thinning', asItIs: number, without: number): void => {
      const times = Math.min(asItIs, without);
      if (left[name] === null && Number.isFinite(times) && (times <= 1 || last))
        left[name] = {
          left: addAmounts(passed, amountsOf(stretch, times)),
          withoutIdling: without < 0.995 * asItIs,
        };
    };
    for (const name of chemicalLimitNames) note(name, asIs.times[name], still.times[name]);
    note('thinning', asIs.thinningTimes, still.thinningTimes);
    if (last) break;
    state = oilCondition(stretch, engine, fill, rates, coefficients, state).state;
    passed = addAmounts(passed, amountsOf(stretch));
  }
  return left;
}
