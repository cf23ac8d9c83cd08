import type { ChartConfiguration } from 'chart.js';
import { dayFromIso } from '../../models/schema/day.ts';
import type { levels } from '../../models/schema/sampleView.ts';
import { date } from '../format/dates.ts';
import type { Theme } from './ink.ts';
import { levelDashes, levelPoints } from './sampleTrend.ts';
import { dayTick, yearsFrom, yearTicks } from './trend.ts';

type Level = (typeof levels)[number];

/** One sample's value of the measurand that is plotted. */
export interface PlottedSample {
  readonly unitNumber: string;
  readonly on: string;
  readonly value: number;
  readonly level: Level;
}

/** A limit with where it comes from. */
export interface PlottedLimit {
  readonly level: Level;
  readonly value: number;
  readonly words: string;
}

/** Values of a measurand over time, one shape per level, with the limits as dashed lines. */
export function samplePlot(samples: readonly PlottedSample[], limits: readonly PlottedLimit[], unit: string) {
  const days = samples.map(({ on }) => dayFromIso(on));
  const [first, last] = [Math.min(...days), Math.max(...days)];
  const shown = (Object.keys(levelPoints) as Level[]).filter((level) =>
    samples.some((sample) => sample.level === level),
  );
  const byLevel = shown.map((level) => samples.filter((sample) => sample.level === level));
  const names = [...limits.map(() => []), ...byLevel];
  return (theme: Theme): ChartConfiguration<'bar' | 'line'> => {
    const size = 13 * theme.scale;
    return {
      type: 'line',
      data: {
        datasets: [
          ...limits.map(({ level, value, words }) => ({
            label: words,
            data: [
              { x: first, y: value },
              { x: last, y: value },
            ],
            borderColor: theme.ink,
            borderWidth: 1,
            borderDash: levelDashes[level],
            pointRadius: 0,
            pointStyle: 'line' as const,
            order: 1,
          })),
          ...shown.map((level, index) => ({
            label: level,
            data: byLevel[index].map((sample) => ({ x: dayFromIso(sample.on), y: sample.value })),
            borderColor: level === 'normal' ? theme.muted : theme.accent,
            backgroundColor: level === 'normal' ? theme.paper : theme.accent,
            borderWidth: level === 'condemn' ? 3 : 1,
            pointStyle: levelPoints[level],
            pointRadius: (level === 'normal' ? 4 : 6) * theme.scale,
            showLine: false,
            order: 0,
          })),
        ],
      },
      options: {
        scales: {
          x: {
            type: 'linear',
            min: first - 7,
            max: last + 7,
            grid: { display: false },
            ticks: {
              color: theme.ink,
              font: { size },
              maxTicksLimit: 8,
              maxRotation: 0,
              callback: (value) => dayTick(Number(value), last - first),
            },
            afterBuildTicks: (axis) => {
              if (last - first > yearsFrom)
                axis.ticks = yearTicks(first, last, 8).map((value) => ({ value }));
            },
          },
          y: {
            beginAtZero: true,
            grid: { color: theme.line },
            border: { display: false },
            ticks: { color: theme.ink, font: { size } },
            title: { display: true, text: unit, color: theme.muted, font: { size } },
          },
        },
        plugins: {
          legend: {
            position: 'bottom',
            labels: { color: theme.ink, usePointStyle: true, font: { size } },
          },
          tooltip: {
            callbacks: {
              title: (items) => {
                const item = items[0];
                const sample = item === undefined ? undefined : names[item.datasetIndex]?.[item.dataIndex];
                return sample === undefined ? '' : `unit ${sample.unitNumber}, ${date(sample.on)}`;
              },
              label: (item) => `${item.dataset.label}: ${Number(item.parsed.y).toPrecision(3)} ${unit}`,
            },
          },
        },
      },
    };
  };
}
