import type { ChartConfiguration } from 'chart.js';
import type { DutyPolicyShown } from '../../models/schema/policyDocument.ts';
import { plain } from '../format/measures.ts';
import type { Theme } from './ink.ts';

/**
 * Cost per 1 000 of the reader's unit (of `perUnit` km) against the drain interval: the whole, of that the changes and the
 * wear; today, book and best as lines.
 */
export function policyCurveChart(policy: DutyPolicyShown, perUnit: number, currency: string) {
  const line = (pick: (point: DutyPolicyShown['curve'][number]) => number) =>
    policy.curve.map((point) => ({ x: point.intervalKm / perUnit, y: (pick(point) * perUnit) / 100 }));
  return (theme: Theme): ChartConfiguration<'bar' | 'line'> => {
    const size = 13 * theme.scale;
    const mark = (km: number, words: string, color: string, dash: number[], place: 'start' | 'end') => ({
      type: 'line' as const,
      xMin: km / perUnit,
      xMax: km / perUnit,
      borderColor: color,
      borderWidth: 2,
      borderDash: dash,
      label: {
        display: true,
        content: words,
        position: place,
        backgroundColor: theme.paper,
        color: theme.ink,
        font: { size: size - 1 },
      },
    });
    return {
      type: 'line',
      data: {
        datasets: [
          {
            label: 'whole',
            data: line((p) => p.centsPer1000Km),
            borderColor: theme.ink,
            borderWidth: 2,
            pointRadius: 0,
          },
          {
            label: 'changes',
            data: line((p) => p.changeCentsPer1000Km),
            borderColor: theme.muted,
            borderWidth: 1,
            borderDash: [6, 4],
            pointRadius: 0,
          },
          {
            label: 'wear brought forward',
            data: line((p) => p.wearCentsPer1000Km),
            borderColor: theme.muted,
            borderWidth: 1,
            borderDash: [2, 3],
            pointRadius: 0,
          },
        ],
      },
      options: {
        scales: {
          x: {
            type: 'linear',
            grid: { display: false },
            ticks: { color: theme.ink, font: { size }, maxTicksLimit: 7 },
            title: {
              display: true,
              text: `drain interval, ${perUnit === 1 ? 'km' : 'mi'}`,
              color: theme.muted,
              font: { size },
            },
          },
          y: {
            beginAtZero: true,
            grid: { color: theme.line },
            border: { display: false },
            ticks: { color: theme.ink, font: { size }, maxTicksLimit: 6 },
            title: {
              display: true,
              text: `${currency} per ${plain(1000)} ${perUnit === 1 ? 'km' : 'mi'}`,
              color: theme.muted,
              font: { size },
            },
          },
        },
        plugins: {
          legend: { display: true, position: 'bottom', labels: { color: theme.ink, font: { size } } },
          annotation: {
            annotations: {
              flat: {
                type: 'box',
                xMin: policy.flatFromKm / perUnit,
                xMax: policy.flatToKm / perUnit,
                backgroundColor: `${theme.line}66`,
                borderWidth: 0,
              },
              best: mark(policy.bestIntervalKm, 'cheapest', theme.accent, [], 'end'),
              ...(policy.bookIntervalKm === null
                ? {}
                : { book: mark(policy.bookIntervalKm, 'book', theme.ink, [3, 4], 'start') }),
              ...(policy.currentIntervalKm === null
                ? {}
                : { today: mark(policy.currentIntervalKm, 'today', theme.ink, [12, 4], 'end') }),
            },
          },
        },
      },
    };
  };
}
