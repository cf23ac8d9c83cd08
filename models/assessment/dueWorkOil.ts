import { orderItems } from '../cards/cardItems.ts';
import { coefficientValue } from '../decisions/coefficientValue.ts';
import type { DueJob } from '../decisions/shop/shopInputs.ts';
import type { DueSetting } from './dueWorkSetting.ts';
import type { UnitView } from './unitView.ts';

/**
 * Oil services until the end of a plan: the first by the due date's distribution, each next one interval after, its range
 * widening with the square root of their number. Lateness: the unit's chance of failure a day, as many times more as
 * `shop.overdue_hazard_ratio` says, at the cost of a failure. Earliness: the price of a service over its interval.
 * @returns nothing where the due date is not known. Source: common practice, no source.
 */
export function dueOil(
  view: UnitView,
  { asOfDay, endDay, oilServiceHours, coefficients }: DueSetting,
): DueJob[] {
  const { history, oil, failure } = view;
  const due = oil?.due ?? null;
  if (oil === null || due === null || due.dueDay === null) return [];
  const value = (id: string) => coefficientValue(coefficients, id);
  const { unit, engine } = history;
  const intervalDays = Math.max(14, Math.min(3650, oil.advice.interval.days));
  const bill =
    (engine?.unplannedCostCents ?? 0) +
    (engine?.unplannedDowntimeDays ?? 0) * (engine?.downtimeCostPerDayCents ?? 0);
  const daily = ((failure?.probability ?? 0) * bill) / 365;
  const latenessCentsPerDay = Math.round(
    Math.max(value('shop.overdue_least_cents'), (value('shop.overdue_hazard_ratio') - 1) * daily),
  );
  const before = history.services.filter(({ read }) => read.works.includes('oil_change')).length;
  const early = Math.max(1, due.dueDay - (due.earliestDay ?? due.dueDay - 14));
  const late = Math.max(1, (due.latestDay ?? due.dueDay + 28) - due.dueDay);
  const jobs: DueJob[] = [];
  let median = due.dueDay;
  for (let count = 0; median <= endDay && count < 60; count += 1) {
    const wider = Math.sqrt(count + 1);
    jobs.push({
      jobId: `${unit.unitNumber}/oil_change/${before + count + 1}`,
      unitNumber: unit.unitNumber,
      job: 'oil_change',
      words: 'oil and filter',
      hours: oilServiceHours,
      skill: null,
      items: orderItems(engine, 'oil_change'),
      notBeforeDay: null,
      earliestDay: Math.floor(median - early * wider),
      medianDay: Math.floor(median),
      latestDay: Math.ceil(median + late * wider),
      latenessCentsPerDay,
      earlinessCentsPerDay: Math.round(value('shop.oil_service_cents') / intervalDays),
    });
    median = Math.max(median, asOfDay) + intervalDays;
  }
  return jobs;
}
