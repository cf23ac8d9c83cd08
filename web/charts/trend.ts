import type { ChartConfiguration } from 'chart.js';
import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import type { StatePoint } from '../../models/schema/story.ts';
import { date, dayAndMonth } from '../format/dates.ts';
import { rounded } from '../format/measures.ts';
import type { Theme } from './ink.ts';

/** What one trend draws. */
export interface TrendInput {
  readonly points: readonly StatePoint[];
  readonly measured: readonly { readonly on: string; readonly value: number }[];
  /** days on which a renewal cut the course */
  readonly renewedOn: readonly string[];
  /** unit of measure, empty for a pure number */
  readonly unit: string;
}

/** Days from which an axis counts in years. */
export const yearsFrom = 700;

/** A day on an axis of so many days: its year on long ones. */
export function dayTick(day: number, span: number): string {
  const iso = isoFromDay(day);
  return span > yearsFrom ? iso.slice(0, 4) : dayAndMonth(iso);
}

/** The first of January of every year between two days, thinned to at most `most`. */
export function yearTicks(firstDay: number, lastDay: number, most: number): number[] {
  const from = Number(isoFromDay(firstDay).slice(0, 4)) + 1;
  const to = Number(isoFromDay(lastDay).slice(0, 4));
  const step = Math.max(1, Math.ceil((to - from + 1) / most));
  const ticks: number[] = [];
  for (let year = from; year <= to; year += step) ticks.push(dayFromIso(`${year}-01-01`));
  return ticks;
}

/** Upper end of the scale: the band decides; a single reading far above it is drawn at the edge. */
export function trendCeiling({ points, measured }: TrendInput): number {
  const band = Math.max(...points.map((point) => point.high));
  const readings = measured.map((point) => point.value).filter((value) => value <= 1.6 * band);
  return 1.08 * Math.max(band, ...readings);
}

/** A state over time: the range as a band, the estimate as a line, measured values as squares, renewals as cuts. */
export function trendChart(input: TrendInput) {
  const { points, measured, renewedOn, unit } = input;
  return (theme: Theme): ChartConfiguration<'line'> => {
    const first = dayFromIso(points[0].on);
    const last = dayFromIso(points[points.length - 1].on);
    const years = last - first > yearsFrom;
    const ceiling = trendCeiling(input);
    const size = 12 * theme.scale;
    const at = (value: (point: StatePoint) => number) =>
      points.map((point) => ({ x: dayFromIso(point.on), y: value(point) }));
    const amount = (value: number): string => `${rounded(value)}${unit === '' ? '' : ` ${unit}`}`;
    const cuts = renewedOn.map((on) => ({
      type: 'line' as const,
      xMin: dayFromIso(on),
      xMax: dayFromIso(on),
      borderColor: theme.accent,
      borderWidth: 2,
    }));
    return {
      type: 'line',
      data: {
        datasets: [
          {
            label: 'estimate',
            data: at((point) => point.value),
            borderColor: theme.ink,
            borderWidth: 2,
            pointRadius: 0,
            order: 1,
          },
          {
            label: 'measured',
            data: measured.map((point) => ({ x: dayFromIso(point.on), y: Math.min(point.value, ceiling) })),
            borderColor: theme.accent,
            backgroundColor: theme.accent,
            pointStyle: measured.map((point) => (point.value > ceiling ? 'triangle' : 'rect')),
            pointRadius: 5 * theme.scale,
            showLine: false,
            clip: false,
            order: 0,
          },
          {
            label: 'high end',
            data: at((point) => point.high),
            borderColor: theme.muted,
            borderWidth: 1,
            pointRadius: 0,
            fill: '+1',
            backgroundColor: `${theme.line}99`,
            order: 2,
          },
          {
            label: 'low end',
            data: at((point) => point.low),
            borderColor: theme.muted,
            borderWidth: 1,
            pointRadius: 0,
            order: 2,
          },
        ],
      },
      options: {
        interaction: { mode: 'nearest', axis: 'x', intersect: false },
        scales: {
          x: {
            type: 'linear',
            min: first,
            max: last,
            grid: { color: theme.line },
            border: { color: theme.line },
            afterBuildTicks: (axis) => {
              if (years) axis.ticks = yearTicks(first, last, 6).map((value) => ({ value }));
            },
            ticks: {
              color: theme.ink,
              font: { size },
              maxTicksLimit: years ? 12 : 5,
              maxRotation: 0,
              callback: (value) => dayTick(Number(value), last - first),
            },
          },
          y: {
            beginAtZero: true,
            max: ceiling,
            grid: { color: theme.line },
            border: { display: false },
            ticks: {
              color: theme.ink,
              font: { size },
              maxTicksLimit: 6,
              includeBounds: false,
              callback: (value) => rounded(Number(value)),
            },
          },
        },
        plugins: {
          legend: { display: false },
          annotation: { annotations: cuts },
          tooltip: {
            callbacks: {
              title: (items) => (items[0] === undefined ? '' : date(isoFromDay(Number(items[0].parsed.x)))),
              label: (item) => {
                const value =
                  item.dataset.label === 'measured' ? measured[item.dataIndex].value : Number(item.parsed.y);
                return `${item.dataset.label}: ${amount(value)}`;
              },
            },
          },
        },
      },
    };
  };
}
