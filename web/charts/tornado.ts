import type { ChartConfiguration } from 'chart.js';
import type { BudgetDocument } from '../../models/schema/budgetDocument.ts';
import { roundMoney } from '../format/money.ts';
import { hatch, type Theme } from './ink.ts';

/** What the plan's expected saving hangs on: one bar a cause, from the saving when it is lower to when it is higher. */
export function tornadoChart(bars: BudgetDocument['tornado'], savingCents: number, currency: string) {
  return (theme: Theme): ChartConfiguration<'bar' | 'line'> => {
    const size = 13 * theme.scale;
    return {
      type: 'bar',
      data: {
        labels: bars.map(({ words, swing }) => [words, `± ${Math.round(100 * swing)} %`]),
        datasets: [
          {
            label: 'expected saving',
            data: bars.map(({ atLowCents, atHighCents }): [number, number] => [
              atLowCents / 100,
              atHighCents / 100,
            ]),
            backgroundColor: hatch(1, theme),
            borderColor: theme.ink,
            borderWidth: 1,
            borderSkipped: false,
          },
        ],
      },
      options: {
        indexAxis: 'y',
        scales: {
          x: {
            grid: { color: theme.line },
            ticks: {
              color: theme.ink,
              font: { size },
              maxTicksLimit: 5,
              callback: (value) => roundMoney(100 * Number(value), currency),
            },
          },
          y: { grid: { display: false }, ticks: { color: theme.ink, font: { size: size - 1 } } },
        },
        plugins: {
          legend: { display: false },
          annotation: {
            annotations: {
              expected: {
                type: 'line',
                xMin: savingCents / 100,
                xMax: savingCents / 100,
                borderColor: theme.accent,
                borderWidth: 2,
              },
            },
          },
          tooltip: {
            callbacks: {
              label: (item) => {
                const bar = bars[item.dataIndex];
                return bar === undefined
                  ? ''
                  : `lower: ${roundMoney(bar.atLowCents, currency)}; higher: ${roundMoney(bar.atHighCents, currency)}`;
              },
            },
          },
        },
      },
    };
  };
}
