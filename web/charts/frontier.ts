import type { ChartConfiguration } from 'chart.js';
import type { BudgetLevelShown } from '../../models/schema/budgetDocument.ts';
import { roundMoney } from '../format/money.ts';
import type { Theme } from './ink.ts';

/** Money against failures avoided: the range as a band, the expectation as a line, the amount asked for as a mark. */
export function frontierChart(levels: readonly BudgetLevelShown[], amountCents: number, currency: string) {
  const points = levels.toSorted((a, b) => a.spentCents - b.spentCents);
  const line = (pick: (level: BudgetLevelShown) => number) =>
    points.map((level) => ({ x: level.spentCents / 100, y: pick(level) }));
  const own = levels.find(({ budgetCents }) => budgetCents === amountCents);
  return (theme: Theme): ChartConfiguration<'bar' | 'line'> => {
    const size = 13 * theme.scale;
    return {
      type: 'line',
      data: {
        datasets: [
          {
            label: 'high',
            data: line(({ failuresAvoided }) => failuresAvoided.high),
            borderColor: theme.muted,
            borderWidth: 1,
            pointRadius: 0,
            fill: '+1',
            backgroundColor: `${theme.line}99`,
          },
          {
            label: 'low',
            data: line(({ failuresAvoided }) => failuresAvoided.low),
            borderColor: theme.muted,
            borderWidth: 1,
            pointRadius: 0,
          },
          {
            label: 'expected',
            data: line(({ failuresAvoided }) => failuresAvoided.mid),
            borderColor: theme.ink,
            backgroundColor: theme.ink,
            borderWidth: 2,
            pointRadius: 3,
          },
          {
            label: 'this amount',
            data: own === undefined ? [] : [{ x: own.spentCents / 100, y: own.failuresAvoided.mid }],
            borderColor: theme.accent,
            backgroundColor: theme.accent,
            pointStyle: 'rectRot',
            pointRadius: 8 * theme.scale,
            showLine: false,
          },
        ],
      },
      options: {
        scales: {
          x: {
            type: 'linear',
            min: 0,
            grid: { display: false },
            title: { display: true, text: 'money spent on planned work', color: theme.ink, font: { size } },
            ticks: {
              color: theme.ink,
              font: { size },
              maxTicksLimit: 6,
              callback: (value) => roundMoney(100 * Number(value), currency),
            },
          },
          y: {
            beginAtZero: true,
            grid: { color: theme.line },
            border: { display: false },
            title: { display: true, text: 'failures avoided', color: theme.ink, font: { size } },
            ticks: { color: theme.ink, font: { size }, maxTicksLimit: 6 },
          },
        },
        plugins: {
          legend: { display: false },
          tooltip: {
            callbacks: {
              title: (items) =>
                items[0] === undefined ? '' : roundMoney(100 * Number(items[0].parsed.x), currency),
              label: (item) => `${item.dataset.label}: ${Number(item.parsed.y).toPrecision(2)} avoided`,
            },
          },
        },
      },
    };
  };
}
