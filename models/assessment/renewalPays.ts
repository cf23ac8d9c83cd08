import { unitCosts } from '../decisions/moneyUnit.ts';
import { recommendUnit } from '../decisions/unitRecommendation.ts';
import { moneyRangeWords } from '../decisions/words.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import {
  daysAheadOf,
  evenDeviates,
  moneyUnitOf,
  monthsInPlace,
  unrenewedChance,
  type MoneySetting,
  type MoneyView,
} from './moneyUnitOf.ts';

/** Whether a planned renewal is worth its cost, for the call on a unit. */
export interface RenewalPays {
  readonly now: boolean;
  readonly within12Months: boolean;
  /** what it is worth, in words; null where it is worth nothing */
  readonly words: string | null;
}

const never: RenewalPays = { now: false, within12Months: false, words: null };
const daysPerMonth = 365.25 / 12;
/** A call needs the range of the saving only, so few draws do. */
const drawCount = 8;

/** How money is judged for the calls: the same few even draws for every unit. */
export function callMoneySetting(horizonDays: number, shape: number): MoneySetting {
  return {
    horizonDays,
    shape,
    fleetDeviates: evenDeviates(drawCount),
    fleetShare: 1,
    random: () => 0.5,
  };
}

/**
 * Whether a renewal pays now or within 12 months. It must save at least `money.least_saving_cents` even at the low end of
 * its own 80 % range, and "now" also means that a month's wait costs more than it saves at the low end of its range.
 * @param currency ISO 4217, for the words
 * @returns never for a unit that is covered, soon gone, or not known
 * Source: `recommendUnit`; the margin is common practice, no source.
 */
export function renewalPays(
  view: MoneyView,
  setting: MoneySetting,
  currency: string,
  coefficients: Coefficients,
): RenewalPays {
  if (view.failure === null || !mightPay(view, setting, coefficients)) return never;
  const unit = moneyUnitOf(view, setting);
  const { judged, cover } = recommendUnit(unit, view.timeline.asOfDay, 12, coefficients);
  if (judged === null || cover.covered || judged.bestMonth === null) return never;
  const least = coefficients['money.least_saving_cents'];
  if (judged.bestMonth > 12 || judged.bestSavingRangeCents.low < least) return never;
  const { low, high } = judged.bestSavingRangeCents;
  const saving = moneyRangeWords({ low, mid: judged.bestSavingCents, high }, currency);
  const waiting = judged.waitingMonthCents;
  if (judged.bestMonth > 0 || waiting.low < 0)
    return {
      now: false,
      within12Months: true,
      words: `a renewal ${judged.bestMonth === 0 ? 'soon' : `in about ${judged.bestMonth} ${judged.bestMonth === 1 ? 'month' : 'months'}`} is expected to save ${saving}, against running to failure`,
    };
  return {
    now: true,
    within12Months: true,
    words: `a renewal now is expected to save ${saving}, against running to failure; each month's wait costs ${moneyRangeWords(waiting, currency)}`,
  };
}

/**
 * Whether a renewal can pay at all: what failures can cost over the judged months, were every failure mended only, must
 * exceed a renewal; cheap, so that most of a fleet is told apart by it.
 */
export function mightPay(view: MoneyView, setting: MoneySetting, coefficients: Coefficients): boolean {
  const { plannedCents, plannedDowntimeCents, failureCents, failureDowntimeCents } = unitCosts(
    moneyUnitOf({ ...view, failure: null }, setting),
    coefficients,
  );
  const { probability, low, high } = unrenewedChance(view.failure!);
  const logHazard = (chance: number): number => Math.log(-Math.log1p(-chance));
  const logSd = (logHazard(high) - logHazard(low)) / 2.563;
  const age = monthsInPlace(view);
  const power = (months: number): number => (age + months) ** setting.shape;
  const ahead = daysAheadOf(view, setting.horizonDays) / daysPerMonth;
  const grown = (power(coefficients['money.judged_months']) - power(0)) / (power(ahead) - power(0));
  const failures = Math.exp(logHazard(probability) + logSd ** 2 / 2) * grown;
  return failures * (failureCents + failureDowntimeCents) > plannedCents + plannedDowntimeCents;
}
