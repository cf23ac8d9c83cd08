import type { LookFindings, LookOutcome } from './lookFindings.ts';
import type { Random } from '../numeric/random.ts';

/** What a look led to in one draw. */
export interface DrawnLook {
  readonly outcome: LookOutcome;
  /** the failure that running on would have brought is kept off by what is done */
  readonly keptOff: boolean;
}

/**
 * Draws what a look finds, given whether the unit would fail when run on: the state by Bayes from prior and chance of
 * failing, the finding by its chance in that state, and whether the action keeps the failure off: 1 − fails/failsIfRun.
 * Over all draws cost, findings and failures are those that the look was judged by.
 * @param fails whether it fails within the judged months when run on
 * @param random three numbers of it are used
 * @returns the outcome that follows the finding
 * Source: Bayes' rule; thinning of failures.
 */
export function drawLook(findings: LookFindings, fails: boolean, random: Random): DrawnLook {
  const { prior, failsIfRun, firstIfState, outcomes } = findings;
  const weight = (state: number) => prior[state]! * (fails ? failsIfRun[state]! : 1 - failsIfRun[state]!);
  let sum = 0;
  for (let state = 0; state < prior.length; state++) sum += weight(state);
  let left = random() * sum;
  let state = 0;
  while (state < prior.length - 1 && left >= weight(state)) left -= weight(state++);
  const outcome = outcomes[random() < firstIfState[state]! ? 0 : 1]!;
  const stays = failsIfRun[state]! > 0 ? outcome.fails[state]! / failsIfRun[state]! : 1;
  return { outcome, keptOff: random() >= stays };
}
