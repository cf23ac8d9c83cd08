import type { ChartConfiguration } from 'chart.js';
import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import type { StatePoint } from '../../models/schema/story.ts';
import { dayAndMonth } from '../format/dates.ts';
import type { Theme } from './ink.ts';

/** A state over time: the range as a band, the estimate as a line, measured values as squares. */
export function trendChart(
  points: readonly StatePoint[],
  measured: readonly { on: string; value: number }[],
  unit: string,
) {
  return (theme: Theme): ChartConfiguration<'line'> => {
    const at = (value: (point: StatePoint) => number) =>
      points.map((point) => ({ x: dayFromIso(point.on), y: value(point) }));
    const size = 12 * theme.scale;
    const year = (day: number): string => isoFromDay(day).slice(0, 4);
    return {
      type: 'line',
      data: {
        datasets: [
          {
            label: 'high',
            data: at((p) => p.high),
            borderColor: theme.muted,
            borderWidth: 1,
            pointRadius: 0,
            fill: '+1',
            backgroundColor: `${theme.line}99`,
          },
          { label: 'low', data: at((p) => p.low), borderColor: theme.muted, borderWidth: 1, pointRadius: 0 },
          {
            label: 'estimate',
            data: at((p) => p.value),
            borderColor: theme.ink,
            borderWidth: 2,
            pointRadius: 0,
          },
          {
            label: 'measured',
            data: measured.map((point) => ({ x: dayFromIso(point.on), y: point.value })),
            borderColor: theme.accent,
            backgroundColor: theme.accent,
            pointStyle: 'rect',
            pointRadius: 5,
            showLine: false,
          },
        ],
      },
      options: {
        scales: {
          x: {
            type: 'linear',
            grid: { display: false },
            ticks: {
              color: theme.ink,
              font: { size },
              maxTicksLimit: 6,
              callback: (value) => {
                const day = Number(value);
                const span =
                  points.length > 1 ? dayFromIso(points[points.length - 1].on) - dayFromIso(points[0].on) : 0;
                return span > 700 ? year(day) : dayAndMonth(isoFromDay(day));
              },
            },
          },
          y: {
            beginAtZero: true,
            grid: { color: theme.line },
            border: { display: false },
            ticks: { color: theme.ink, font: { size }, maxTicksLimit: 6 },
          },
        },
        plugins: {
          legend: { display: false },
          tooltip: {
            callbacks: {
              title: (items) => (items[0] === undefined ? '' : isoFromDay(Number(items[0].parsed.x))),
              label: (item) => `${item.dataset.label}: ${Number(item.parsed.y).toPrecision(2)} ${unit}`,
            },
          },
        },
      },
    };
  };
}
