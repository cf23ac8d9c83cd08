import { monthOfDay } from '../../models/schema/day.ts';
import type { DayUse } from './oilPhysics.ts';
import type { UnitPlan } from './plan.ts';
import type { Random } from './random.ts';

/** A unit's days on the road: weekdays, seasons, good and bad weeks, spells out of use. */
export interface Usage {
  /** fills `use` for a day; all zero when the unit stands */
  readonly on: (day: number, use: DayUse) => void;
  /** stands for so many days */
  readonly standFor: (days: number) => void;
}

const months = new Map<number, number>();

/** Month 0–11 of a day, remembered. */
export function monthOf(day: number): number {
  let month = months.get(day);
  if (month === undefined) {
    month = monthOfDay(day);
    months.set(day, month);
  }
  return month;
}

export function usageOf(plan: UnitPlan, random: Random): Usage {
  const { duty, family, place } = plan;
  let standing = 0;
  let weather = 0;
  let pace = 0;
  return {
    standFor: (days) => {
      standing = Math.max(standing, days);
    },
    on: (day, use) => {
      const month = monthOf(day);
      weather = 0.85 * weather + 1.6 * random.normal();
      pace = 0.97 * pace + 0.045 * random.normal();
      use.ambientC = place.meanTemperatureC[month]! + weather;
      const noise = random.normal();
      const idleNoise = random.normal();
      if (standing === 0 && random.chance(0.0012)) standing = random.integer(5, 18);
      const weekday = (day + 3) % 7;
      if (standing > 0 || weekday >= duty.workdaysPerWeek) {
        standing = Math.max(0, standing - 1);
        use.km = use.drivingHours = use.coldHours = use.idleHours = use.ptoHours = 0;
        use.soakedStarts = use.towingShare = use.fuelLiters = 0;
        use.speedKmh = duty.speedKmh;
        return;
      }
      const season = duty.season[month]!;
      const level = season * plan.useFactor * Math.exp(pace);
      use.km = duty.kmPerWorkday * level * Math.exp(0.32 * noise - 0.05);
      use.speedKmh = duty.speedKmh * plan.speedFactor;
      use.drivingHours = use.km / use.speedKmh;
      use.idleHours =
        duty.idleHoursPerWorkday *
        plan.idleFactor *
        Math.exp(pace + 0.25 * idleNoise - 0.03) *
        (use.ambientC < 0 ? 1.25 : 1);
      use.ptoHours = duty.ptoHoursPerWorkday * level;
      use.towingShare = duty.towingShare;
      const trips = Math.max(1, use.km / duty.tripKm);
      use.soakedStarts = Math.min(trips, duty.soakedStarts);
      const warmUpHours = (9 * Math.exp((18 - use.ambientC) / 33)) / 60;
      use.coldHours = Math.min(
        use.drivingHours,
        use.soakedStarts * Math.min(use.drivingHours / trips, warmUpHours),
      );
      use.fuelLiters =
        (use.km * family.litersPer100Km * (1 + 0.35 * use.towingShare)) / 100 +
        use.idleHours * family.idleLitersPerHour +
        use.ptoHours * family.idleLitersPerHour * 2.2;
    },
  };
}
