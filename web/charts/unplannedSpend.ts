import type { ChartConfiguration } from 'chart.js';
import type { BudgetDocument } from '../../models/schema/budgetDocument.ts';
import { moneyBars } from './chartParts.ts';
import { hatch, type Theme } from './ink.ts';

/** Money by quarter of the plan: what failures cost when everything is run, and under the plan, with what is planned. */
export function unplannedChart(byMonth: BudgetDocument['byMonth'], currency: string) {
  const step = byMonth.length > 12 ? 3 : 1;
  const groups = Array.from({ length: Math.ceil(byMonth.length / step) }, (_, i) =>
    byMonth.slice(i * step, (i + 1) * step),
  );
  const sum = (pick: (month: BudgetDocument['byMonth'][number]) => number): number[] =>
    groups.map((group) => group.reduce((total, month) => total + pick(month), 0) / 100);
  return (theme: Theme): ChartConfiguration<'bar' | 'line'> => {
    const bar = (label: string, data: number[], index: number, stack: string) => ({
      type: 'bar' as const,
      label,
      data,
      stack,
      backgroundColor: hatch(index, theme),
      borderColor: theme.ink,
      borderWidth: 1,
    });
    return {
      type: 'bar',
      data: {
        labels: groups.map((group, i) =>
          step === 1 ? `month ${i + 1}` : `months ${i * step + 1} to ${i * step + group.length}`,
        ),
        datasets: [
          bar(
            'failures when all is run',
            sum((month) => month.unplannedWithoutCents),
            0,
            'run',
          ),
          bar(
            'failures under the plan',
            sum((month) => month.unplannedCents),
            2,
            'plan',
          ),
          bar(
            'planned work',
            sum((month) => month.plannedCents),
            6,
            'plan',
          ),
        ],
      },
      options: moneyBars(theme, currency),
    };
  };
}
