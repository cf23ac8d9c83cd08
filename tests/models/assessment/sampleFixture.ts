import { assembleFleet, type FlatRecords } from '../../../models/assessment/assembleFleet.ts';
import { assessFleet, type FleetView } from '../../../models/assessment/assessFleet.ts';
import type { UnitView } from '../../../models/assessment/unitView.ts';
import { coefficientFile, coefficientValues } from '../../../models/schema/coefficient.ts';
import { dayFromIso, isoFromDay } from '../../../models/schema/day.ts';
import { engine, type Engine } from '../../../models/schema/engine.ts';
import { finding, type Finding } from '../../../models/schema/finding.ts';
import type { Sourced } from '../../../models/schema/history.ts';
import type { RecordKind } from '../../../models/schema/kinds.ts';
import { reading } from '../../../models/schema/reading.ts';
import { sample, type Sample } from '../../../models/schema/sample.ts';
import type { IntervalApproval } from '../../../models/schema/sampleView.ts';
import { service, type Service, type WorkKind } from '../../../models/schema/service.ts';
import { defaultSettings } from '../../../models/schema/settings.ts';
import { unit, type Unit } from '../../../models/schema/unit.ts';
import { site, type Site } from '../../../models/schema/site.ts';
import { catalogFiles } from '../../../server/catalog.ts';
import { fleetModels } from '../../../server/fleetModels.ts';

export const coefficients = coefficientValues(catalogFiles.map((file) => coefficientFile.parse(file)));
export const models = fleetModels(coefficients);
export const asOf = '2024-06-01';

/** What a highway unit of 100 km and 1.3 h a day brought in; drains every 100 days until 2024-03-01. */
export interface Lab {
  readonly samples?: readonly Partial<Sample>[];
  readonly findings?: readonly Partial<Finding>[];
  readonly engine?: Partial<Engine>;
  readonly approvals?: readonly Partial<IntervalApproval>[];
  /** engine hours a day; far too many contradict the odometer */
  readonly hoursPerDay?: number;
  readonly asOf?: string;
  readonly unit?: Partial<Unit>;
  /** the unit's site; left out: none, a mild climate is assumed */
  readonly site?: Partial<Site>;
  /** what the drains on record say */
  readonly drain?: Partial<Service>;
  /** days before 2024-03-01 on which nothing was drained any more; left out: drains run until then */
  readonly drainsEnd?: number;
  /** services besides the drains, and how their work reads */
  readonly services?: readonly (Partial<Service> & { readonly works: WorkKind[] })[];
}

function records<T>(kind: RecordKind, rows: readonly T[]): Sourced<T>[] {
  return rows.map((row, index) => ({
    ...row,
    source: { id: index + 1, kind, batch: 'b1', file: `${kind}.csv`, line: index + 2 },
  }));
}

/** The fleet of one such unit, assessed. */
export function labFleet(lab: Lab): FleetView {
  const first = dayFromIso('2022-01-01');
  const days = Array.from({ length: 31 }, (_, month) => first + 28 * month).filter(
    (day) => isoFromDay(day) <= asOf,
  );
  const hours = lab.hoursPerDay ?? 1.3;
  const drains = Array.from({ length: 8 }, (_, index) => dayFromIso('2024-03-01') - 100 * index)
    .filter((day) => day <= dayFromIso('2024-03-01') - (lab.drainsEnd ?? 0))
    .reverse();
  const others = lab.services ?? [];
  const flat: FlatRecords = {
    units: records('units', [
      unit.parse({
        unitNumber: 'L1',
        engineFamily: 'Garth 25',
        inServiceOn: '2022-01-01',
        inServiceOdometerKm: 0,
        status: 'active',
        duty: 'highway',
        ...(lab.site === undefined ? {} : { site: 'Yard' }),
        ...lab.unit,
      }),
    ]),
    engines: records('engines', [
      engine.parse({
        engineFamily: 'Garth 25',
        displacementL: 2.5,
        fuelSystem: 'PFI',
        sumpL: 5.5,
        requiredGrade: '5W-30',
        requiredCategory: 'API SP',
        bookIntervalKm: 8000,
        bookIntervalMonths: 12,
        timingDrive: 'chain',
        interference: true,
        ...lab.engine,
      }),
    ]),
    sites: records('sites', lab.site === undefined ? [] : [site.parse({ site: 'Yard', ...lab.site })]),
    technicians: [],
    stock: [],
    blackouts: [],
    readings: records(
      'readings',
      days.map((day) =>
        reading.parse({
          unitNumber: 'L1',
          readOn: isoFromDay(day),
          odometerKm: 100 * (day - first),
          engineHoursH: hours * (day - first),
          idleHoursH: 0.1 * (day - first),
        }),
      ),
    ),
    fuel: [],
    service: records(
      'service',
      [
        ...drains.map((day) => ({
          unitNumber: 'L1',
          servicedOn: isoFromDay(day),
          odometerKm: 100 * (day - first),
          work: 'oil_change',
          oilGrade: '5W-30',
          oilCategory: 'API SP',
          oilL: 5.5,
          ...lab.drain,
        })),
        ...others.map(({ works, ...row }) => ({ unitNumber: 'L1', work: works.join(' '), ...row })),
      ].map((row) => service.parse(row)),
    ),
    samples: records(
      'samples',
      (lab.samples ?? []).map((row) => sample.parse({ unitNumber: 'L1', ...row })),
    ),
    findings: records(
      'findings',
      (lab.findings ?? []).map((row) => finding.parse({ unitNumber: 'L1', ...row })),
    ),
    codes: [],
    approvals: (lab.approvals ?? []).map((row, index) => ({
      id: index + 1,
      unitNumber: 'L1',
      intervalKm: 12_000,
      approvedBy: 'Ines Farrow',
      approvedOn: '2024-05-01',
      note: null,
      evidence: ['two samples'],
      withdrawnOn: null,
      withdrawnBy: null,
      ...row,
    })),
  };
  const fleet = assembleFleet(flat, lab.asOf ?? asOf, defaultSettings, (work) => ({
    works: others.find(({ works }) => works.join(' ') === work)?.works ?? ['oil_change'],
    oilGrade: null,
    oilL: null,
    bank: null,
    confidence: 1,
  }));
  return assessFleet(fleet, models, 365);
}

/** The one unit of {@link labFleet}. */
export function labUnit(lab: Lab): UnitView {
  const view = labFleet(lab).views.get('L1');
  if (view === undefined) throw new Error('unit L1 must be in service');
  return view;
}

/** A sample of the running charge, all in order: 60 days and 6000 km after the drain of 2024-03-01. */
export const sound: Partial<Sample> = {
  sampledOn: '2024-04-30',
  oilKm: 6000,
  kv100Mm2S: 9.9,
  baseNumberMgKohG: 6.6,
  baseNumberMethod: 'ASTM D2896',
  acidNumberMgKohG: 2,
  fuelPercent: 0.3,
  sootPercent: 0.1,
  oxidationACm: 3,
  waterPercent: 0,
  glycol: false,
  ironPpm: 12,
  copperPpm: 3,
  leadPpm: 1,
  aluminiumPpm: 3,
  siliconPpm: 8,
  sodiumPpm: 5,
  potassiumPpm: 2,
  phosphorusPpm: 760,
};
