import type { Coefficients } from '../schema/coefficient.ts';
import { isoFromDay } from '../schema/day.ts';
import type { PromiseKept, PromiseMonth } from '../schema/promise.ts';
import { chargeAdvice } from './chargeAdvice.ts';
import type { UnitView } from './unitView.ts';

const monthsShown = 13;

/** How the oil changes of one unit fell, and how long it is past due. Plain data. */
export interface UnitPromise {
  readonly unitNumber: string;
  readonly site: string;
  readonly changes: readonly { readonly month: string; readonly fell: 'early' | 'onTime' | 'late' }[];
  readonly notJudged: number;
  /** d; null: not past due, or no due date known */
  readonly pastDueDays: number | null;
}

/**
 * How the recorded oil changes of a unit over the last 13 months fell against the interval that the model sets for each
 * charge's own duty: early or late when further from it than `shop.promise_tolerance`, else on time; and how long it is past
 * due now. Charges whose start is not on record, or that a drain is likely missing from, are counted as not judged.
 * @param asOfDay days since 1970-01-01
 */
export function unitPromiseOf(view: UnitView, asOfDay: number, coefficients: Coefficients): UnitPromise {
  const firstMonth = monthBefore(isoFromDay(asOfDay).slice(0, 7), monthsShown - 1);
  const tolerance = coefficients['shop.promise_tolerance'];
  const surelyUnrecorded = coefficients['shop.promise_hidden_chance'];
  const changes: { month: string; fell: 'early' | 'onTime' | 'late' }[] = [];
  let notJudged = 0;
  for (const charge of view.timeline.charges) {
    const month = isoFromDay(charge.endDay).slice(0, 7);
    if (charge.running || month < firstMonth) continue;
    const known = charge.startBasis !== 'first_record' && charge.hiddenDrainChance < surelyUnrecorded;
    const advice = known ? chargeAdvice(view, charge, coefficients) : null;
    if (advice === null) {
      notJudged += 1;
      continue;
    }
    const { usedShare } = advice;
    changes.push({
      month,
      fell: usedShare > 1 + tolerance ? 'late' : usedShare < 1 - tolerance ? 'early' : 'onTime',
    });
  }
  const dueDay = view.oil?.due?.dueDay ?? null;
  return {
    unitNumber: view.history.unit.unitNumber,
    site: view.history.unit.site ?? 'no site',
    changes,
    notJudged,
    pastDueDays: dueDay === null || dueDay >= asOfDay ? null : Math.round(asOfDay - dueDay),
  };
}

/** How well the shop keeps its own promise, by site and month, from its units in service. */
export function promiseKeptOf(
  units: readonly UnitPromise[],
  asOfDay: number,
  coefficients: Coefficients,
): PromiseKept {
  const months = new Map<string, { -readonly [K in keyof PromiseMonth]: PromiseMonth[K] }>();
  let notJudged = 0;
  for (const unit of units) {
    notJudged += unit.notJudged;
    const { site } = unit;
    for (const { month, fell } of unit.changes) {
      const key = `${site}|${month}`;
      const entry = months.get(key) ?? { site, month, early: 0, onTime: 0, late: 0 };
      months.set(key, entry);
      entry[fell] += 1;
    }
  }
  return {
    asOf: isoFromDay(asOfDay),
    tolerance: coefficients['shop.promise_tolerance'],
    months: [...months.values()].sort((a, b) => compare(a.month, b.month) || compare(a.site, b.site)),
    pastDue: units
      .flatMap(({ site, unitNumber, pastDueDays }) =>
        pastDueDays === null ? [] : [{ site, unitNumber, days: pastDueDays }],
      )
      .sort((a, b) => b.days - a.days || (a.unitNumber < b.unitNumber ? -1 : 1)),
    notJudged,
  };
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** The month that lies a number of months before, "2026-01" and 2 → "2025-11". */
function monthBefore(month: string, back: number): string {
  const count = Number(month.slice(0, 4)) * 12 + Number(month.slice(5)) - 1 - back;
  return `${Math.floor(count / 12)}-${String((count % 12) + 1).padStart(2, '0')}`;
}
