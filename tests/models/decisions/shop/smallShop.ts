import { readFileSync } from 'node:fs';
import { coefficientFile, coefficientValues } from '../../../../models/schema/coefficient.ts';
import type { DueJob, ShopInputs, ShopUnit } from '../../../../models/decisions/shop/shopInputs.ts';
import { shopRules } from '../../../../models/decisions/shop/shopRules.ts';

/** The rules as the product ships them. */
export const rules = shopRules(
  coefficientValues([
    coefficientFile.parse(
      JSON.parse(
        readFileSync(new URL('../../../../data/catalog/shop-coefficients.json', import.meta.url), 'utf8'),
      ),
    ),
  ]),
);

/** Monday 2026-04-06. */
export const monday = 20_549;
const never = [false, false, false, false, false, false, false];

export function unit(unitNumber: string, more: Partial<ShopUnit> = {}): ShopUnit {
  return {
    unitNumber,
    site: 'Yard',
    downtimeCentsPerDay: 10_000,
    blackouts: [],
    blackoutWeekdays: never,
    ...more,
  };
}

/** An oil service of one hour that is due on a day. */
export function oil(unitNumber: string, dueDay: number, more: Partial<DueJob> = {}): DueJob {
  return {
    jobId: `${unitNumber}/oil_change/1`,
    unitNumber,
    job: 'oil_change',
    words: 'oil and filter',
    hours: 1,
    skill: null,
    items: [],
    notBeforeDay: null,
    earliestDay: dueDay,
    medianDay: dueDay,
    latestDay: dueDay,
    latenessCentsPerDay: 500,
    earlinessCentsPerDay: 50,
    ...more,
  };
}

/** One site of one bay, one technician, eight hours on weekdays, two weeks. */
export function smallShop(more: Partial<ShopInputs>): ShopInputs {
  return {
    asOfDay: monday,
    fromDay: monday,
    weeks: 2,
    sites: [
      {
        site: 'Yard',
        bays: ['Bay 1'],
        opensAtMinute: 480,
        closesAtMinute: 960,
        weekdays: [true, true, true, true, true, false, false],
        holidays: [],
        timeZone: 'UTC',
      },
    ],
    technicians: [{ technician: 'Ada', site: 'Yard', skills: null, hoursPerDay: 8, away: [] }],
    units: [unit('1')],
    jobs: [oil('1', monday + 2)],
    outside: [],
    shelf: [],
    locked: [],
    rules,
    messages: [],
    offsetMinutes: () => 0,
    ...more,
  };
}
