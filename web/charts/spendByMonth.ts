import type { ChartConfiguration } from 'chart.js';
import type { SpendDocument } from '../../models/schema/spendDocument.ts';
import { monthName } from '../format/dates.ts';
import { moneyBars } from './chartParts.ts';
import { hatch, type Theme } from './ink.ts';

type Row = SpendDocument['groups'][number]['rows'][number];

/** What was spent, stacked by what it went to; one bar a month. */
export function spendChart(rows: readonly Row[], currency: string) {
  const kinds = [
    ['oil', 1, (row: Row) => row.oilCents],
    ['planned', 0, (row: Row) => row.plannedCents],
    ['unplanned', 2, (row: Row) => row.unplannedCents],
    ['outcome not recorded', 3, (row: Row) => row.unsaidCents],
  ] as const;
  return (theme: Theme): ChartConfiguration<'bar'> => {
    return {
      type: 'bar',
      data: {
        labels: rows.map(({ name }) => monthName(name)),
        datasets: kinds
          .filter(([, , cents]) => rows.some((row) => cents(row) > 0))
          .map(([label, index, cents]) => ({
            label,
            data: rows.map((row) => cents(row) / 100),
            backgroundColor: hatch(index, theme),
            borderColor: theme.ink,
            borderWidth: 1,
          })),
      },
      options: moneyBars(theme, currency),
    };
  };
}
