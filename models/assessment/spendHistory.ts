import type { ServiceEvent, UnitHistory } from '../schema/history.ts';
import type { WorkKind } from '../schema/service.ts';
import type { SpendDocument, SpendSums } from '../schema/spendDocument.ts';

/** What money of a service row went to; other: neither oil nor a renewal nor a failure. */
export type SpendKind = 'oil' | 'planned' | 'unplanned' | 'unsaid' | 'other';

/** One service row as money. */
export interface SpendLine {
  /** as in 2026-03 */
  readonly month: string;
  readonly site: string;
  readonly duty: string;
  readonly engineFamily: string;
  readonly kind: SpendKind;
  /** null: not recorded */
  readonly costCents: number | null;
  readonly paidBy: string;
}

const unknown = 'not recorded';
const oilWork: ReadonlySet<WorkKind> = new Set(['oil_change', 'top_up', 'filter']);
const noRenewal: ReadonlySet<WorkKind> = new Set([...oilWork, 'meter_replaced', 'inspection', 'other']);

/** A failure is unplanned whatever was done; a renewal is what its outcome says; what is left is oil, or other work. */
export function spendKindOf({ outcome, read }: Pick<ServiceEvent, 'outcome' | 'read'>): SpendKind {
  if (outcome === 'failed') return 'unplanned';
  if (read.works.some((work) => !noRenewal.has(work))) return outcome === 'planned' ? 'planned' : 'unsaid';
  return read.works.some((work) => oilWork.has(work)) ? 'oil' : 'other';
}

/**
 * The service rows of a fleet as money, in order of unit and date. A row that did several jobs counts once, as its
 * dearest kind of job. Site, duty and family are the unit's present ones; units that have left are in it.
 * @returns e.g. an oil change of 68.50 on 2026-03-12 → { month: '2026-03', kind: 'oil', costCents: 6850, … }
 */
export function spendLines(
  histories: readonly Pick<UnitHistory, 'unit' | 'services'>[],
): readonly SpendLine[] {
  return histories.flatMap(({ unit, services }) =>
    services.map((event) => ({
      month: event.servicedOn.slice(0, 7),
      site: named(unit.site),
      duty: named(unit.duty),
      engineFamily: named(unit.engineFamily),
      kind: spendKindOf(event),
      costCents: event.costCents,
      paidBy: named(event.paidBy),
    })),
  );
}

/**
 * Sums of lines in cents; a line without a cost is counted and adds nothing; other work is left out.
 * @returns e.g. oil 68.50 and an unplanned 7400 → oilCents 6850, unplannedCents 740000, rows 2
 */
export function spendSumsOf(lines: readonly SpendLine[]): SpendSums {
  const sums = {
    rows: 0,
    oilCents: 0,
    plannedCents: 0,
    unplannedCents: 0,
    unsaidCents: 0,
    withoutCost: 0,
  };
  for (const { kind, costCents } of lines) {
    if (kind === 'other') continue;
    sums.rows += 1;
    if (costCents === null) sums.withoutCost += 1;
    else sums[`${kind}Cents`] += costCents;
  }
  return sums;
}

/** What each payer paid, dearest first; spellings that differ in case are one. */
export function spendByPayer(lines: readonly SpendLine[]): SpendDocument['paidBy'] {
  const payers = new Map<string, SpendDocument['paidBy'][number]>();
  for (const { kind, costCents, paidBy } of lines) {
    if (kind === 'other') continue;
    const key = paidBy.toLowerCase();
    const payer = payers.get(key) ?? { name: paidBy, rows: 0, costCents: 0, withoutCost: 0 };
    payer.rows += 1;
    if (costCents === null) payer.withoutCost += 1;
    else payer.costCents += costCents;
    payers.set(key, payer);
  }
  return [...payers.values()].sort((a, b) => b.costCents - a.costCents || (a.name < b.name ? -1 : 1));
}

/** What the reader of the sums must know. */
export function spendNotes(lines: readonly SpendLine[], total: SpendSums): string[] {
  const notes: string[] = [];
  if (total.rows === 0) return ['no oil change, renewal or repair is on record'];
  if (total.withoutCost > 0)
    notes.push(
      `${total.withoutCost} of ${total.rows} rows carry no cost and add nothing: what was spent is at least this`,
    );
  const unsaid = lines.filter(({ kind }) => kind === 'unsaid').length;
  if (unsaid > 0)
    notes.push(
      `of ${unsaid} renewals and repairs it is not recorded whether they were planned or followed a failure`,
    );
  const other = lines.filter(({ kind }) => kind === 'other');
  if (other.length > 0)
    notes.push(`${other.length} rows of other work, such as inspections, are not in these sums`);
  return notes;
}

function named(text: string | null): string {
  const trimmed = text?.trim() ?? '';
  return trimmed === '' ? unknown : trimmed;
}
