import type { MoneyUnit } from '../decisions/moneyUnit.ts';
import type { BudgetAssumptions, UsedAssumption } from '../schema/budgetDocument.ts';
import type { Coefficient, Coefficients } from '../schema/coefficient.ts';

type Name = keyof BudgetAssumptions;

/** What a question may change, and the coefficient it stands for; a factor stands for none. */
const changeable: readonly {
  readonly name: Name;
  readonly id: string | null;
  readonly words: string;
  readonly unit: UsedAssumption['unit'];
}[] = [
  { name: 'discountRate', id: 'money.discount_rate', words: 'discount rate a year', unit: 'share' },
  { name: 'failureFactor', id: null, words: 'cost of failures, times', unit: 'times' },
  { name: 'plannedFactor', id: null, words: 'cost of planned work, times', unit: 'times' },
  {
    name: 'labourPerHour',
    id: 'money.labour_cents_per_hour',
    words: 'labour an hour where the site has no rate',
    unit: 'money',
  },
  {
    name: 'downtimePerDay',
    id: 'money.downtime_cents_per_day',
    words: 'downtime a day where the engine has no cost',
    unit: 'money',
  },
  {
    name: 'judgedMonths',
    id: 'money.judged_months',
    words: 'months over which a renewal is judged',
    unit: 'months',
  },
  {
    name: 'leastSaving',
    id: 'money.least_saving_cents',
    words: 'least saving for which anything is recommended',
    unit: 'money',
  },
  {
    name: 'wornTimes',
    id: 'look.hazard.worn',
    words: 'failures of a worn engine, times those of a sound one (looks hang on it)',
    unit: 'times',
  },
  {
    name: 'restrictedTimes',
    id: 'look.hazard.restricted',
    words: 'failures with a restricted screen, times those of a sound engine',
    unit: 'times',
  },
];

/** The assumptions as used, money in currency units, with where each comes from and whether it was changed. */
export function usedAssumptions(
  asked: BudgetAssumptions,
  catalog: readonly Coefficient[],
): readonly UsedAssumption[] {
  return changeable.map(({ name, id, words, unit }): UsedAssumption => {
    const entry = id === null ? undefined : catalog.find((one) => one.id === id);
    if (id !== null && entry === undefined)
      throw new RangeError(`coefficient ${id} must be in the catalog, got nothing`);
    const scale = unit === 'money' ? 100 : 1;
    const standing = entry === undefined ? 1 : entry.value / scale;
    return {
      name,
      words,
      unit,
      value: asked[name] ?? standing,
      low: entry?.low === undefined ? null : entry.low / scale,
      high: entry?.high === undefined ? null : entry.high / scale,
      kind: entry?.kind ?? 'factor',
      source: entry?.source ?? 'whoever asks',
      changed: asked[name] !== undefined && asked[name] !== standing,
    };
  });
}

/** The coefficients with what was asked otherwise. Costs that are filled from defaults take the factors as well. */
export function assumedCoefficients(coefficients: Coefficients, asked: BudgetAssumptions): Coefficients {
  const changed: Record<string, number> = { ...coefficients };
  for (const { name, id, unit } of changeable) {
    const value = asked[name];
    if (id !== null && value !== undefined) changed[id] = unit === 'money' ? Math.round(100 * value) : value;
  }
  const planned = asked.plannedFactor ?? 1;
  const failure = asked.failureFactor ?? 1;
  changed['money.planned_parts_cents'] *= planned;
  changed['money.labour_cents_per_hour'] *= planned;
  // a failure is filled as a multiple of the planned cost, which must not move it
  changed['money.failure_over_planned'] *= planned > 0 ? failure / planned : failure;
  return changed;
}

/** A unit's own costs times the factors asked for. */
export function withFactors(
  unit: MoneyUnit,
  { plannedFactor = 1, failureFactor = 1 }: BudgetAssumptions,
): MoneyUnit {
  if (plannedFactor === 1 && failureFactor === 1) return unit;
  const times = (value: number | null, factor: number): number | null =>
    value === null ? null : value * factor;
  return {
    ...unit,
    plannedCents: times(unit.plannedCents, plannedFactor),
    plannedPartsCents: times(unit.plannedPartsCents, plannedFactor),
    labourCentsPerHour: times(unit.labourCentsPerHour, plannedFactor),
    failureCents: times(unit.failureCents, failureFactor),
  };
}
