import type { CovariateSpec } from '../../../../models/reliability/fleet/covariateSpec.ts';
import { normalDraw, seededRandom } from './fleetRandom.ts';
import { simulateLives } from './simulatedFleet.ts';
import type { Month, SimulatedFleet, SimulatedUnit } from './simulatedFleet.ts';

/** What the records of {@link dutyFleet} show beside the meters. */
export const dutyCovariates: readonly CovariateSpec[] = [
  { name: 'oil age', priorMean: 0.6, priorSd: 0.4, kind: 'clock', direction: 1 },
  { name: 'short trips', priorMean: 0.3, priorSd: 0.3, kind: 'clock', direction: 1 },
  { name: 'code seen', priorMean: 1, priorSd: 0.7, kind: 'evidence', direction: 1 },
];

/**
 * A fleet whose sets wear by physics that is not the model's: hours with idle at 0.7 and dirt that grows with the square of the oil's age past its
 * interval and saturates, a cold penalty that adds rather than multiplies, a hidden driver of each unit's own, and codes that come late, sometimes
 * without cause. The records show hours, drains (as the log of mean oil age over the interval) and a rough guess of short trips.
 */
export function dutyFleet(seed: number, unitCount = 300): SimulatedFleet {
  const random = seededRandom(seed + 5000);
  const families = Array.from({ length: 6 }, (_, g) => `family ${g + 1}`);
  const familyFactors = Object.fromEntries(
    families.map((family) => [family, Math.exp(0.25 * normalDraw(random))]),
  );
  const lifeHours = 18_000 * Math.exp(0.2 * normalDraw(random));
  const shape = 2.5 + random();
  const units = Array.from({ length: unitCount }, (_, i): SimulatedUnit => {
    const family = families[Math.floor(random() * families.length)];
    const hoursPerMonth = 95 * Math.exp(0.4 * normalDraw(random));
    const idleShare = Math.min(0.7, Math.max(0.03, 0.25 + 0.17 * normalDraw(random)));
    const speed = 45 * Math.exp(0.3 * normalDraw(random));
    const drainRatio = Math.exp(0.1 + 0.45 * normalDraw(random));
    const shortTrips = Math.min(1, Math.max(0, 0.3 + 0.25 * normalDraw(random)));
    const hidden = Math.exp(0.2 * normalDraw(random));
    const seenFrom = Math.floor(random() * 50);
    let worn = 0;
    let code = 0;
    const months = Array.from({ length: 132 - seenFrom }, (): Month => {
      const engineHours = hoursPerMonth * Math.exp(0.2 * normalDraw(random));
      const idleHours = engineHours * Math.min(0.9, idleShare * Math.exp(0.15 * normalDraw(random)));
      const past = Math.max(0, drainRatio - 0.8);
      const dirt = (2.2 * past * past) / (1 + past * past);
      const cold = 0.5 * shortTrips * shortTrips;
      const wear =
        (hidden * ((engineHours - idleHours) * (1 + dirt + cold) + 0.7 * idleHours * (1 + dirt))) / lifeHours;
      worn += wear;
      if (random() < 0.0006 + 0.03 * Math.max(0, worn / familyFactors[family] - 0.5)) code = 1;
      if (random() < 0.04) code = 0;
      const guess = Math.min(1, Math.max(0, shortTrips + 0.15 * normalDraw(random)));
      const covariates = [Math.log(drainRatio) - 0.1, 2 * (guess - 0.3), code - 0.03];
      return { distanceKm: (engineHours - idleHours) * speed, engineHours, idleHours, wear, covariates };
    });
    return { unitNumber: `U${i}`, family, newInMonth: seenFrom, monthsBefore: 0, months };
  });
  return simulateLives(units, { shape, familyFactors, plannedPerMonth: 0.01 }, true, random);
}
