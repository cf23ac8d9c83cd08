import { dayFromIso } from '../../models/schema/day.ts';
import type { FleetHistory, ServiceEvent, Sourced, UnitHistory } from '../../models/schema/history.ts';
import { kindTable, type RecordKind } from '../../models/schema/kinds.ts';
import type { Service } from '../../models/schema/service.ts';
import { defaultSettings, type Settings } from '../../models/schema/settings.ts';
import type { Unit } from '../../models/schema/unit.ts';
import type { FleetRows, ServiceRow } from './rows.ts';

/**
 * Simulated rows as the models take them on a day, without files and without reading the shops' words: each service row
 * carries the works that its words were written for. Rows dated, or known, after `asOf` are left out.
 */
export function fleetHistoryOf(
  rows: FleetRows,
  asOf: string,
  settings: Settings = defaultSettings,
): FleetHistory {
  const engines = sourced(rows, 'engines', asOf) as FleetHistory['engines'];
  const sites = sourced(rows, 'sites', asOf) as FleetHistory['sites'];
  const serviceRows = sourced(rows, 'service', asOf) as Sourced<Service>[];
  const events: ServiceEvent[] = serviceRows.map((service) => ({
    ...service,
    read: {
      works: (rows.service[service.source.line - 2] as ServiceRow).works,
      oilGrade: null,
      oilL: null,
      bank: service.bank,
      confidence: 0.95,
    },
  }));
  const services = grouped(events);
  const readings = grouped(sourced(rows, 'readings', asOf) as UnitHistory['readings']);
  const fuel = grouped(sourced(rows, 'fuel', asOf) as UnitHistory['fuel']);
  const samples = grouped(sourced(rows, 'samples', asOf) as UnitHistory['samples']);
  const findings = grouped(sourced(rows, 'findings', asOf) as UnitHistory['findings']);
  const codes = grouped(sourced(rows, 'codes', asOf) as UnitHistory['codes']);
  const units = (sourced(rows, 'units', asOf) as Sourced<Unit>[]).map((full): UnitHistory => {
    const unit = knownOn(full, asOf);
    const mine = <T extends { unitNumber: string }>(
      byUnit: ReadonlyMap<string, readonly T[]>,
      date: (row: T) => string,
    ) =>
      (byUnit.get(unit.unitNumber) ?? [])
        .filter((row) => within(unit, date(row)))
        .sort((a, b) => (date(a) < date(b) ? -1 : date(a) > date(b) ? 1 : 0));
    return {
      unit,
      engine: engines.find((engine) => engine.engineFamily === unit.engineFamily) ?? null,
      site: sites.find((site) => site.site === unit.site) ?? null,
      services: mine(services, (row) => row.servicedOn),
      readings: mine(readings, (row) => row.readOn),
      fuel: mine(fuel, (row) => row.filledOn),
      samples: mine(samples, (row) => row.sampledOn),
      findings: mine(findings, (row) => row.foundOn),
      codes: mine(codes, (row) => row.seenOn),
    };
  });
  return {
    asOf,
    units,
    engines,
    sites,
    technicians: sourced(rows, 'technicians', asOf) as FleetHistory['technicians'],
    stock: sourced(rows, 'stock', asOf) as FleetHistory['stock'],
    blackouts: sourced(rows, 'blackouts', asOf) as FleetHistory['blackouts'],
    settings,
  };
}

/** Rows with every field filled in and a source, as far as they were known on a day. */
function sourced(rows: FleetRows, kind: RecordKind, asOf: string): readonly object[] {
  const { schema, dateField } = kindTable[kind];
  const known: object[] = [];
  (rows[kind] as readonly Record<string, unknown>[]).forEach((row, index) => {
    const record = schema.parse(row) as Record<string, string | null>;
    const date = dateField === null ? null : record[dateField];
    if ((record['recordedOn'] ?? record['reportedOn'] ?? date ?? '') > asOf) return;
    if ((date ?? '') > asOf) return;
    const source = { id: index + 1, kind, batch: 'simulated', file: `${kind}.csv`, line: index + 2 };
    known.push({ ...record, source });
  });
  return known;
}

function grouped<T extends { unitNumber: string }>(list: readonly T[]): ReadonlyMap<string, readonly T[]> {
  const byUnit = new Map<string, T[]>();
  for (const row of list) {
    const mine = byUnit.get(row.unitNumber);
    if (mine) mine.push(row);
    else byUnit.set(row.unitNumber, [row]);
  }
  return byUnit;
}

/** A disposal that lies ahead is not known yet. */
function knownOn(unit: Sourced<Unit>, asOf: string): Sourced<Unit> {
  if (unit.disposedOn === null || unit.disposedOn <= asOf) return unit;
  return { ...unit, status: 'active', disposedOn: null, disposalReason: null };
}

function within(unit: Unit, date: string): boolean {
  const day = dayFromIso(date);
  if (unit.inServiceOn !== null && day < dayFromIso(unit.inServiceOn)) return false;
  return unit.disposedOn === null || day <= dayFromIso(unit.disposedOn);
}
