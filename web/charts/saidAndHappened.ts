import type { ChartConfiguration } from 'chart.js';
import type { HindcastOriginResult } from '../../models/schema/hindcastEndpoints.ts';
import { dayAndMonth } from '../format/dates.ts';
import { hatch, type Theme } from './ink.ts';

const said = (one: HindcastOriginResult): [number, number] | null =>
  one.sumpwise.countLow === null || one.sumpwise.countHigh === null
    ? null
    : [one.sumpwise.countLow, one.sumpwise.countHigh];

/** Failures per window: the 80 % range said as a hatched bar, what was expected as a line across it, what happened as a square. */
export function saidAndHappened(origins: readonly HindcastOriginResult[]) {
  return (theme: Theme): ChartConfiguration<'bar' | 'line'> => {
    const size = 12 * theme.scale;
    const highest = Math.max(
      4,
      ...origins.map((one) => Math.max(one.sumpwise.events, one.sumpwise.countHigh ?? one.sumpwise.expected)),
    );
    return {
      type: 'bar',
      data: {
        labels: origins.map((one) => [
          dayAndMonth(one.origin),
          one.origin.slice(0, 4),
          `${one.observedDays} days`,
        ]),
        datasets: [
          {
            type: 'line',
            label: 'happened',
            data: origins.map((one) => one.sumpwise.events),
            showLine: false,
            pointStyle: 'rect',
            pointRadius: 7 * theme.scale,
            borderColor: theme.accent,
            backgroundColor: theme.accent,
            order: 0,
          },
          {
            type: 'line',
            label: 'said',
            data: origins.map((one) => one.sumpwise.expected),
            showLine: false,
            pointStyle: 'line',
            pointRadius: 16 * theme.scale,
            borderColor: theme.ink,
            borderWidth: 3,
            order: 1,
          },
          {
            type: 'bar',
            label: '80 % range said',
            data: origins.map(said) as [number, number][],
            backgroundColor: hatch(1, theme),
            borderColor: theme.ink,
            borderWidth: 1,
            borderSkipped: false,
            maxBarThickness: 60 * theme.scale,
            minBarLength: 2,
            order: 2,
          },
        ],
      },
      options: {
        scales: {
          x: {
            grid: { display: false },
            title: { display: true, text: 'from that day on', color: theme.muted, font: { size } },
            ticks: { color: theme.ink, font: { size }, maxRotation: 0 },
          },
          y: {
            beginAtZero: true,
            suggestedMax: Math.ceil(highest * 1.1),
            grid: { color: theme.line },
            border: { display: false },
            title: { display: true, text: 'timing failures', color: theme.muted, font: { size } },
            ticks: { color: theme.ink, font: { size }, precision: 0 },
          },
        },
        plugins: {
          legend: { labels: { color: theme.ink, font: { size }, usePointStyle: true } },
          tooltip: {
            callbacks: {
              label: (item) => {
                const one = origins[item.dataIndex];
                if (item.dataset.label === 'happened') return `happened: ${one.sumpwise.events.toFixed(1)}`;
                if (item.dataset.label === 'said') return `said: ${one.sumpwise.expected.toFixed(1)}`;
                return `80 % range said: ${one.sumpwise.countLow} to ${one.sumpwise.countHigh}`;
              },
            },
          },
        },
      },
    };
  };
}
