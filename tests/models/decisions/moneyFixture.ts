import type { MoneyUnit } from '../../../models/decisions/moneyUnit.ts';
import { seededRandom } from '../../../models/numeric/random.ts';
import { coefficients } from './catalog.ts';

/** Costs complete: a renewal of 1 000.00 without downtime, a failure of 9 000.00 and 2 days at 500.00. */
export function moneyUnit(unitNumber: string, over: Partial<MoneyUnit> = {}): MoneyUnit {
  return {
    unitNumber,
    family: 'F1',
    risk: { kind: 'monthly', chance: [[0.1, 0.2]], renewedChance: null },
    plannedCents: 100_000,
    plannedPartsCents: null,
    plannedHours: 8,
    labourCentsPerHour: 10_000,
    plannedDowntimeDays: 0,
    failureCents: 900_000,
    failureDowntimeDays: 2,
    downtimeCentsPerDay: 50_000,
    disposalDay: null,
    warranty: null,
    stateProbabilities: null,
    ...over,
  };
}

/** Nothing discounted, nothing spread, two months judged: everything can be worked by hand. */
export const plainCoefficients = {
  ...coefficients,
  'money.discount_rate': 0,
  'money.judged_months': 2,
  'money.failure_cost_log_sd': 0,
  'money.planned_cost_log_sd': 0,
  'money.use_log_sd': 0,
};

/** A fleet with wear draws shared by all units. */
export function wornFleet(count: number, seed: number, drawCount = 60): MoneyUnit[] {
  const random = seededRandom(seed);
  const list = (value: () => number) => Float64Array.from({ length: drawCount }, value);
  const shape = list(() => 2 + random());
  const scale = list(() => 260 + 60 * random());
  return Array.from({ length: count }, (_, i) => {
    const age = 40 + 220 * random();
    const use = 1 + 4 * random();
    const restricted = 0.3 * random();
    const worn = 0.3 * random();
    return moneyUnit(String(100 + i), {
      risk: {
        kind: 'wear',
        parts: [{ shape, scale, age: list(() => age * (0.9 + 0.2 * random())) }],
        usePerMonth: list(() => use),
      },
      plannedCents: 120_000 + Math.round(90_000 * random()),
      failureCents: 500_000 + Math.round(500_000 * random()),
      stateProbabilities: i % 2 ? { restricted, worn, neither: 1 - restricted - worn } : null,
    });
  });
}
