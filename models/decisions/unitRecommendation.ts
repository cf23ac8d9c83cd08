import type { Coefficients } from '../schema/coefficient.ts';
import { isoFromDay, type IsoDate } from '../schema/day.ts';
import { chanceWords } from './chanceWords.ts';
import { coefficientValue } from './coefficientValue.ts';
import { unitCosts, type MoneyUnit, type UnitCosts } from './moneyUnit.ts';
import { wholeCents, type Range } from './range.ts';
import { riskOf, type Risk } from './risk.ts';
import type { UnitOption } from './unitOption.ts';
import { judgeUnit, type JudgedUnit } from './unitOptions.ts';
import { coverOf, type Cover } from './warranty.ts';
import { moneyWords } from './words.ts';

/** What to do on one unit, with reasons. */
export interface UnitRecommendation {
  readonly unitNumber: string;
  readonly action: 'renew' | 'look' | 'clean' | 'run';
  /** what exactly, in words */
  readonly words: string;
  /** best day; null for running on */
  readonly on: IsoDate | null;
  /** a look, a cleaning or a renewal is worth its cost now */
  readonly paysNow: boolean;
  /** a renewal becomes worth its cost within 12 months */
  readonly paysWithin12Months: boolean;
  /** present value of the failures avoided by the action over the judged months, cents */
  readonly avoidedCents: Range;
  /** expected saving after the action's own cost, cents */
  readonly netCents: number;
  /** renewing a month from now less renewing now, cents; below 0: waiting saves; null = not judged */
  readonly waitingMonthCents: Range | null;
  /** claim by this day, where the unit is covered */
  readonly claimByOn: IsoDate | null;
  /** why, in words; never empty */
  readonly reasons: readonly string[];
  /** costs that were filled from defaults, in words */
  readonly assumptions: readonly string[];
  readonly judged: JudgedUnit | null;
  readonly costs: UnitCosts;
  readonly cover: Cover;
  readonly risk: Risk | null;
}

const daysPerMonth = 365.25 / 12;
const nothing: Range = { low: 0, mid: 0, high: 0 };

/**
 * Renew, look first, clean or run on. The option with the greatest expected saving over the judged months wins if it
 * saves at least `money.least_saving_cents`; a covered unit is never told to pay; a unit that is soon gone is left alone
 * unless even the short time left pays.
 * @param unit see {@link MoneyUnit}
 * @param asOfDay days since 1970-01-01
 * @param planMonths months within which an action may begin, 1 or more
 * @param coefficients `money.*` and `look.*`
 * @param currency ISO 4217 for the words; left out: amounts stand by themselves
 * @returns action, best day, saving and its 80 % range, cost of waiting a month, reasons in words
 * @throws RangeError when an input is impossible (negative cost, share outside 0..1)
 * Source: {@link judgeUnit}; the rules are common practice, no source.
 */
export function recommendUnit(
  unit: MoneyUnit,
  asOfDay: number,
  planMonths: number,
  coefficients: Coefficients,
  currency = '',
): UnitRecommendation {
  const costs = unitCosts(unit, coefficients, currency);
  const cover = coverOf(unit.warranty, asOfDay);
  const horizon = coefficientValue(coefficients, 'money.judged_months');
  const untilDisposal = unit.disposalDay === null ? Infinity : (unit.disposalDay - asOfDay) / daysPerMonth;
  const base = {
    unitNumber: unit.unitNumber,
    claimByOn: cover.claimByOn,
    assumptions: costs.assumptions,
    costs,
    cover,
  };
  const leave = (
    reasons: readonly string[],
    judged: JudgedUnit | null,
    risk: Risk | null,
  ): UnitRecommendation => ({
    ...base,
    action: 'run',
    words: 'run on',
    on: null,
    paysNow: false,
    paysWithin12Months: false,
    avoidedCents: nothing,
    netCents: 0,
    waitingMonthCents: judged && wholeCents(judged.waitingMonthCents),
    reasons,
    judged,
    risk,
  });
  if (unit.disposalDay !== null && untilDisposal <= 0)
    return leave(
      [`disposal on ${isoFromDay(unit.disposalDay)} has passed: nothing is left to gain`],
      null,
      null,
    );
  if (unit.risk === null) return leave(['the chance of failure is not known'], null, null);
  const risk = riskOf(unit.risk);
  const months = Math.max(1, Math.round(Math.min(horizon, untilDisposal)));
  const judged = judgeUnit(unit, risk, costs, months, planMonths, coefficients);
  if (cover.covered) return covered(leave(cover.reasons, judged, risk), asOfDay, coefficients);
  const least = coefficientValue(coefficients, 'money.least_saving_cents');
  const best = bestOption(judged, planMonths);
  if (best === null || best.netCents < Math.max(least, Number.EPSILON))
    return {
      ...leave(leaveReasons(unit, costs, judged, untilDisposal, coefficients), judged, risk),
      paysWithin12Months:
        judged.bestMonth !== null && judged.bestMonth <= 12 && judged.bestSavingCents >= least,
    };
  const renewal = best.action === 'renew';
  return {
    ...leave([], judged, risk),
    action: best.action,
    words: best.words,
    on: isoFromDay(asOfDay + Math.round(best.month * daysPerMonth)),
    paysNow: best.month === 0,
    paysWithin12Months:
      judged.bestMonth !== null && judged.bestMonth <= 12 && judged.bestSavingCents >= least,
    avoidedCents: wholeCents(best.avoidedCents),
    netCents: Math.round(best.netCents),
    reasons: [
      `over ${judged.months} months the chance of failure is ${chanceWords(judged.failureProbability.mid)} when run on`,
      renewal && best.month > 0
        ? `renewing is cheapest in about ${best.month} months; before that waiting saves`
        : `acting now is expected to save ${moneyWords(best.netCents, currency)} after its own cost of ${moneyWords(best.costCents, currency)}`,
      ...lookReasons(best, judged),
      ...costs.notes,
    ],
  };
}

/** The option with the greatest saving; none when renewing after the plan saves more than anything within it. */
function bestOption(judged: JudgedUnit, planMonths: number): UnitOption | null {
  let best: UnitOption | null = null;
  for (const option of judged.options) if (best === null || option.netCents > best.netCents) best = option;
  return best !== null && savesByWaiting(judged, planMonths, best) ? null : best;
}

/** Whether leaving the unit alone and renewing it after the plan saves more than the option. */
export function savesByWaiting(judged: JudgedUnit, planMonths: number, option: UnitOption): boolean {
  const { bestMonth, bestSavingCents } = judged;
  return bestMonth !== null && bestMonth >= planMonths && bestSavingCents >= option.netCents;
}

function covered(left: UnitRecommendation, asOfDay: number, coefficients: Coefficients): UnitRecommendation {
  const { judged, risk, cover } = left;
  if (!judged || !risk) return left;
  const until = cover.claimByDay === null ? judged.months : (cover.claimByDay - asOfDay) / daysPerMonth;
  let chance = 0;
  for (let draw = 0; draw < risk.draws; draw++) {
    let hazard = 0;
    for (let part = 0; part < risk.parts; part++) hazard += risk.hazard(part, draw, Math.max(0, until));
    chance -= Math.expm1(-hazard) / risk.draws;
  }
  if (chance < coefficientValue(coefficients, 'money.claim_look_probability')) return left;
  return {
    ...left,
    reasons: [
      ...cover.reasons,
      `worth a look before the cover ends: chance of failure until then ${chanceWords(chance)}`,
    ],
  };
}

function lookReasons(best: UnitOption, judged: JudgedUnit): string[] {
  if (best.action !== 'look' || !judged.ranking) return [];
  const findings = judged.ranking.looks[0]!.findings;
  return findings.map(
    (f) => `${f.finding} (${chanceWords(f.chance)}): ${f.action === 'run' ? 'run on' : f.action}`,
  );
}

function leaveReasons(
  unit: MoneyUnit,
  costs: UnitCosts,
  judged: JudgedUnit,
  untilDisposal: number,
  coefficients: Coefficients,
): string[] {
  const chance = `chance of failure until then ${chanceWords(judged.failureProbability.mid)}`;
  if (
    unit.disposalDay !== null &&
    untilDisposal <= coefficientValue(coefficients, 'money.soon_disposed_months')
  )
    return [
      `disposed of on ${isoFromDay(unit.disposalDay)}: nothing done now would earn its cost back (${chance})`,
    ];
  if (costs.notes.length > 0) return [...costs.notes];
  if (judged.bestMonth !== null && judged.bestSavingCents > 0)
    return [`a renewal becomes cheapest in about ${judged.bestMonth} months: until then waiting saves`];
  return [
    `nothing is expected to save more than it costs (chance of failure ${chanceWords(judged.failureProbability.mid)} over ${judged.months} months)`,
  ];
}
