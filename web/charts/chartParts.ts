import { roundMoney } from '../format/money.ts';
import type { Theme } from './ink.ts';

const size = (theme: Theme): number => 13 * theme.scale;

/** An upright axis that counts from 0 in whole numbers, with its words beside it. */
export function countAxis(theme: Theme, words: string) {
  return {
    stacked: true,
    beginAtZero: true,
    grid: { color: theme.line },
    border: { display: false },
    ticks: { color: theme.ink, precision: 0, font: { size: size(theme) } },
    title: { display: true, text: words, color: theme.muted, font: { size: 12 * theme.scale } },
  };
}

/** The hatches with their words, below the chart. */
export function hatchLegend(theme: Theme) {
  return {
    position: 'bottom' as const,
    labels: {
      color: theme.ink,
      usePointStyle: true,
      pointStyleWidth: 26 * theme.scale,
      boxHeight: size(theme),
      padding: 12 * theme.scale,
      font: { size: size(theme) },
    },
  };
}

/** Scales, legend and tooltip of bars of money by name or month; values in whole money. */
export function moneyBars(theme: Theme, currency: string) {
  const font = { size: size(theme) };
  return {
    scales: {
      x: {
        stacked: true,
        grid: { display: false },
        ticks: { color: theme.ink, font, maxRotation: 0, autoSkip: true },
      },
      y: {
        stacked: true,
        beginAtZero: true,
        grid: { color: theme.line },
        border: { display: false },
        ticks: {
          color: theme.ink,
          font,
          maxTicksLimit: 6,
          callback: (value: number | string) => roundMoney(100 * Number(value), currency),
        },
      },
    },
    plugins: {
      legend: { display: true, position: 'bottom' as const, labels: { color: theme.ink, font } },
      tooltip: {
        callbacks: {
          label: (item: { dataset: { label?: string }; parsed: { y: number | null } }) =>
            `${item.dataset.label}: ${roundMoney(100 * Number(item.parsed.y), currency)}`,
        },
      },
    },
  };
}
