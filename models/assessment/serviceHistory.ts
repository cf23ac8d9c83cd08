import { dayFromIso } from '../schema/day.ts';
import type { Source, Sourced, UnitHistory } from '../schema/history.ts';
import type { HistoryEntry, UnitHistoryDocument } from '../schema/unitEndpoints.ts';
import { recordLinks } from './recordLinks.ts';

const kinds = ['service', 'samples', 'findings', 'codes', 'readings'] as const;

const placeOf = ({ kind, id, file, line }: Source): HistoryEntry['source'] => ({ kind, id, file, line });

interface Metered {
  readonly odometerKm?: number | null;
  readonly engineHoursH?: number | null;
}

/**
 * A unit's records as a dated history, oldest first, each with file and line. Distances are those of the records
 * (odometer minus odometer, km); where the odometer went back between two oil changes none is said.
 * @param asOf ISO date on which the history was known
 */
export function serviceHistory(history: UnitHistory, asOf: string): UnitHistoryDocument {
  const { unit, engine } = history;
  const records = new Map<string, Sourced<object> & Metered>();
  for (const list of [
    history.services,
    history.samples,
    history.findings,
    history.codes,
    history.readings,
  ] as const)
    for (const record of list as readonly (Sourced<object> & Metered)[])
      records.set(`${record.source.kind} ${record.source.id}`, record);
  const services = new Map(history.services.map((service) => [service.source.id, service]));
  let before: { day: number; odometerKm: number | null } | null = null;
  let oilChanges = 0;
  const entries = recordLinks(history).flatMap((link): HistoryEntry[] => {
    const kind = kinds.find((name) => name === link.kind);
    const record = records.get(`${link.kind} ${link.id}`);
    if (kind === undefined || record === undefined) return [];
    const service = kind === 'service' ? services.get(link.id) : undefined;
    const odometerKm = record.odometerKm ?? null;
    const entry: HistoryEntry = {
      on: link.on,
      kind,
      odometerKm,
      engineHoursH: record.engineHoursH ?? null,
      works: [...(service?.read.works ?? [])],
      words: service === undefined ? link.text : [service.work, service.note].filter(Boolean).join('; '),
      oilGrade: service?.oilGrade ?? service?.read.oilGrade ?? null,
      oilCategory: service?.oilCategory ?? null,
      oilL: service?.oilL ?? service?.read.oilL ?? null,
      filterChanged: service?.filterChanged ?? null,
      sinceOilKm: null,
      sinceOilDays: null,
      shop: service?.shop ?? null,
      workOrder: service?.workOrder ?? null,
      source: placeOf(record.source),
    };
    if (!entry.works.includes('oil_change')) return [entry];
    const day = dayFromIso(link.on);
    const last = before;
    // two rows of one day are one visit
    if (last === null || day > last.day) oilChanges += 1;
    before = { day, odometerKm: odometerKm ?? (last?.day === day ? last.odometerKm : null) };
    if (last === null || day === last.day) return [entry];
    const distanceKm = odometerKm !== null && last.odometerKm !== null ? odometerKm - last.odometerKm : null;
    return [
      {
        ...entry,
        sinceOilDays: day - last.day,
        sinceOilKm: distanceKm !== null && distanceKm >= 0 ? distanceKm : null,
      },
    ];
  });
  return {
    asOf,
    unit: {
      unitNumber: unit.unitNumber,
      vin: unit.vin,
      description: unit.description,
      site: unit.site,
      duty: unit.duty,
      engineFamily: unit.engineFamily,
      inServiceOn: unit.inServiceOn,
      inServiceOdometerKm: unit.inServiceOdometerKm,
      disposedOn: unit.disposedOn,
      source: placeOf(unit.source),
    },
    engine:
      engine === null
        ? null
        : {
            displacementL: engine.displacementL,
            requiredGrade: engine.requiredGrade,
            requiredCategory: engine.requiredCategory,
            bookIntervalKm: engine.bookIntervalKm,
            bookIntervalMonths: engine.bookIntervalMonths,
            source: placeOf(engine.source),
          },
    entries,
    oilChanges,
    longestGap: longestGap(entries, unit.disposedOn ?? asOf),
  };
}

/** The longest time between two entries that follow each other, the last and the end of the history included. */
function longestGap(entries: readonly HistoryEntry[], end: string): UnitHistoryDocument['longestGap'] {
  const days = [...entries.map(({ on }) => on), end];
  let longest: UnitHistoryDocument['longestGap'] = null;
  for (let at = 1; at < days.length; at += 1) {
    const length = dayFromIso(days[at]) - dayFromIso(days[at - 1]);
    if (length > (longest?.days ?? 0)) longest = { from: days[at - 1], to: days[at], days: length };
  }
  return longest;
}
