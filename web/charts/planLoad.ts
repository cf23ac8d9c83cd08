import type { ChartConfiguration } from 'chart.js';
import { dayFromIso } from '../../models/schema/day.ts';
import type { ShopPlan } from '../../models/schema/shopPlan.ts';
import { dayAndMonth } from '../format/dates.ts';
import { isHere } from '../format/planWords.ts';
import { hatch, type Theme } from './ink.ts';

/** Hours planned and at hand in each week of a plan. */
export function weekLoads(plan: ShopPlan, weeks: readonly string[], site: string) {
  const rows = weeks.map((week) => ({ week, used: 0, room: 0 }));
  for (const load of plan.loads) {
    if (load.technician !== null || !isHere(load, site)) continue;
    const row = rows.at(Math.floor((dayFromIso(load.on) - dayFromIso(weeks[0])) / 7));
    if (row === undefined) continue;
    row.used += load.usedHours;
    row.room += load.capacityHours;
  }
  return rows;
}

/** Hatched bars of planned hours by week under the stepped line of the hours at hand. */
export function planLoadChart(rows: ReturnType<typeof weekLoads>, chosen: number) {
  return (theme: Theme): ChartConfiguration<'bar' | 'line'> => {
    const size = 13 * theme.scale;
    return {
      type: 'bar',
      data: {
        labels: rows.map(({ week }) => dayAndMonth(week)),
        datasets: [
          {
            type: 'line',
            label: 'hours at hand',
            data: rows.map(({ room }) => Math.round(room * 10) / 10),
            borderColor: theme.accent,
            borderWidth: 2,
            stepped: 'middle',
            pointRadius: 0,
            order: 0,
          },
          {
            type: 'bar',
            label: 'hours planned',
            data: rows.map(({ used }) => Math.round(used * 10) / 10),
            backgroundColor: hatch(2, theme),
            borderColor: theme.ink,
            borderWidth: rows.map((_, index) => (index === chosen ? 3 : 1)),
            order: 1,
          },
        ],
      },
      options: {
        interaction: { mode: 'index', intersect: false },
        scales: {
          x: {
            grid: { display: false },
            ticks: { color: theme.ink, font: { size }, maxRotation: 0 },
            title: { display: true, text: 'week from', color: theme.muted, font: { size } },
          },
          y: {
            beginAtZero: true,
            grid: { color: theme.line },
            border: { display: false },
            ticks: { color: theme.ink, font: { size }, maxTicksLimit: 6 },
            title: { display: true, text: 'hours', color: theme.muted, font: { size } },
          },
        },
        plugins: { legend: { position: 'bottom', labels: { color: theme.ink, font: { size } } } },
      },
    };
  };
}
