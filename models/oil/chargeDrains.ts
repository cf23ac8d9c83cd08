import type { ServiceEvent, Source, UnitHistory } from '../schema/history.ts';
import type { DutyRules } from './dutyRules.ts';
import { dayOf } from './usageDay.ts';

/** One drain with fresh oil, its rows merged. */
export interface Drain {
  readonly day: number;
  readonly odometerKm: number | null;
  readonly grade: string | null;
  readonly category: string | null;
  readonly filledLiters: number | null;
  readonly filterChanged: boolean | null;
  /** a renewed engine came with this oil */
  readonly engineRenewed: boolean;
  readonly notes: readonly string[];
  readonly source: Source | null;
}

/** Oil put in between drains. */
export interface OilAdded {
  readonly day: number;
  readonly liters: number | null;
  readonly grade: string | null;
  readonly source: Source;
  readonly note: string | null;
}

/** What the service rows say of oil. */
export interface OilEvents {
  readonly drains: readonly Drain[];
  readonly added: readonly OilAdded[];
  /** days of timing or engine work, when covers were off */
  readonly coverWorkDays: readonly number[];
  /** days with a filter but no oil */
  readonly filterOnlyDays: readonly number[];
  /** days of any service */
  readonly serviceDays: readonly number[];
}

const coverWorks = new Set<string>(['timing_set', 'phaser', 'tensioner_guides', 'engine']);

/** Content that decides between rows of one drain, so that the order of the rows never does. */
function byContent(a: ServiceEvent, b: ServiceEvent): number {
  const keyA = contentKey(a);
  const keyB = contentKey(b);
  return keyA < keyB ? -1 : keyA > keyB ? 1 : 0;
}

function contentKey(row: ServiceEvent): string {
  const known = [row.odometerKm, row.oilGrade, row.oilCategory, row.oilL, row.filterChanged, row.costCents];
  const filled = known.filter((value) => value !== null).length;
  const text = [...known, row.work, row.shop, row.note, row.recordId].map((value) => value ?? '').join('|');
  return `${row.servicedOn}|${9 - filled}|${text}`;
}

function usualFill(history: UnitHistory): number | null {
  if (history.engine?.sumpL !== null && history.engine?.sumpL !== undefined) return history.engine.sumpL;
  const fills = history.services
    .filter((row) => row.read.works.includes('oil_change'))
    .flatMap((row) => row.oilL ?? row.read.oilL ?? [])
    .filter((liters) => liters > 0)
    .sort((a, b) => a - b);
  return fills.length >= 3 ? fills[Math.floor(fills.length / 2)] : null;
}

type Meaning = 'drain' | 'top_up' | 'filter' | 'none';

/**
 * What a row means for the oil. A fill clearly below the sump is a top-up even when it is called an oil change, unless
 * the filter was changed with it; a full sump with a grade or a new filter is a drain whatever the text says.
 */
function meaningOf(
  row: ServiceEvent,
  sump: number | null,
  rules: DutyRules,
): { meaning: Meaning; note: string | null } {
  const { works, confidence } = row.read;
  const liters = row.oilL ?? row.read.oilL;
  const filter = row.filterChanged === true || works.includes('filter');
  const said = works.includes('oil_change') && confidence >= rules.drainConfidence;
  if (works.includes('engine')) return { meaning: 'drain', note: null };
  if (said) {
    if (liters === null || sump === null || liters >= rules.drainFillShare * sump || liters <= 0)
      return { meaning: 'drain', note: null };
    if (filter)
      return {
        meaning: 'drain',
        note: `${rounded(liters)} L recorded for a sump of ${rounded(sump)} L; the filter was changed, so taken as a drain`,
      };
    return {
      meaning: 'top_up',
      note: `${rounded(liters)} L called an oil change, sump ${rounded(sump)} L: taken as a top-up`,
    };
  }
  if (liters !== null && sump !== null && liters >= rules.drainHintShare * sump && liters <= 1.6 * sump) {
    const topUp = works.includes('top_up');
    if (filter || (!topUp && (row.oilGrade !== null || row.read.oilGrade !== null)))
      return {
        meaning: 'drain',
        note: `${rounded(liters)} L filled: taken as a drain though the text does not say so`,
      };
  }
  if (works.includes('top_up')) return { meaning: 'top_up', note: null };
  if (works.includes('filter')) return { meaning: 'filter', note: null };
  return { meaning: 'none', note: null };
}

const rounded = (value: number): string => String(Math.round(value * 10) / 10);

/**
 * Reads drains, top-ups and cover work out of a unit's service rows; rows of one drain (split invoices, double entry)
 * are merged. The order of the rows does not matter.
 * @param history the unit's records
 * @param rules catalog values
 * @param asOfDay days since 1970-01-01; later rows are left out
 */
export function oilEvents(history: UnitHistory, rules: DutyRules, asOfDay: number): OilEvents {
  const sump = usualFill(history);
  const wetBelt = history.engine?.timingDrive === 'wet_belt';
  const rows: { day: number; row: ServiceEvent; note: string | null }[] = [];
  const added: OilAdded[] = [];
  const cover = new Set<number>();
  const filterOnly = new Set<number>();
  const serviceDays: number[] = [];
  for (const row of history.services) {
    const day = dayOf(row.servicedOn);
    if (day > asOfDay) continue;
    serviceDays.push(day);
    if (row.read.works.some((work) => coverWorks.has(work) || (work === 'belt' && wetBelt))) cover.add(day);
    const { meaning, note } = meaningOf(row, sump, rules);
    if (meaning === 'drain') rows.push({ day, row, note });
    else if (meaning === 'top_up')
      added.push({
        day,
        liters: row.oilL ?? row.read.oilL,
        grade: row.oilGrade ?? row.read.oilGrade,
        source: row.source,
        note,
      });
    else if (meaning === 'filter') filterOnly.add(day);
  }
  rows.sort((a, b) => a.day - b.day || byContent(a.row, b.row));
  const drains = mergedDrains(rows, rules);
  const drainDays = new Set(drains.map((drain) => drain.day));
  added.sort(
    (a, b) =>
      a.day - b.day || (a.liters ?? 0) - (b.liters ?? 0) || ((a.grade ?? '') < (b.grade ?? '') ? -1 : 1),
  );
  const ascending = (days: Iterable<number>) => [...days].sort((a, b) => a - b);
  return {
    drains,
    added: distinctAdded(added).filter((one) => !drainDays.has(one.day)),
    coverWorkDays: ascending(cover),
    filterOnlyDays: ascending(filterOnly).filter((day) => !drainDays.has(day)),
    serviceDays: ascending(serviceDays),
  };
}

/** The same top-up entered twice counts once. */
function distinctAdded(added: readonly OilAdded[]): readonly OilAdded[] {
  return added.filter((one, index) => {
    const before = added[index - 1];
    return before === undefined || before.day !== one.day || before.liters !== one.liters;
  });
}

function mergedDrains(
  rows: readonly { day: number; row: ServiceEvent; note: string | null }[],
  rules: DutyRules,
): readonly Drain[] {
  const drains: Drain[] = [];
  for (const { day, row, note } of rows) {
    const next: Drain = {
      day,
      odometerKm: row.odometerKm,
      grade: row.oilGrade ?? row.read.oilGrade,
      category: row.oilCategory,
      filledLiters: row.oilL ?? row.read.oilL,
      filterChanged: row.filterChanged ?? (row.read.works.includes('filter') ? true : null),
      engineRenewed: row.read.works.includes('engine'),
      notes: note === null ? [] : [note],
      source: row.source,
    };
    const last = drains[drains.length - 1];
    const near =
      last !== undefined &&
      day - last.day <= rules.drainSameDays &&
      (day === last.day ||
        last.odometerKm === null ||
        next.odometerKm === null ||
        Math.abs(next.odometerKm - last.odometerKm) <= rules.drainSameKm);
    if (near) drains[drains.length - 1] = merged(last, next);
    else drains.push(next);
  }
  return drains;
}

function merged(first: Drain, second: Drain): Drain {
  const liters = [first.filledLiters, second.filledLiters].filter((value) => value !== null);
  const filter = [first.filterChanged, second.filterChanged];
  return {
    day: first.day,
    odometerKm: first.odometerKm ?? second.odometerKm,
    grade: first.grade ?? second.grade,
    category: first.category ?? second.category,
    filledLiters: liters.length === 0 ? null : Math.max(...liters),
    filterChanged: filter.includes(true) ? true : (first.filterChanged ?? second.filterChanged),
    engineRenewed: first.engineRenewed || second.engineRenewed,
    notes: [...first.notes, ...second.notes],
    source: first.source ?? second.source,
  };
}
