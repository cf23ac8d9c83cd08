import { coefficientFile, coefficientValues } from '../../../models/schema/coefficient.ts';
import { engine, type Engine } from '../../../models/schema/engine.ts';
import { finding, type Finding } from '../../../models/schema/finding.ts';
import { fuelFill, type FuelFill } from '../../../models/schema/fuelFill.ts';
import type { ServiceEvent, Source, Sourced, UnitHistory } from '../../../models/schema/history.ts';
import type { RecordKind } from '../../../models/schema/kinds.ts';
import { reading, type Reading } from '../../../models/schema/reading.ts';
import { sample, type Sample } from '../../../models/schema/sample.ts';
import { service, workKinds, type Service, type WorkKind } from '../../../models/schema/service.ts';
import { site, type Site } from '../../../models/schema/site.ts';
import { unit, type Unit } from '../../../models/schema/unit.ts';
import { dayFromIso, isoFromDay } from '../../../models/schema/day.ts';
import { catalogJson } from './catalog.ts';

/** Everything that timelines are built with. */
export const dutyCoefficients = coefficientValues(
  ['oil-coefficients.json', 'wear-coefficients.json', 'duty-coefficients.json', 'duty-priors.json'].map(
    (name) => coefficientFile.parse(catalogJson(name)),
  ),
);

/** Records of one unit as tests write them: only what matters, the rest unknown. */
export interface HistoryParts {
  readonly unit?: Partial<Unit>;
  readonly engine?: Partial<Engine> | null;
  readonly site?: Partial<Site> | null;
  readonly services?: readonly Partial<Service>[];
  readonly readings?: readonly Partial<Reading>[];
  readonly fuel?: readonly Partial<FuelFill>[];
  readonly samples?: readonly Partial<Sample>[];
  readonly findings?: readonly Partial<Finding>[];
}

const source = (kind: RecordKind, line: number): Source => ({
  id: line,
  kind,
  batch: 'b1',
  file: `${kind}.csv`,
  line,
});

function sourced<T>(kind: RecordKind, parse: (row: object) => T, rows: readonly object[]): Sourced<T>[] {
  return rows.map((row, index) => ({
    ...parse({ unitNumber: 'U1', ...row }),
    source: source(kind, index + 2),
  }));
}

/** A row's work is the exact words of the own layout, several of them joined by `+`. */
function asEvent(row: Sourced<Service>): ServiceEvent {
  const works = row.work.split('+').map((word) => {
    const known = workKinds.find((kind) => kind === word);
    return known ?? ('other' satisfies WorkKind);
  });
  return { ...row, read: { works, oilGrade: null, oilL: null, bank: null, confidence: 1 } };
}

/** Builds a history through the schemas of the records. */
export function historyOf(parts: HistoryParts): UnitHistory {
  const engineRow = {
    engineFamily: 'E1',
    displacementL: 2.5,
    fuelSystem: 'GDI',
    sumpL: 5,
    bookIntervalKm: 10_000,
    ...parts.engine,
  };
  return {
    unit: {
      ...unit.parse({ unitNumber: 'U1', engineFamily: 'E1', ...parts.unit }),
      source: source('units', 2),
    },
    engine: parts.engine === null ? null : { ...engine.parse(engineRow), source: source('engines', 2) },
    site:
      parts.site === undefined || parts.site === null
        ? null
        : { ...site.parse({ site: 'S1', ...parts.site }), source: source('sites', 2) },
    services: sourced('service', (row) => service.parse(row), parts.services ?? []).map(asEvent),
    readings: sourced('readings', (row) => reading.parse(row), parts.readings ?? []),
    fuel: sourced('fuel', (row) => fuelFill.parse(row), parts.fuel ?? []),
    samples: sourced('samples', (row) => sample.parse(row), parts.samples ?? []),
    findings: sourced('findings', (row) => finding.parse(row), parts.findings ?? []),
    codes: [],
  };
}

export const day = dayFromIso;
export const iso = isoFromDay;

/** Readings every so many days from a day on, all meters running straight. */
export function steadyReadings(
  from: string,
  count: number,
  stepDays: number,
  daily: { readonly km?: number; readonly hours?: number; readonly idle?: number },
  start: { readonly km?: number; readonly hours?: number; readonly idle?: number } = {},
): Partial<Reading>[] {
  return Array.from({ length: count }, (_, i) => {
    const gone = i * stepDays;
    const at = (first: number | undefined, rate: number | undefined) =>
      rate === undefined ? null : (first ?? 0) + rate * gone;
    return {
      readOn: iso(day(from) + gone),
      odometerKm: at(start.km, daily.km),
      engineHoursH: at(start.hours, daily.hours),
      idleHoursH: at(start.idle, daily.idle),
    };
  });
}
