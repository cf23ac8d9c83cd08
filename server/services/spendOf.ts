import {
  spendByPayer,
  spendLines,
  spendNotes,
  spendSumsOf,
  type SpendLine,
} from '../../models/assessment/spendHistory.ts';
import { spendKeys, type SpendDocument, type SpendKey } from '../../models/schema/spendDocument.ts';
import type { Context } from '../context.ts';
import { danfo } from '../files/danfo.ts';
import type { Store } from '../store/openStore.ts';
import { fleetOn, questionOf } from './fleetQuestion.ts';

const money = ['oilCents', 'plannedCents', 'unplannedCents', 'unsaidCents'] as const;
type Row = SpendDocument['groups'][number]['rows'][number];

/** What was spent by month, site, duty and engine family, as known on a day. */
export async function spendOf(context: Context, store: Store, asOf?: string): Promise<SpendDocument> {
  const fleet = fleetOn(store, await questionOf(context, store, asOf));
  const lines = spendLines(fleet.units);
  const total = spendSumsOf(lines);
  return {
    asOf: fleet.asOf,
    currency: fleet.settings.currency,
    total,
    groups: await spendGroups(lines.filter(({ kind }) => kind !== 'other')),
    paidBy: spendByPayer(lines),
    notes: spendNotes(lines, total),
  };
}

/** Sums by each key, grouped by danfo.js; months in order, the rest dearest first. */
async function spendGroups(lines: readonly SpendLine[]): Promise<SpendDocument['groups']> {
  if (lines.length === 0) return spendKeys.map((by) => ({ by, rows: [] }));
  const { DataFrame } = await danfo();
  const each = lines.map((line) => spendSumsOf([line]));
  return spendKeys.map((by) => {
    const names = namesOf(lines, by);
    const frame = new DataFrame({
      name: names,
      ...Object.fromEntries(money.map((column) => [column, each.map((sums) => sums[column])])),
      withoutCost: each.map((sums) => sums.withoutCost),
    });
    const parts = frame.groupby(['name']).colDict as Record<string, Record<string, number[]>>;
    const rows = Object.entries(parts).map(([name, part]): Row => ({
      name,
      rows: part.withoutCost.length,
      oilCents: sum(part.oilCents),
      plannedCents: sum(part.plannedCents),
      unplannedCents: sum(part.unplannedCents),
      unsaidCents: sum(part.unsaidCents),
      withoutCost: sum(part.withoutCost),
    }));
    const spent = (row: Row): number => money.reduce((all, column) => all + row[column], 0);
    rows.sort((a, b) =>
      by === 'month' ? (a.name < b.name ? -1 : 1) : spent(b) - spent(a) || (a.name < b.name ? -1 : 1),
    );
    return { by, rows };
  });
}

/** One spelling a name: the first. */
function namesOf(lines: readonly SpendLine[], by: SpendKey): string[] {
  const first = new Map<string, string>();
  return lines.map((line) => {
    const key = line[by].toLowerCase();
    const name = first.get(key) ?? line[by];
    first.set(key, name);
    return name;
  });
}

function sum(values: readonly number[]): number {
  return values.reduce((all, value) => all + value, 0);
}
