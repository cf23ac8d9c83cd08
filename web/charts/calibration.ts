import type { ChartConfiguration } from 'chart.js';
import type { HindcastScore } from '../../models/schema/hindcastEndpoints.ts';
import { percent } from '../format/measures.ts';
import type { Theme } from './ink.ts';

type Fifth = NonNullable<HindcastScore['quintiles']>[number];

/** Share of a fifth that failed, with its limits, in per cent. */
const seen = ({ observedLow, observedHigh, units }: Fifth) => ({
  low: (100 * observedLow) / units,
  high: Math.min(100, (100 * observedHigh) / units),
});

/**
 * Fifths of the units by chance: across, the chances said in each as a range; up, the share that failed with its 80 % limits. Where a box crosses the
 * line, what was said and what happened agree.
 */
export function calibrationPlot(fifths: readonly Fifth[]) {
  return (theme: Theme): ChartConfiguration<'scatter'> => {
    const size = 12 * theme.scale;
    const most = Math.max(5, ...fifths.map((part) => Math.max(100 * part.chanceHigh, seen(part).high)));
    // the axis ends on a mark, so that its last two do not run into each other
    const step = most > 50 ? 20 : most > 20 ? 10 : most > 10 ? 5 : 2;
    const top = Math.min(100, step * Math.ceil(most / step));
    const boxes = fifths.map((part) => ({
      type: 'box' as const,
      xMin: 100 * part.chanceLow,
      xMax: 100 * part.chanceHigh,
      yMin: seen(part).low,
      yMax: seen(part).high,
      backgroundColor: `${theme.line}66`,
      borderColor: theme.ink,
      borderWidth: 1,
    }));
    const axis = (text: string) => ({
      min: 0,
      max: top,
      grid: { color: theme.line },
      border: { color: theme.line },
      title: { display: true, text, color: theme.muted, font: { size } },
      ticks: { color: theme.ink, font: { size }, stepSize: step },
    });
    return {
      type: 'scatter',
      data: {
        datasets: [
          {
            label: 'share that failed',
            data: fifths.map((part) => ({
              x: (100 * part.expected) / part.units,
              y: (100 * part.observed) / part.units,
            })),
            pointStyle: 'rect',
            pointRadius: 6 * theme.scale,
            borderColor: theme.accent,
            backgroundColor: theme.accent,
          },
        ],
      },
      options: {
        scales: { x: axis('chance said, %'), y: axis('failed, %') },
        plugins: {
          legend: { display: false },
          annotation: {
            annotations: [
              ...boxes,
              {
                type: 'line',
                xMin: 0,
                yMin: 0,
                xMax: top,
                yMax: top,
                borderColor: theme.muted,
                borderWidth: 1,
                borderDash: [6, 4],
              },
            ],
          },
          tooltip: {
            callbacks: {
              label: ({ dataIndex }) => {
                const part = fifths[dataIndex];
                return `${part.units} units, said ${percent(part.chanceLow)} to ${percent(part.chanceHigh)}: ${part.observed.toFixed(1)} failed`;
              },
            },
          },
        },
      },
    };
  };
}
