import type { ChartConfiguration } from 'chart.js';
import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import type { SampleCourse } from '../../models/schema/sampleView.ts';
import { date } from '../format/dates.ts';
import type { Theme } from './ink.ts';
import { dayTick, yearsFrom, yearTicks } from './trend.ts';

/** Shape of a point by its level, so that it can be told without colour. */
export const levelPoints = {
  normal: 'rect',
  caution: 'triangle',
  alert: 'rectRot',
  condemn: 'crossRot',
} as const;

/** Dashes of a limit by its level: short for caution, long for condemn. */
export const levelDashes: Readonly<Record<keyof typeof levelPoints, number[]>> = {
  normal: [],
  caution: [3, 4],
  alert: [6, 4],
  condemn: [12, 4],
};

/** Measured values as points over the band of what was to be expected; limits as dashed lines. */
export function sampleTrendChart({ measurand, band, measured, limits, unit }: SampleCourse) {
  const days = [...band, ...measured].map(({ on }) => dayFromIso(on));
  const [first, last] = [Math.min(...days), Math.max(...days)];
  // a limit far above everything would flatten the rest
  const highest = Math.max(...band.map(({ high }) => high), ...measured.map(({ value }) => value));
  const inSight = limits.filter(({ value }) => value <= 1.6 * highest);
  return (theme: Theme): ChartConfiguration<'bar' | 'line'> => {
    const size = 12 * theme.scale;
    const line = (label: string, pick: (point: SampleCourse['band'][number]) => number) => ({
      label,
      data: band.map((point) => ({ x: dayFromIso(point.on), y: pick(point) })),
      pointRadius: 0,
      order: 2,
    });
    return {
      type: 'line',
      data: {
        datasets: [
          {
            ...line('high', (point) => point.high),
            borderColor: theme.muted,
            borderWidth: 1,
            fill: '+1',
            backgroundColor: `${theme.line}99`,
          },
          { ...line('low', (point) => point.low), borderColor: theme.muted, borderWidth: 1 },
          { ...line('expected', (point) => point.value), borderColor: theme.ink, borderWidth: 2 },
          ...inSight.map(({ level, value }) => ({
            label: level,
            data: [
              { x: first, y: value },
              { x: last, y: value },
            ],
            borderColor: theme.ink,
            borderWidth: 1,
            borderDash: levelDashes[level],
            pointRadius: 0,
            order: 1,
          })),
          {
            label: 'measured',
            data: measured.map((point) => ({ x: dayFromIso(point.on), y: point.value })),
            borderColor: theme.accent,
            backgroundColor: theme.accent,
            borderWidth: 2,
            pointStyle: measured.map(({ level }) => levelPoints[level]),
            pointRadius: 5 * theme.scale,
            showLine: false,
            clip: false as const,
            order: 0,
          },
        ],
      },
      options: {
        scales: {
          x: {
            type: 'linear',
            min: first,
            max: last,
            grid: { display: false },
            ticks: {
              color: theme.ink,
              font: { size },
              maxTicksLimit: 6,
              maxRotation: 0,
              callback: (value) => dayTick(Number(value), last - first),
            },
            afterBuildTicks: (axis) => {
              if (last - first > yearsFrom)
                axis.ticks = yearTicks(first, last, 6).map((value) => ({ value }));
            },
          },
          y: {
            // viscosity hardly moves: from zero its band would be a line
            beginAtZero: measurand !== 'kv100',
            grid: { color: theme.line },
            border: { display: false },
            ticks: { color: theme.ink, font: { size }, maxTicksLimit: 6 },
          },
        },
        plugins: {
          legend: { display: false },
          tooltip: {
            callbacks: {
              title: (items) => (items[0] === undefined ? '' : date(isoFromDay(Number(items[0].parsed.x)))),
              label: (item) => `${item.dataset.label}: ${Number(item.parsed.y).toPrecision(3)} ${unit}`,
            },
          },
        },
      },
    };
  };
}
