import type { Coefficients } from '../schema/coefficient.ts';
import { isoFromDay } from '../schema/day.ts';
import type { PromiseKept, PromiseMonth } from '../schema/promise.ts';
import { chargeAdvice } from './chargeAdvice.ts';
import type { UnitView } from './unitView.ts';

const monthsShown = 13;

/**
 * How the recorded oil changes of the last 13 months fell against the interval that the model sets for each charge's own
 * duty: early or late when further from it than `shop.promise_tolerance`, else on time; and the units past due now, with their age.
 * Charges whose start is not on record, or that a drain is likely missing from, are counted as not judged.
 * @param views units in service; asOfDay days since 1970-01-01
 */
export function promiseKeptOf(
  views: readonly UnitView[],
  asOfDay: number,
  coefficients: Coefficients,
): PromiseKept {
  const firstMonth = monthBefore(isoFromDay(asOfDay).slice(0, 7), monthsShown - 1);
  const months = new Map<string, { -readonly [K in keyof PromiseMonth]: PromiseMonth[K] }>();
  const tolerance = coefficients['shop.promise_tolerance'];
  const surelyUnrecorded = coefficients['shop.promise_hidden_chance'];
  let notJudged = 0;
  for (const view of views) {
    const site = view.history.unit.site ?? 'no site';
    for (const charge of view.timeline.charges) {
      const month = isoFromDay(charge.endDay).slice(0, 7);
      if (charge.running || month < firstMonth) continue;
      const known = charge.startBasis !== 'first_record' && charge.hiddenDrainChance < surelyUnrecorded;
      const advice = known ? chargeAdvice(view, charge, coefficients) : null;
      if (advice === null) {
        notJudged += 1;
        continue;
      }
      const key = `${site}|${month}`;
      const entry = months.get(key) ?? { site, month, early: 0, onTime: 0, late: 0 };
      months.set(key, entry);
      if (advice.usedShare > 1 + tolerance) entry.late += 1;
      else if (advice.usedShare < 1 - tolerance) entry.early += 1;
      else entry.onTime += 1;
    }
  }
  const pastDue = views
    .flatMap(({ history, oil }) => {
      const dueDay = oil?.due?.dueDay ?? null;
      return dueDay === null || dueDay >= asOfDay
        ? []
        : [
            {
              site: history.unit.site ?? 'no site',
              unitNumber: history.unit.unitNumber,
              days: Math.round(asOfDay - dueDay),
            },
          ];
    })
    .sort((a, b) => b.days - a.days || (a.unitNumber < b.unitNumber ? -1 : 1));
  return {
    asOf: isoFromDay(asOfDay),
    tolerance,
    months: [...months.values()].sort((a, b) => compare(a.month, b.month) || compare(a.site, b.site)),
    pastDue,
    notJudged,
  };
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** The month that lies a number of months before, "2026-01" and 2 → "2025-11". */
function monthBefore(month: string, back: number): string {
  const count = Number(month.slice(0, 4)) * 12 + Number(month.slice(5)) - 1 - back;
  return `${Math.floor(count / 12)}-${String((count % 12) + 1).padStart(2, '0')}`;
}
