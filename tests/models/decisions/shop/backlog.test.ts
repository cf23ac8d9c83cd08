import { expect, test } from 'vitest';
import { firstEffort } from '../../../../models/decisions/shop/planEffort.ts';
import { planShop } from '../../../../models/decisions/shop/planShop.ts';
import type { ShopInputs } from '../../../../models/decisions/shop/shopInputs.ts';
import { seededRandom } from '../../../../models/numeric/random.ts';
import { monday, oil, rules, smallShop, unit } from './smallShop.ts';

/** A shop of two people to which most of a fleet's oil changes come a week late, all with the same few lengths and costs. */
function lateFleet(seed: number): ShopInputs {
  const random = seededRandom(seed);
  const numbers = Array.from({ length: 150 }, (_, i) => String(i));
  const jobs = numbers.map((unitNumber, i) => {
    const dueDay = monday + (random() < 0.75 ? -7 : 70);
    return oil(unitNumber, dueDay, {
      hours: [1.25, 1.25, 1.25, 1.5, 2.25][i % 5],
      earliestDay: dueDay - 20,
      latestDay: dueDay + 20,
      latenessCentsPerDay: [150, 150, 300][i % 3],
      earlinessCentsPerDay: 30,
    });
  });
  const shop = smallShop({
    weeks: 26,
    units: numbers.map((unitNumber, i) => unit(unitNumber, { downtimeCentsPerDay: 9000 + 1000 * (i % 4) })),
    jobs,
  });
  return {
    ...shop,
    sites: shop.sites.map((site) => ({ ...site, bays: ['Bay 1', 'Bay 2'] })),
    technicians: ['Ada', 'Ben'].map((technician) => ({ ...shop.technicians[0], technician })),
  };
}

test.each([1, 2, 3, 4])('a backlog of alike work is planned within 1 %% of the bound, fleet %i', (seed) => {
  const inputs = lateFleet(seed);
  const plan = planShop(inputs, firstEffort(rules.search, inputs.jobs.length));
  expect(plan.objectiveCents - plan.idealCents).toBeGreaterThan(50_000);
  expect(plan.gap).toBeLessThan(0.01);
});
