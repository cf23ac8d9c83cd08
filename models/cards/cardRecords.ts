import type { RecordKind } from '../schema/kinds.ts';
import type { CardClosing } from '../schema/jobCard.ts';
import type { WorkKind } from '../schema/service.ts';
import type { ShopJob } from '../schema/shopPlan.ts';
import type { Stock } from '../schema/shopResources.ts';
import { opensTiming } from './cardItems.ts';

/** A table of the own layout, as if it had come as a file. */
export interface CardTable {
  readonly kind: RecordKind;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** What the records of a closed card say beside what was typed. */
export interface CardSource {
  readonly key: string;
  readonly unitNumber: string;
  /** ISO date of the work */
  readonly on: string;
  readonly shop: string | null;
}

type Row = Readonly<Record<string, string | number | boolean | null>>;

const cell = (value: string | number | boolean | null | undefined): string =>
  value === null || value === undefined
    ? ''
    : value === true
      ? 'yes'
      : value === false
        ? 'no'
        : String(value);

function table(kind: RecordKind, rows: readonly Row[]): CardTable[] {
  if (rows.length === 0) return [];
  const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  return [
    {
      kind,
      columns,
      rows: rows.map((row) => columns.map((column) => cell(row[column]))),
    },
  ];
}

/** Works in order of weight: cost and hours of the whole card stand with the first. */
function worksOf(closing: CardClosing): { work: WorkKind; bank: string | null; revision: string | null }[] {
  const looked = (job: ShopJob): boolean => closing.jobsDone.includes(job);
  const oil = closing.oil !== null && (looked('oil_change') || opensTiming(closing.jobsDone));
  const works = closing.renewed.map((entry) => ({ ...entry }));
  if (oil) works.push({ work: 'oil_change', bank: null, revision: null });
  if (works.length === 0) works.push({ work: 'inspection', bank: null, revision: null });
  return works;
}

function serviceRows(closing: CardClosing, source: CardSource): Row[] {
  return worksOf(closing).map(({ work, bank, revision }, index) => {
    const oil = work === 'oil_change' ? closing.oil : null;
    return {
      unit_number: source.unitNumber,
      serviced_on: source.on,
      odometer_km: closing.odometerKm,
      engine_hours_h: closing.engineHoursH,
      work,
      oil_grade: oil?.grade ?? null,
      oil_category: oil?.category ?? null,
      oil_l: oil?.amountL ?? null,
      filter_changed: oil?.filterChanged ?? null,
      cost: index === 0 && closing.costCents !== null ? (closing.costCents / 100).toFixed(2) : null,
      labour_hours_h: index === 0 ? closing.labourHours : null,
      shop: source.shop,
      note: index === 0 ? closing.note : null,
      outcome: work === 'oil_change' || work === 'inspection' ? null : closing.outcome,
      bank,
      part_revision: revision,
      record_id: `card-${source.key}-work-${index + 1}`,
      work_order: `card ${source.key}`,
    };
  });
}

function findingRows(closing: CardClosing, source: CardSource): Row[] {
  const cleared: CardClosing['findings'] =
    closing.cleared === null
      ? []
      : [{ finding: 'cleared', value: closing.technician, bank: null, note: closing.cleared }];
  return [...closing.findings, ...cleared].map(({ finding, value, bank, note }, index) => ({
    unit_number: source.unitNumber,
    found_on: source.on,
    odometer_km: closing.odometerKm,
    finding,
    value,
    note,
    bank,
    record_id: `card-${source.key}-finding-${index + 1}`,
    work_order: `card ${source.key}`,
  }));
}

/** What a card took off the shelf. */
export interface ShelfTaking {
  readonly item: string;
  readonly quantity: number;
}

/**
 * What a closed card takes off the shelf, by item as its stock record spells it; items without a record at the site are
 * not made up.
 * @param stock records of the site
 * @example 5 l of "oil 5W-30" and 2 + 1 of "Filter Tarn 20" → 5 of the one, 3 of the other
 */
export function shelfTakings(closing: CardClosing, stock: readonly Stock[]): ShelfTaking[] {
  const used = new Map<string, number>();
  for (const { item, quantity } of closing.stockUsed)
    used.set(item.toLowerCase(), (used.get(item.toLowerCase()) ?? 0) + quantity);
  return stock.flatMap(({ item, onHand }) => {
    const quantity = used.get(item.toLowerCase()) ?? 0;
    return quantity === 0 || onHand === null ? [] : [{ item, quantity }];
  });
}

/**
 * The records that a closed card becomes, in the own layout: service rows (one a work) and findings.
 * Distances km, volumes L, money a plain decimal of the settings' currency.
 * @example an oil service → one service row `oil_change`, no finding
 */
export function cardRecords(closing: CardClosing, source: CardSource): CardTable[] {
  return [
    ...table('service', serviceRows(closing, source)),
    ...table('findings', findingRows(closing, source)),
  ];
}

/** Items of a closing that no stock record of the site names. */
export function unknownItems(closing: CardClosing, stock: readonly Stock[]): string[] {
  const known = new Set(stock.map((entry) => entry.item.toLowerCase()));
  return closing.stockUsed
    .filter(({ item, quantity }) => quantity > 0 && !known.has(item.toLowerCase()))
    .map(({ item }) => item);
}
