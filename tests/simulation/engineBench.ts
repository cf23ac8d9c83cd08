import type { LifeEvent } from './life.ts';
import type { DayUse, TrueOil } from './oilPhysics.ts';
import type { UnitPlan } from './plan.ts';
import type { Random } from './random.ts';
import type { TrueWear } from './wearPhysics.ts';

/** Everything about one unit that changes while it lives. */
export interface EngineBench {
  readonly plan: UnitPlan;
  readonly random: Random;
  readonly events: LifeEvent[];
  readonly use: DayUse;
  oil: TrueOil;
  readonly wear: TrueWear;
  odometerKm: number;
  engineHours: number;
  idleHours: number;
  /** distance on the installed timing drive, km */
  timingKm: number;
  /** litres below the full mark */
  lowLiters: number;
  ventilation: boolean;
  thermostat: boolean;
  /** days since a disturbance began */
  disturbedDays: number;
  /** targets of the running oil charge */
  drainAtKm: number;
  drainAtHours: number;
  drainAtDays: number;
  /** what the shop has promised to do, by day */
  readonly pending: { readonly day: number; readonly act: (day: number) => void }[];
  /** the unit is in the shop's hands because of a code */
  underWatch: boolean;
  /** bias of this engine's phase reading, crank degrees */
  readonly phaseBiasDeg: number;
  /** set when the unit leaves the fleet */
  disposal: { day: number; reason: string } | null;
  readonly standFor: (days: number) => void;
}

/** Records of the unit exist on this day. */
export function onRecord(bench: EngineBench, day: number): boolean {
  return day >= bench.plan.firstRecordDay;
}

/** Signs of wear may be noticed by chance on this day. */
export function noticing(bench: EngineBench, day: number): boolean {
  return onRecord(bench, day) && (bench.plan.quietFromDay === null || day < bench.plan.quietFromDay);
}
