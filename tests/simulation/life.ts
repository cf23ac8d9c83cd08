import type { FindingKind } from '../../models/schema/finding.ts';
import type { WorkKind } from '../../models/schema/service.ts';
import type { TrueOil } from './oilPhysics.ts';
import type { UnitPlan } from './plan.ts';
import type { Component, MonthTruth } from './truth.ts';

/** What was seen or measured, before anyone decides to write it down. */
export interface Look {
  readonly kind: 'look';
  readonly day: number;
  readonly finding: FindingKind;
  readonly value: string;
  readonly note: string | null;
  readonly bank: string | null;
  readonly soakH: number | null;
  readonly engineRpm: number | null;
  readonly oilTemperatureC: number | null;
  /** written down whatever the habit (what ends a stop must be on record) */
  readonly always: boolean;
}

export interface DrainEvent {
  readonly kind: 'drain';
  readonly day: number;
  /** the oil that came out */
  readonly oil: TrueOil;
  readonly grade: string;
  readonly category: string;
  readonly liters: number;
  readonly filter: boolean;
  readonly recorded: boolean;
  /** true sludge and phaser share that day, for what the laboratory sees of wear */
  readonly wearRate: number;
}

export interface RenewalEvent {
  readonly kind: 'renewal';
  readonly day: number;
  readonly component: Component;
  readonly works: readonly WorkKind[];
  readonly outcome: 'planned' | 'failed';
  readonly disposed: boolean;
  readonly downDays: number;
}

export interface CodeEvent {
  readonly kind: 'code';
  readonly day: number;
  readonly code: string;
  readonly status: string;
}

export interface RepairEvent {
  readonly kind: 'repair';
  readonly day: number;
  readonly works: readonly WorkKind[];
  readonly note: string | null;
}

export interface TopUpEvent {
  readonly kind: 'top_up';
  readonly day: number;
  readonly liters: number;
  readonly grade: string;
}

export type LifeEvent = Look | DrainEvent | RenewalEvent | CodeEvent | RepairEvent | TopUpEvent;

/** A whole life, day by day; index 0 is the in-service day. */
export interface Life {
  readonly plan: UnitPlan;
  readonly firstDay: number;
  readonly lastDay: number;
  readonly disposedDay: number | null;
  readonly disposalReason: string | null;
  /** meters at the end of each day */
  readonly odometerKm: Float64Array;
  readonly engineHours: Float64Array;
  readonly idleHours: Float64Array;
  readonly ptoHours: Float64Array;
  readonly fuelLiters: Float64Array;
  readonly starts: Float64Array;
  readonly months: readonly MonthTruth[];
  readonly events: readonly LifeEvent[];
}
