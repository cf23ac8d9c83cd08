import type { Coefficients } from '../schema/coefficient.ts';
import { lookOptions } from './lookOptions.ts';
import { rankLooks, type LookRanking } from './looks.ts';
import { monthlyRate } from './monthlyRate.ts';
import type { MoneyUnit, UnitCosts } from './moneyUnit.ts';
import { rangeOf, type Range } from './range.ts';
import { renewalTiming, type TimingCents } from './renewalTiming.ts';
import type { Risk } from './risk.ts';
import type { UnitOption } from './unitOption.ts';

/** A unit judged over its months to come. */
export interface JudgedUnit {
  /** months judged: to disposal, or the catalog's horizon */
  readonly months: number;
  /** present value of running to failure, cents */
  readonly runCents: Range;
  /** month at which a renewal is expected to be cheapest; null = never */
  readonly bestMonth: number | null;
  /** saving of renewing at the best month, cents */
  readonly bestSavingCents: number;
  /** the same with its range over the draws */
  readonly bestSavingRangeCents: Range;
  /** cost of renewing a month from now less renewing now, cents; below 0: waiting saves */
  readonly waitingMonthCents: Range;
  /** chance of failure within the judged months when run on */
  readonly failureProbability: Range;
  readonly options: readonly UnitOption[];
  /** looks ranked; null when the states were not judged */
  readonly ranking: LookRanking | null;
}

/** Most parameter draws that a unit's timing is worked out for; they are taken evenly from all. */
const mostDraws = 32;

/**
 * What can be done on a unit and what it saves against running to failure, averaged over parameter draws: a renewal at the
 * best month of each year of the plan, and, where the states were judged, cleaning or the most worthwhile look now.
 * @param risk of the unit
 * @param costs complete
 * @param judgedMonths whole months to disposal or the horizon, 1 or more
 * @param planMonths months of the plan, 1 or more; renewals begin within them
 * @param coefficients `money.*` and `look.*`
 * @returns options with whole cents and 80 % ranges over the draws
 * @throws RangeError as {@link renewalTiming} and {@link rankLooks}
 * Source: discrete renewal equation; value of information.
 */
export function judgeUnit(
  unit: MoneyUnit,
  risk: Risk,
  costs: UnitCosts,
  judgedMonths: number,
  planMonths: number,
  coefficients: Coefficients,
): JudgedUnit {
  const timingCosts = {
    plannedCents: costs.plannedCents + costs.plannedDowntimeCents,
    failureCents: costs.failureCents + costs.failureDowntimeCents,
    monthlyRate: monthlyRate(coefficients),
  };
  const count = Math.min(mostDraws, risk.draws);
  const timings = Array.from({ length: count }, (_, i) =>
    renewalTiming(risk, Math.floor((i * risk.draws) / count), judgedMonths, timingCosts),
  );
  const mean = (of: (timing: TimingCents) => number) => timings.reduce((sum, t) => sum + of(t), 0) / count;
  const runMean = mean((t) => t.run);
  const meanAt = Array.from({ length: judgedMonths }, (_, month) => mean((t) => t.renewAt[month]!));
  const cheapest = (from: number, to: number) => {
    let best = from;
    for (let month = from + 1; month < to; month++) if (meanAt[month]! < meanAt[best]!) best = month;
    return best;
  };
  const best = cheapest(0, judgedMonths);
  const bestSavingCents = runMean - meanAt[best]!;
  const byDraw = (of: (timing: TimingCents) => number) => Float64Array.from(timings, of);
  const waiting = byDraw((t) => t.renewAt[Math.min(1, judgedMonths)]! - t.renewAt[0]!);
  const waitingMonthCents = rangeOf(waiting);
  const run = byDraw((t) => t.run);
  const options: UnitOption[] = [];
  for (let from = 0; from < Math.min(planMonths, judgedMonths); from += 12) {
    const month = cheapest(from, Math.min(from + 12, planMonths, judgedMonths));
    const spend = (t: TimingCents) =>
      timingCosts.plannedCents * t.survival[month]! * Math.exp(-timingCosts.monthlyRate * month);
    options.push({
      action: 'renew',
      words: 'renew the timing set and what goes with it',
      month,
      costCents: costs.plannedCents,
      hours: costs.plannedHours,
      avoidedCents: rangeOf(timings.map((t) => t.run - (t.renewAt[month]! - spend(t)))),
      netCents: runMean - meanAt[month]!,
      otherCents: costs.plannedDowntimeCents,
      waitingMonthCents,
      byDraw: { saving: byDraw((t) => t.run - t.renewAt[month]!), waiting },
      effect: 'renew',
    });
  }
  const failureProbability = rangeOf(timings.map((t) => 1 - t.survival[judgedMonths]!));
  const ranking = rankUnit(unit, costs, timings, timingCosts.plannedCents, coefficients);
  if (ranking)
    options.push(
      ...lookOptions(
        ranking,
        unit.stateProbabilities!,
        costs,
        run,
        byDraw((t) => (1 - t.survival[1]!) * timingCosts.failureCents),
        coefficients,
      ),
    );
  return {
    months: judgedMonths,
    runCents: rangeOf(run),
    bestMonth: bestSavingCents > 0 ? best : null,
    bestSavingCents,
    bestSavingRangeCents: rangeOf(timings.map((t) => t.run - t.renewAt[best]!)),
    waitingMonthCents,
    failureProbability,
    options,
    ranking,
  };
}

/** The looks for a unit, with a failure's cost set so that running costs what the timing says. */
function rankUnit(
  unit: MoneyUnit,
  costs: UnitCosts,
  timings: readonly TimingCents[],
  renewCents: number,
  coefficients: Coefficients,
): LookRanking | null {
  if (unit.stateProbabilities === null) return null;
  const months = timings[0]!.survival.length - 1;
  const mean = (of: (timing: TimingCents) => number) =>
    timings.reduce((sum, t) => sum + of(t), 0) / timings.length;
  const failureProbability = mean((t) => 1 - t.survival[months]!);
  const failureCents = failureProbability > 0 ? mean((t) => t.run) / failureProbability : 0;
  const renewed = mean((t) => t.renewedFailures);
  return rankLooks(
    {
      stateProbabilities: unit.stateProbabilities,
      failureProbability,
      renewedFailureProbability: failureCents > 0 ? Math.min(1, renewed / failureCents) : 0,
      failureCents,
      renewCents,
      labourCentsPerHour: costs.labourCentsPerHour,
      downtimeCentsPerHour: costs.downtimeCentsPerHour,
      ...(unit.looksThatFit === undefined ? {} : { fits: unit.looksThatFit }),
    },
    coefficients,
  );
}
