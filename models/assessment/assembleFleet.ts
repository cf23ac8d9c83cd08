import { dayFromIso } from '../schema/day.ts';
import type { Code } from '../schema/code.ts';
import type { Engine } from '../schema/engine.ts';
import type { Finding } from '../schema/finding.ts';
import type { FuelFill } from '../schema/fuelFill.ts';
import type { FleetHistory, ServiceEvent, Sourced, UnitHistory, WorkRead } from '../schema/history.ts';
import type { AdoptedPolicy } from '../schema/policyDocument.ts';
import type { Reading } from '../schema/reading.ts';
import type { Sample } from '../schema/sample.ts';
import type { IntervalApproval } from '../schema/sampleView.ts';
import type { Service } from '../schema/service.ts';
import type { Settings } from '../schema/settings.ts';
import type { Blackout, Stock, Technician } from '../schema/shopResources.ts';
import type { Site } from '../schema/site.ts';
import type { Unit } from '../schema/unit.ts';
import { standingPolicy } from './standingPolicy.ts';

/** Records as the store holds them: flat lists, already cut to what was known on the as-of day. */
export interface FlatRecords {
  readonly units: readonly Sourced<Unit>[];
  readonly engines: readonly Sourced<Engine>[];
  readonly sites: readonly Sourced<Site>[];
  readonly technicians: readonly Sourced<Technician>[];
  readonly stock: readonly Sourced<Stock>[];
  readonly blackouts: readonly Sourced<Blackout>[];
  readonly readings: readonly Sourced<Reading>[];
  readonly fuel: readonly Sourced<FuelFill>[];
  readonly service: readonly Sourced<Service>[];
  readonly samples: readonly Sourced<Sample>[];
  readonly findings: readonly Sourced<Finding>[];
  readonly codes: readonly Sourced<Code>[];
  /** left out: none were approved */
  readonly approvals?: readonly IntervalApproval[];
  /** left out: none were adopted */
  readonly policies?: readonly AdoptedPolicy[];
}

interface Mutable {
  unit: Sourced<Unit>;
  services: ServiceEvent[];
  readings: Sourced<Reading>[];
  fuel: Sourced<FuelFill>[];
  samples: Sourced<Sample>[];
  findings: Sourced<Finding>[];
  codes: Sourced<Code>[];
  approvals: IntervalApproval[];
}

/** The last version of each key wins; versions come in order of id. */
function latestByKey<T>(
  records: readonly Sourced<T>[],
  keyOf: (record: Sourced<T>) => string,
): Map<string, Sourced<T>> {
  const latest = new Map<string, Sourced<T>>();
  for (const record of [...records].sort((a, b) => a.source.id - b.source.id))
    latest.set(keyOf(record), record);
  return latest;
}

/** What is dated after the as-of day is not known yet: a disposal to come leaves the unit active. */
function maskFuture(unit: Sourced<Unit>, asOf: string): Sourced<Unit> {
  if (unit.disposedOn === null || unit.disposedOn <= asOf) return unit;
  return { ...unit, disposedOn: null, disposalReason: null, status: 'active' };
}

const nameKey = (name: string | null): string => (name ?? '').trim().toLowerCase();

/**
 * Puts flat records together by unit. Identity is the number with its in-service span: a record goes to the latest
 * holder of its number that was in service on the record's day, else to the first holder.
 * @param readWork reads a work text into kinds of work
 * @returns the fleet as known on `asOf` (ISO date); each list in order of date, then of content-independent source id
 */
export function assembleFleet(
  flat: FlatRecords,
  asOf: string,
  settings: Settings,
  readWork: (text: string) => WorkRead,
): FleetHistory {
  const engines = latestByKey(flat.engines, (engine) => nameKey(engine.engineFamily));
  const sites = latestByKey(flat.sites, (site) => nameKey(site.site));
  const units = latestByKey(
    flat.units,
    (unit) => `${nameKey(unit.unitNumber)}|${unit.inServiceOn ?? unit.vin ?? ''}`,
  );
  const holders = new Map<string, Mutable[]>();
  for (const unit of units.values()) {
    if (unit.inServiceOn !== null && unit.inServiceOn > asOf) continue;
    const key = nameKey(unit.unitNumber);
    const list = holders.get(key) ?? [];
    list.push({
      unit: maskFuture(unit, asOf),
      services: [],
      readings: [],
      fuel: [],
      samples: [],
      findings: [],
      codes: [],
      approvals: [],
    });
    holders.set(key, list);
  }
  for (const list of holders.values())
    list.sort((a, b) => ((a.unit.inServiceOn ?? '') < (b.unit.inServiceOn ?? '') ? -1 : 1));

  const holderOf = (unitNumber: string, on: string): Mutable | undefined => {
    const list = holders.get(nameKey(unitNumber));
    if (list === undefined) return undefined;
    let chosen = list[0];
    for (const holder of list) if ((holder.unit.inServiceOn ?? '') <= on) chosen = holder;
    return chosen;
  };
  const deal = <T extends { unitNumber: string }>(
    records: readonly Sourced<T>[],
    dateOf: (record: T) => string,
    put: (holder: Mutable, record: Sourced<T>) => void,
  ): void => {
    const ordered = [...records].sort((a, b) => {
      const dayA = dateOf(a);
      const dayB = dateOf(b);
      return dayA < dayB ? -1 : dayA > dayB ? 1 : a.source.id - b.source.id;
    });
    for (const record of ordered) {
      const day = dateOf(record);
      if (day > asOf) continue;
      const holder = holderOf(record.unitNumber, day);
      if (holder !== undefined) put(holder, record);
    }
  };
  deal(
    flat.service,
    (r) => r.servicedOn,
    (holder, r) => holder.services.push({ ...r, read: readWork(r.work) }),
  );
  deal(
    flat.readings,
    (r) => r.readOn,
    (holder, r) => holder.readings.push(r),
  );
  deal(
    flat.fuel,
    (r) => r.filledOn,
    (holder, r) => holder.fuel.push(r),
  );
  deal(
    flat.samples,
    (r) => r.sampledOn,
    (holder, r) => holder.samples.push(r),
  );
  deal(
    flat.findings,
    (r) => r.foundOn,
    (holder, r) => holder.findings.push(r),
  );
  deal(
    flat.codes,
    (r) => r.seenOn,
    (holder, r) => holder.codes.push(r),
  );
  for (const approval of flat.approvals ?? [])
    if (approval.approvedOn <= asOf)
      holderOf(approval.unitNumber, approval.approvedOn)?.approvals.push(approval);

  const adoptedFor = ({ duty }: Unit): Pick<UnitHistory, 'adopted'> => {
    const adopted = standingPolicy(flat.policies ?? [], duty, asOf);
    return adopted === null ? {} : { adopted };
  };
  const histories: UnitHistory[] = [...holders.values()].flat().map((holder) => ({
    ...holder,
    ...adoptedFor(holder.unit),
    engine: engines.get(nameKey(holder.unit.engineFamily)) ?? null,
    site: sites.get(nameKey(holder.unit.site)) ?? null,
  }));
  histories.sort((a, b) => compareNumbers(a.unit, b.unit));
  return {
    asOf,
    units: histories,
    engines: [...engines.values()],
    sites: [...sites.values()],
    technicians: flat.technicians,
    stock: [...latestByKey(flat.stock, (item) => `${nameKey(item.item)}|${nameKey(item.site)}`).values()],
    blackouts: flat.blackouts,
    settings,
  };
}

/** By unit number with digits as numbers, then by in-service day. */
function compareNumbers(a: Unit, b: Unit): number {
  const byNumber = a.unitNumber.localeCompare(b.unitNumber, 'en', { numeric: true });
  if (byNumber !== 0) return byNumber;
  return (a.inServiceOn ?? '') < (b.inServiceOn ?? '') ? -1 : 1;
}

/** True when the unit was in the fleet on the as-of day: neither disposed of nor retired before. */
export function inService(history: UnitHistory, asOf: string): boolean {
  const { unit } = history;
  if (unit.disposedOn !== null && dayFromIso(unit.disposedOn) <= dayFromIso(asOf)) return false;
  return unit.status !== 'retired';
}
