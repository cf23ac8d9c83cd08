import type { WorkKind } from '../../models/schema/service.ts';
import type { DutySpec } from './duty.ts';
import type { FamilySpec } from './family.ts';
import type { PlaceSpec } from './place.ts';
import type { RecordingHabit } from './recording.ts';
import type { Component, DrainHabit } from './truth.ts';
import type { TrueWear } from './wearPhysics.ts';

/** A renewal that the plan decides, not chance. */
export interface ScriptedRenewal {
  readonly day: number;
  readonly component: Component;
  readonly works: readonly WorkKind[];
  readonly outcome: 'planned' | 'failed';
  /** the unit is given up instead of repaired */
  readonly disposes: boolean;
}

/** All that decides the life of one unit, apart from the physics and the dice. */
export interface UnitPlan {
  readonly unitNumber: string;
  readonly vin: string | null;
  readonly description: string;
  readonly place: PlaceSpec;
  readonly duty: DutySpec;
  readonly family: FamilySpec;
  readonly inServiceDay: number;
  readonly inServiceOdometerKm: number;
  /** the fleet's records of this unit begin here */
  readonly firstRecordDay: number;
  readonly lastDay: number;
  readonly disposalDay: number | null;
  readonly disposalReason: string | null;
  readonly plannedDisposalDay: number | null;
  /** bought used on this day; what happened before is nowhere recorded */
  readonly acquiredDay: number | null;
  readonly habit: DrainHabit;
  readonly recording: RecordingHabit;
  readonly useFactor: number;
  readonly idleFactor: number;
  readonly speedFactor: number;
  /** oil burned and leaked, L per 1000 km */
  readonly oilLossPer1000Km: number;
  /** wear set at the first recorded day, or null to let the past decide */
  readonly wearAtStart: Partial<TrueWear> | null;
  readonly scripted: readonly ScriptedRenewal[];
  /** day on which the pan is dropped, the screens are cleaned and the oil is changed */
  readonly cleanDay: number | null;
  /** nobody changes the oil between these days */
  readonly drainPause: { readonly fromDay: number; readonly toDay: number } | null;
  /** from this day on no sign of wear is noticed by chance */
  readonly quietFromDay: number | null;
  /** ventilation and thermostat may fail unnoticed */
  readonly disturbed: boolean;
  /** no failure by chance between the first recorded day and this day */
  readonly spareUntilDay: number | null;
}
