import type { Coefficients } from '../schema/coefficient.ts';
import { chanceWords } from './chanceWords.ts';
import { coefficientValue } from './coefficientValue.ts';
import { lookStates, type LookAction, type LookRanking, type RankedLook } from './looks.ts';
import { monthlyRate } from './monthlyRate.ts';
import type { MoneyUnit, UnitCosts } from './moneyUnit.ts';
import { rangeOf, type Range } from './range.ts';
import type { UnitOption } from './unitOption.ts';

const actionWords: Readonly<Record<LookAction, string>> = { run: 'run on', clean: 'clean', renew: 'renew' };

/**
 * Cleaning now, and the most worthwhile look now with what its findings lead to. Costs are expected costs: a look's hold its
 * share of the renewals that it leads to. Ranges follow the cost of running in proportion.
 * @param ranking of the unit, its costs in cents
 * @param prior chances of the states, 0..1, sum 1
 * @param costs complete, cents and hours
 * @param runByDraw present value of running on, cents, by parameter draw
 * @param firstMonthByDraw of that: what failures of the first month are expected to cost, cents
 * @param coefficients `look.clean.hours`, `money.discount_rate`
 * @returns none where a failure is impossible or certain; cleaning only where there is something to clean
 * Source: {@link LookRanking}.
 */
export function lookOptions(
  ranking: LookRanking,
  prior: NonNullable<MoneyUnit['stateProbabilities']>,
  costs: UnitCosts,
  runByDraw: Float64Array,
  firstMonthByDraw: Float64Array,
  coefficients: Coefficients,
): UnitOption[] {
  const [run, firstMonth] = [rangeOf(runByDraw), rangeOf(firstMonthByDraw)];
  const chanceRun = ranking.actionFailureProbability.run;
  if (!(chanceRun > 0 && chanceRun < 1) || run.mid <= 0) return [];
  const failureCents = run.mid / chanceRun;
  const effectOf = (chance: number) => Math.log1p(-Math.min(chance, 1 - 1e-12)) / Math.log1p(-chanceRun);
  const avoided = (chance: number): Range => {
    const mid = (chanceRun - chance) * failureCents;
    return { low: (mid * run.low) / run.mid, mid, high: (mid * run.high) / run.mid };
  };
  // what waiting leaves open is the first month's share of the failures that the action avoids; its own cost comes later
  const rate = monthlyRate(coefficients);
  const waiting = (chance: number, ownCents: number): Range => {
    const share = (chanceRun - chance) / chanceRun;
    const later = rate * ownCents;
    return {
      low: share * firstMonth.low - later,
      mid: share * firstMonth.mid - later,
      high: share * firstMonth.high - later,
    };
  };
  const byDraw = (chance: number, netCents: number, ownCents: number): UnitOption['byDraw'] => {
    const share = (chanceRun - chance) / chanceRun;
    return {
      saving: runByDraw.map((cents) => share * (cents - run.mid) + netCents),
      waiting: firstMonthByDraw.map((cents) => share * cents - rate * ownCents),
    };
  };
  const options: UnitOption[] = [];
  const { cleanCents, cleanDowntimeCents } = ranking;
  const chanceClean = ranking.actionFailureProbability.clean;
  const cleanHours = coefficientValue(coefficients, 'look.clean.hours');
  if (cleanCents > 0) {
    const [ownCents, netCents] = [cleanCents + cleanDowntimeCents, run.mid - ranking.actionCents.clean];
    options.push({
      action: 'clean',
      words: 'clean the oil control screen and valve',
      month: 0,
      costCents: Math.round(cleanCents),
      hours: cleanHours,
      avoidedCents: avoided(chanceClean),
      netCents,
      otherCents: Math.round(cleanDowntimeCents),
      waitingMonthCents: waiting(chanceClean, ownCents),
      byDraw: byDraw(chanceClean, netCents, ownCents),
      effect: effectOf(chanceClean),
    });
  }
  const look = ranking.looks[0];
  if (look) {
    const share = (action: LookAction) =>
      look.findings.reduce((sum, finding) => sum + (finding.action === action ? finding.chance : 0), 0);
    const netCents = run.mid - look.costCents;
    const ownCents = look.costCents - look.failureProbability * failureCents;
    options.push({
      action: 'look',
      words: lookWords(look),
      month: 0,
      costCents: Math.round(
        look.lookCents + share('renew') * costs.plannedCents + share('clean') * cleanCents,
      ),
      hours: look.lookHours + share('renew') * costs.plannedHours + share('clean') * cleanHours,
      avoidedCents: avoided(look.failureProbability),
      netCents,
      otherCents: Math.round(
        look.lookDowntimeCents +
          share('renew') * costs.plannedDowntimeCents +
          share('clean') * cleanDowntimeCents,
      ),
      waitingMonthCents: waiting(look.failureProbability, ownCents),
      byDraw: byDraw(look.failureProbability, netCents, ownCents),
      effect: effectOf(look.failureProbability),
      findings: {
        prior: lookStates.map((state) => prior[state]),
        failsIfRun: ranking.failureIfState.run,
        firstIfState: look.firstIfState,
        outcomes: look.findings.map(({ action }) => ({
          action,
          cents: look.lookCents + { run: 0, clean: cleanCents, renew: costs.plannedCents }[action],
          otherCents:
            look.lookDowntimeCents +
            { run: 0, clean: cleanDowntimeCents, renew: costs.plannedDowntimeCents }[action],
          fails: ranking.failureIfState[action],
        })),
      },
    });
  }
  return options;
}

/** The look and what each finding leads to. */
function lookWords({ words, findings }: RankedLook): string {
  const leads = findings.map(
    ({ finding, chance, action }) => `${finding} (${chanceWords(chance)}): ${actionWords[action]}`,
  );
  return `${words} first; ${leads.join(', ')}`;
}
