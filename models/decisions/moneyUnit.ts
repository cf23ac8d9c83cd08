import type { Coefficients } from '../schema/coefficient.ts';
import { coefficientValue } from './coefficientValue.ts';
import type { LooksThatFit } from './looks.ts';
import type { RiskDraws } from './risk.ts';
import { moneyWords } from './words.ts';

/** A cover by the maker or a contract that pays for failures. */
export interface Warranty {
  /** last day of cover, days since 1970-01-01; null = no day stated */
  readonly untilDay: number | null;
  /** odometer at which cover ends, km; null = none stated */
  readonly untilKm: number | null;
  /** odometer on the as-of day, km; null = not known */
  readonly odometerKm: number | null;
  /** km a day; null = not known */
  readonly kmPerDay: number | null;
}

/** All that the money side needs of a unit; null = not known. */
export interface MoneyUnit {
  readonly unitNumber: string;
  readonly family: string | null;
  /** draws of how it may fail; null = no estimate, so nothing is recommended */
  readonly risk: RiskDraws | null;
  /** parts and labour of a planned renewal, cents; null: from parts, hours and labour rate */
  readonly plannedCents: number | null;
  readonly plannedPartsCents: number | null;
  readonly plannedHours: number | null;
  readonly labourCentsPerHour: number | null;
  readonly plannedDowntimeDays: number | null;
  /** repair bill of a failure without downtime, cents */
  readonly failureCents: number | null;
  readonly failureDowntimeDays: number | null;
  readonly downtimeCentsPerDay: number | null;
  /** planned disposal, days since 1970-01-01; null = none planned */
  readonly disposalDay: number | null;
  readonly warranty: Warranty | null;
  /** what is behind the signs: oil control screen restricted, chain or phaser worn, neither; null = not judged */
  readonly stateProbabilities: {
    readonly restricted: number;
    readonly worn: number;
    readonly neither: number;
  } | null;
  /** what the engine has to look at and to clean; left out: everything */
  readonly looksThatFit?: LooksThatFit;
}

/** A unit's costs with every gap filled and said. */
export interface UnitCosts {
  /** cash of a planned renewal: parts and labour, whole cents */
  readonly plannedCents: number;
  readonly plannedHours: number;
  readonly labourCentsPerHour: number;
  readonly plannedDowntimeCents: number;
  /** an hour of a working day in which the unit stands, cents */
  readonly downtimeCentsPerHour: number;
  /** repair bill of a failure, whole cents */
  readonly failureCents: number;
  readonly failureDowntimeCents: number;
  /** what was filled in, in words */
  readonly assumptions: readonly string[];
  /** what is odd about the costs, in words */
  readonly notes: readonly string[];
}

/**
 * Fills the costs that are missing from the catalog's defaults and says which: planned = parts + hours·rate, failure =
 * planned·ratio, downtime = days·cost a day.
 * @param unit costs in cents, hours, days; null where not known
 * @param coefficients `money.*` of the catalog
 * @param currency ISO 4217 for the words; left out: amounts stand by themselves
 * @returns whole cents; 600.00 parts and 8 h at 100.00 → planned 1 400.00
 * @throws RangeError when a stated cost is negative or not finite, or a coefficient is missing
 * Source: defaults are assumptions of the catalog; shown and changed by the user.
 */
export function unitCosts(unit: MoneyUnit, coefficients: Coefficients, currency = ''): UnitCosts {
  const assumptions: string[] = [];
  const or = (field: keyof MoneyUnit, id: string, words: (value: number) => string) => {
    const stated = unit[field];
    if (typeof stated === 'number') {
      if (!(stated >= 0 && Number.isFinite(stated)))
        throw new RangeError(`${field} of ${unit.unitNumber} must be 0 or above, got ${stated}`);
      return stated;
    }
    const assumed = coefficientValue(coefficients, id);
    assumptions.push(`${words(assumed)} assumed`);
    return assumed;
  };
  const plannedHours = or('plannedHours', 'money.planned_hours', (h) => `planned renewal of ${h} h`);
  const labourCentsPerHour = or(
    'labourCentsPerHour',
    'money.labour_cents_per_hour',
    (cents) => `labour at ${moneyWords(cents, currency)} an hour`,
  );
  let plannedCents = unit.plannedCents;
  if (plannedCents === null) {
    const parts = or(
      'plannedPartsCents',
      'money.planned_parts_cents',
      (cents) => `parts of ${moneyWords(cents, currency)}`,
    );
    plannedCents = parts + plannedHours * labourCentsPerHour;
  } else if (!(plannedCents >= 0 && Number.isFinite(plannedCents)))
    throw new RangeError(`plannedCents of ${unit.unitNumber} must be 0 or above, got ${plannedCents}`);
  plannedCents = Math.round(plannedCents);
  const perDay = or(
    'downtimeCentsPerDay',
    'money.downtime_cents_per_day',
    (cents) => `downtime at ${moneyWords(cents, currency)} a day`,
  );
  const plannedDays = or(
    'plannedDowntimeDays',
    'money.planned_downtime_days',
    (d) => `${d} days down for a renewal`,
  );
  const failureDays = or(
    'failureDowntimeDays',
    'money.failure_downtime_days',
    (d) => `${d} days down after a failure`,
  );
  const planned = plannedCents;
  const failureCents =
    unit.failureCents === null
      ? planned *
        or(
          'failureCents',
          'money.failure_over_planned',
          (ratio) => `a failure at ${ratio} times a planned renewal`,
        )
      : or('failureCents', 'money.failure_over_planned', String);
  const costs = {
    plannedCents,
    plannedHours,
    labourCentsPerHour,
    plannedDowntimeCents: Math.round(plannedDays * perDay),
    downtimeCentsPerHour: perDay / coefficientValue(coefficients, 'look.working_hours_per_day'),
    failureCents: Math.round(failureCents),
    failureDowntimeCents: Math.round(failureDays * perDay),
  };
  const dear =
    costs.plannedCents + costs.plannedDowntimeCents >= costs.failureCents + costs.failureDowntimeCents;
  return {
    ...costs,
    assumptions,
    notes: dear ? ['a planned renewal costs as much as a failure or more: renewing early can not pay'] : [],
  };
}
