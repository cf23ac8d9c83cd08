import type { BudgetCheck } from '../schema/budgetCheck.ts';
import type { BudgetDocument } from '../schema/budgetDocument.ts';
import { dayFromIso, isoFromDay } from '../schema/day.ts';
import type { UnitHistory } from '../schema/history.ts';
import { spendKindOf } from './spendHistory.ts';

const daysPerMonth = 365.25 / 12;

/**
 * Sets a case of a past day beside what was recorded from that day on: which of its units failed, which were renewed as
 * planned, and what both cost. Nobody is told to have followed the case: what was done is what the records say.
 * @param said the case, made from what was known on its day
 * @param histories what is known now
 * @param asOf ISO date of today; records after the case's months or after today are left out
 * @returns units named by the case or hit by a failure, those that failed first; whole cents
 */
export function budgetCheckOf(
  said: BudgetDocument,
  histories: readonly Pick<UnitHistory, 'unit' | 'services'>[],
  asOf: string,
): BudgetCheck {
  const endOn = isoFromDay(Math.round(dayFromIso(said.asOf) + said.months * daysPerMonth));
  const whole = endOn <= asOf;
  const untilOn = whole ? endOn : asOf;
  const over = Math.min(
    said.months,
    Math.max(0, Math.floor((dayFromIso(untilOn) - dayFromIso(said.asOf)) / daysPerMonth + 0.05)),
  );
  const spent = said.byMonth.slice(0, over);
  const sum = (part: 'plannedCents' | 'unplannedCents' | 'unplannedWithoutCents'): number =>
    spent.reduce((total, month) => total + month[part], 0);
  const action = new Map(said.chosen.map((line) => [line.unitNumber, line.action]));
  const inCase = new Set([...action.keys(), ...said.leftAlone.map(({ unitNumber }) => unitNumber)]);
  const happened = { failures: 0, unplannedCents: 0, plannedCents: 0, withoutCost: 0 };
  const units = histories.flatMap(({ unit, services }): BudgetCheck['units'] => {
    const { unitNumber } = unit;
    if (!inCase.has(unitNumber)) return [];
    let [failedOn, renewedOn]: [string | null, string | null] = [null, null];
    for (const event of services) {
      if (event.servicedOn <= said.asOf || event.servicedOn > untilOn) continue;
      const kind = spendKindOf(event);
      if (kind !== 'planned' && kind !== 'unplanned') continue;
      if (event.costCents === null) happened.withoutCost += 1;
      happened[`${kind}Cents`] += event.costCents ?? 0;
      if (kind === 'unplanned') failedOn ??= event.servicedOn;
      else renewedOn ??= event.servicedOn;
    }
    if (failedOn !== null) happened.failures += 1;
    const told = action.get(unitNumber) ?? 'leave';
    return told === 'leave' && failedOn === null ? [] : [{ unitNumber, said: told, failedOn, renewedOn }];
  });
  return {
    fromOn: said.asOf,
    untilOn,
    currency: said.currency,
    amountCents: said.amountCents,
    months: said.months,
    whole,
    said: {
      failuresWithout: said.failuresWithout,
      failuresWith: said.failuresWith,
      unplannedWithoutCents: sum('unplannedWithoutCents'),
      unplannedWithCents: sum('unplannedCents'),
      plannedCents: sum('plannedCents'),
    },
    happened,
    units: units.sort(
      (a, b) =>
        Number(b.failedOn !== null) - Number(a.failedOn !== null) || (a.unitNumber < b.unitNumber ? -1 : 1),
    ),
    notes: [
      'the case is made anew from what was known on its day; what was spent is what the records say, whether anyone followed the case or not',
      ...(whole ? [] : [`${over} of ${said.months} months are over; failures said are those of all months`]),
      ...(happened.withoutCost > 0
        ? [`${happened.withoutCost} rows carry no cost: what was spent is at least this`]
        : []),
    ],
  };
}
