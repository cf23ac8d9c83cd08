import type { Differential } from '../wear/symptomDesk.ts';
import type { SymptomTable } from '../wear/symptomTable.ts';

/** What one check is worth, in words a shop can use. */
export interface CheckGain {
  readonly check: string;
  readonly label: string;
  readonly minutes: number;
  /** chance that the check finds something, 0..1 */
  readonly foundChance: number;
  /** likeliest cause if it finds something, and if it does not, with its chance */
  readonly ifFound: { readonly label: string; readonly probability: number };
  readonly ifNot: { readonly label: string; readonly probability: number };
  /** chance that the likeliest cause is the right one: now, and on average after the check */
  readonly rightNow: number;
  readonly rightAfter: number;
}

/**
 * What each check not done yet would bring, in the order of the differential: the chance of naming the right cause now and
 * after it. Formula: Σ_r P(r) max_c P(c | r), by Bayes' rule; never below the chance now.
 * @param most how many checks to work out
 */
export function symptomGain(answer: Differential, table: SymptomTable, most: number): readonly CheckGain[] {
  const chanceOf = new Map(answer.causes.map(({ cause, probability }) => [cause, probability]));
  const prior = table.causes.map(({ id }) => chanceOf.get(id) ?? 0);
  const rightNow = Math.max(...prior);
  return answer.checks.slice(0, most).map(({ check, label, minutes }): CheckGain => {
    const positive = table.checks.find(({ id }) => id === check)?.positive;
    const likelihood = table.causes.map(({ id }) => positive?.[id] ?? 0.5);
    const found = leader(table, prior, likelihood);
    const not = leader(
      table,
      prior,
      likelihood.map((chance) => 1 - chance),
    );
    return {
      check,
      label,
      minutes,
      foundChance: found.chance,
      ifFound: { label: found.label, probability: found.probability },
      ifNot: { label: not.label, probability: not.probability },
      rightNow,
      rightAfter: Math.max(rightNow, found.chance * found.probability + not.chance * not.probability),
    };
  });
}

/** The likeliest cause after one result, with its chance and the chance of the result. */
function leader(
  table: SymptomTable,
  prior: readonly number[],
  likelihood: readonly number[],
): { label: string; probability: number; chance: number } {
  const joint = prior.map((p, cause) => p * likelihood[cause]);
  const chance = joint.reduce((sum, p) => sum + p, 0);
  const best = joint.indexOf(Math.max(...joint));
  return {
    label: table.causes[best].label,
    probability: chance > 0 ? joint[best] / chance : prior[best],
    chance,
  };
}
