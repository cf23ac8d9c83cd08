import type { Code } from './code.ts';
import type { Engine } from './engine.ts';
import type { Finding } from './finding.ts';
import type { FuelFill } from './fuelFill.ts';
import type { RecordKind } from './kinds.ts';
import type { AdoptedPolicy } from './policyDocument.ts';
import type { Reading } from './reading.ts';
import type { Sample } from './sample.ts';
import type { IntervalApproval } from './sampleView.ts';
import type { Service, WorkKind } from './service.ts';
import type { Settings } from './settings.ts';
import type { Blackout, Stock, Technician } from './shopResources.ts';
import type { Site } from './site.ts';
import type { Unit } from './unit.ts';

/** Where a record came from: the row id in the store, and the file and line that a person can open. */
export interface Source {
  readonly id: number;
  readonly kind: RecordKind;
  readonly batch: string;
  readonly file: string;
  readonly line: number;
}

/** A record with its source. */
export type Sourced<T> = T & { readonly source: Source };

/** What a work text was read as: one or several jobs, with what the text itself said of grade and amount. */
export interface WorkRead {
  readonly works: readonly WorkKind[];
  /** grade named in the text, or null */
  readonly oilGrade: string | null;
  /** amount named in the text, L, or null */
  readonly oilL: number | null;
  /** bank named in the text: `1`, `2`, `both`, or null */
  readonly bank: string | null;
  /** 0..1 how sure the reading is; 1 for the exact words of the own layout */
  readonly confidence: number;
}

/** A service row with its work read. */
export type ServiceEvent = Sourced<Service> & { readonly read: WorkRead };

/** Everything known of one unit on one day, each list in order of date, then of source id. */
export interface UnitHistory {
  readonly unit: Sourced<Unit>;
  /** null: the family is not known or not described */
  readonly engine: Sourced<Engine> | null;
  readonly site: Sourced<Site> | null;
  readonly services: readonly ServiceEvent[];
  readonly readings: readonly Sourced<Reading>[];
  readonly fuel: readonly Sourced<FuelFill>[];
  readonly samples: readonly Sourced<Sample>[];
  readonly findings: readonly Sourced<Finding>[];
  readonly codes: readonly Sourced<Code>[];
  /** longer intervals that were approved for the unit; left out: none */
  readonly approvals?: readonly IntervalApproval[];
  /** the interval adopted for the unit's duty that holds on the day; left out: none */
  readonly adopted?: AdoptedPolicy;
}

/** The whole fleet as it was known on `asOf`. */
export interface FleetHistory {
  /** ISO date; nothing that became known later is in here */
  readonly asOf: string;
  readonly units: readonly UnitHistory[];
  readonly engines: readonly Sourced<Engine>[];
  readonly sites: readonly Sourced<Site>[];
  readonly technicians: readonly Sourced<Technician>[];
  readonly stock: readonly Sourced<Stock>[];
  readonly blackouts: readonly Sourced<Blackout>[];
  readonly settings: Settings;
}
