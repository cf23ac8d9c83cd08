import type { ChartConfiguration } from 'chart.js';
import type { PromiseMonth } from '../../models/schema/promise.ts';
import { monthName } from '../format/dates.ts';
import { percent } from '../format/measures.ts';
import { countAxis, hatchLegend } from './chartParts.ts';
import { hatch, type Theme } from './ink.ts';

/** Oil changes by month: late at the bottom in solid ink, then on time, then early. */
export function promiseChart(months: readonly PromiseMonth[], tolerance: number) {
  const parts = [
    ['late', `late, past ${percent(1 + tolerance)} of its interval`, 6],
    ['onTime', 'on time', 1],
    ['early', `early, before ${percent(1 - tolerance)}`, 0],
  ] as const;
  const labels = [...new Set(months.map(({ month }) => month))];
  return (theme: Theme): ChartConfiguration<'bar'> => ({
    type: 'bar',
    data: {
      labels: labels.map(monthName),
      datasets: parts.map(([name, label, ink]) => ({
        label,
        data: labels.map((label) =>
          months.filter(({ month }) => month === label).reduce((sum, month) => sum + month[name], 0),
        ),
        backgroundColor: hatch(ink, theme),
        borderColor: theme.ink,
        borderWidth: 1,
        stack: 'changes',
        pointStyle: 'rect' as const,
      })),
    },
    options: {
      interaction: { mode: 'index', intersect: false },
      scales: {
        x: {
          stacked: true,
          grid: { display: false },
          ticks: { color: theme.ink, font: { size: 13 * theme.scale }, maxRotation: 0, autoSkipPadding: 8 },
        },
        y: countAxis(theme, 'oil changes'),
      },
      plugins: {
        legend: hatchLegend(theme),
      },
    },
  });
}
