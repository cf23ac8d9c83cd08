import type { ChartConfiguration } from 'chart.js';
import type { PolicyTrialDocument } from '../../models/schema/policyTrial.ts';
import { countAxis, hatchLegend } from './chartParts.ts';
import { hatch, type Theme } from './ink.ts';

/** Oil changes in each of the first months: as kept today, and under the interval that is tried. */
export function changesChart({ now, then }: PolicyTrialDocument, months: number) {
  return (theme: Theme): ChartConfiguration<'bar'> => ({
    type: 'bar',
    data: {
      labels: now.byMonth.slice(0, months).map((_, month) => String(month + 1)),
      datasets: [
        { label: 'as kept today', rhythm: now, index: 0 },
        { label: 'under the interval tried', rhythm: then, index: 2 },
      ].map(({ label, rhythm, index }) => ({
        label,
        data: rhythm.byMonth.slice(0, months).map(({ mid }) => mid),
        backgroundColor: hatch(index, theme),
        borderColor: theme.ink,
        borderWidth: 1,
      })),
    },
    options: {
      scales: {
        x: {
          grid: { display: false },
          ticks: { color: theme.ink, font: { size: 13 * theme.scale } },
          title: { display: true, text: 'month from today', color: theme.muted },
        },
        y: { ...countAxis(theme, 'oil changes'), stacked: false },
      },
      plugins: { legend: hatchLegend(theme) },
    },
  });
}
