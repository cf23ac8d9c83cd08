import type { HoursRule } from './clocks.ts';
import type { CovariateSpec } from './covariateSpec.ts';
import type { Learned } from './learned.ts';

export interface FitFacts {
  readonly episodes: number;
  readonly failures: number;
  readonly leftOut: number;
  readonly hours: HoursRule;
  readonly paretoK: number | null;
  readonly converged: boolean;
  readonly covariates: readonly CovariateSpec[];
}

/** What a reader must know of a fit, in sentences. */
export function fitMessages(facts: FitFacts, learned: Learned): string[] {
  const { failures, leftOut, hours, paretoK, converged } = facts;
  const messages: string[] = [];
  const seen = Math.round(failures * 10) / 10;
  if (facts.episodes === 0)
    messages.push('No timing set with any use in the records: chances are the prior range alone.');
  else if (failures === 0)
    messages.push(
      'No failure in the records: chances are the prior range, lowered by the use survived so far.',
    );
  else if (failures < 5)
    messages.push(
      `Only ${seen} failures in the records: chances rest on the prior range more than on own data.`,
    );
  else if (failures < 20)
    messages.push(`${seen} failures in the records: ranges are wide, and ranks of units uncertain.`);
  if (!hours.anyKnown) messages.push('No engine hours in the records: wear is counted by distance.');
  if (leftOut > 0)
    messages.push(`${leftOut} failed timing sets have no recorded use and are left out of the fit.`);
  if (paretoK !== null && paretoK > 0.7)
    messages.push(`The ranges are rough: resampling reached a Pareto k of ${paretoK.toFixed(2)}, above 0.7.`);
  if (!converged) messages.push('The fit did not settle fully: take the chances with care.');
  for (const { name, effect } of learned.effects) {
    const direction = facts.covariates.find((spec) => spec.name === name)?.direction ?? 0;
    if (direction * effect.low < 0 && direction * effect.high < 0)
      messages.push(`The records say the opposite of what is expected of "${name}".`);
  }
  return messages;
}
