import type { DutySpec } from './duty.ts';
import type { FamilySpec } from './family.ts';
import type { Life } from './life.ts';
import type { PlaceSpec } from './place.ts';
import type { UnitPlan } from './plan.ts';
import { planFleet } from './planFleet.ts';
import type { LawVariant } from './rates.ts';
import { simulatePlans } from './simulateFleet.ts';
import type { DrainHabit, MonthTruth } from './truth.ts';

export interface OneUnit {
  readonly duty: DutySpec;
  readonly family: FamilySpec;
  readonly place: PlaceSpec;
  readonly habit: Pick<DrainHabit, 'intervalKm' | 'intervalHours' | 'intervalMonths'>;
  readonly physics?: LawVariant;
  readonly years?: number;
  readonly seed?: number;
}

/** A new unit under exact drains, with every rate as the laws have it: for orders of magnitude. */
export function oneUnit(options: OneUnit): Life {
  const seed = options.seed ?? 1;
  const startDay = 18262;
  const endDay = startDay + Math.round(365.25 * (options.years ?? 10));
  const [base] = planFleet({
    seed,
    units: 1,
    startDay,
    endDay,
    duties: [options.duty],
    families: [options.family],
    places: [options.place],
    recording: { rich: 1 },
    care: { careful: 1 },
    usedShare: 0,
    soldShare: 0,
    newShare: 0,
  });
  const plan: UnitPlan = {
    ...base!,
    inServiceDay: startDay,
    firstRecordDay: startDay,
    useFactor: 1,
    idleFactor: 1,
    speedFactor: 1,
    habit: { ...options.habit, lateLogSd: 0, missedChance: 0, elsewhereChance: 0, wrongOil: null },
    disturbed: false,
    quietFromDay: startDay,
    spareUntilDay: endDay + 1,
  };
  const world = { seed, physics: options.physics ?? 'soft', ratesLogSd: 0, unitLogSd: 0 } as const;
  return simulatePlans([plan], world).lives[0]!;
}

/** The first month-end at or past a distance; throws when the unit never got there. */
export function atDistance(life: Life, km: number): MonthTruth {
  const month = life.months.find((m) => m.odometerKm - life.plan.inServiceOdometerKm >= km);
  if (!month) throw new Error(`atDistance: unit must reach ${km} km, got ${life.months.at(-1)?.odometerKm}`);
  return month;
}
