import type { ChartConfiguration } from 'chart.js';
import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import type { UnitLine } from '../../models/schema/fleetList.ts';
import type { Settings } from '../../models/schema/settings.ts';
import { dayAndMonth, weekStart } from '../format/dates.ts';
import { limitName } from '../format/words.ts';
import { countAxis, hatchLegend } from './chartParts.ts';
import { hatch, type Theme } from './ink.ts';

export const weeksShown = 13;
const stopReason = 'stop and check';

/** Units due by week and reason; column 0 is what is past. */
export interface DueTable {
  readonly labels: readonly string[];
  readonly reasons: readonly string[];
  /** [reason][column] → unit numbers */
  readonly units: readonly (readonly (readonly string[])[])[];
}

export type FirstDay = Settings['firstDayOfWeek'];

/** The column of a due day: 0 past, 1 the rest of this week, 2..13 the weeks ahead, null beyond. */
export function dueColumn(asOf: string, dueOn: string | null, firstDay: FirstDay): number | null {
  if (dueOn === null) return null;
  const key = `${asOf} ${firstDay}`;
  if (columnsKnown.key !== key) columnsKnown = { key, byDay: new Map() };
  let column = columnsKnown.byDay.get(dueOn);
  if (column === undefined) {
    column = workedColumn(asOf, dueOn, firstDay);
    columnsKnown.byDay.set(dueOn, column);
  }
  return column;
}

/** Columns of the days met so far: thousands of units share a few hundred of them. */
let columnsKnown: { key: string; byDay: Map<string, number | null> } = { key: '', byDay: new Map() };

function workedColumn(asOf: string, dueOn: string, firstDay: FirstDay): number | null {
  const [today, due] = [dayFromIso(asOf), dayFromIso(dueOn)];
  if (due < today) return 0;
  const week = Math.floor((due - weekStart(today, firstDay)) / 7) + 1;
  return week > weeksShown ? null : week;
}

/** The column of a unit: what must stop stands with what is past. */
export function columnOf(unit: UnitLine, asOf: string, firstDay: FirstDay): number | null {
  return unit.call === 'stop' ? 0 : dueColumn(asOf, unit.oil?.dueOn ?? null, firstDay);
}

/** The reason a unit is counted under. */
export function dueReason(unit: UnitLine): string {
  return unit.call === 'stop' ? stopReason : limitName(unit.dueReason ?? unit.oil?.governingLimit ?? null);
}

/** Sorts units into weeks by their median due date and the reason that governs. */
export function dueTable(units: readonly UnitLine[], asOf: string, firstDay: FirstDay): DueTable {
  const counts = new Map<string, string[][]>();
  for (const unit of units) {
    const column = columnOf(unit, asOf, firstDay);
    if (column === null) continue;
    const reason = dueReason(unit);
    const row = counts.get(reason) ?? Array.from({ length: weeksShown + 1 }, () => []);
    row[column].push(unit.unitNumber);
    counts.set(reason, row);
  }
  const total = (rows: string[][]): number => rows.reduce((sum, list) => sum + list.length, 0);
  const ordered = [...counts.entries()].sort((a, b) =>
    a[0] === stopReason ? -1 : b[0] === stopReason ? 1 : total(b[1]) - total(a[1]),
  );
  const first = weekStart(dayFromIso(asOf), firstDay);
  return {
    labels: [
      'past',
      'this week',
      ...Array.from({ length: weeksShown - 1 }, (_, week) => dayAndMonth(isoFromDay(first + 7 * (week + 1)))),
    ],
    reasons: ordered.map(([reason]) => reason),
    units: ordered.map(([, rows]) => rows),
  };
}

/** The heading of a column as it stands in a sentence: "past due", "due in the week from 7 Nov". */
export function columnWords(table: DueTable, column: number): string {
  if (column === 0) return table.reasons.includes(stopReason) ? 'to stop or past due' : 'past due';
  if (column === 1) return 'due this week';
  return `due in the week from ${table.labels[column] ?? ''}`;
}

/** The next top of an axis on which evenly spaced marks end. */
function evenTop(value: number): number {
  const step = 10 ** Math.floor(Math.log10(value / 4)) || 1;
  const wide = [1, 2, 2.5, 5, 10].map((by) => by * Math.max(1, step)).find((by) => by * 6 >= value) ?? value;
  return Math.ceil(value / Math.ceil(wide)) * Math.ceil(wide);
}

/** Hatch of each reason: solid for what must stop, then from dense to light by how many it holds. */
export function reasonHatch(reason: string, index: number): number {
  return reason === stopReason ? 6 : [2, 1, 3, 5, 4, 0][index % 6];
}

/**
 * Stacked bars by week with the room there is as a stepped line.
 * @param room visits a week that the chosen sites hold
 */
export function dueByWeekChart(table: DueTable, room: number | null, chosen: number | null) {
  const highest = Math.max(
    4,
    ...table.labels.map((_, column) => table.units.reduce((sum, rows) => sum + rows[column].length, 0)),
  );
  // room far above the bars would flatten them: the line then lies at the top edge and its label gives the number
  const ceiling = Math.ceil(highest * 1.3);
  const drawnRoom = room === null ? null : Math.min(room, ceiling);
  return (theme: Theme): ChartConfiguration<'bar' | 'line'> => ({
    type: 'bar',
    data: {
      labels: [...table.labels],
      datasets: [
        ...(room === null
          ? []
          : [
              {
                type: 'line' as const,
                label: `room for ${Math.round(room)} oil services a week${room > ceiling ? ' (above this scale)' : ''}`,
                data: table.labels.map((_, column) => (column === 0 ? null : drawnRoom)),
                borderDash: room > ceiling ? [8, 6] : [],
                borderColor: theme.accent,
                borderWidth: 2,
                stepped: 'middle' as const,
                pointRadius: 0,
                pointStyle: 'line' as const,
                order: 0,
              },
            ]),
        ...table.reasons.map((reason, index) => ({
          type: 'bar' as const,
          label: reason,
          data: table.units[index].map((list) => list.length),
          backgroundColor: hatch(reasonHatch(reason, index), theme),
          borderColor: theme.ink,
          borderWidth: table.labels.map((_, column) => (column === chosen ? 3 : 1)),
          stack: 'due',
          pointStyle: 'rect' as const,
          order: 1,
          categoryPercentage: 0.86,
          barPercentage: 1,
        })),
      ],
    },
    options: {
      // the whole column answers to pointer and finger, however low its bar is
      interaction: { mode: 'index', intersect: false },
      scales: {
        x: {
          stacked: true,
          grid: { display: false },
          border: { color: theme.line },
          ticks: { color: theme.ink, font: { size: 13 * theme.scale }, maxRotation: 0, autoSkipPadding: 8 },
          title: { display: true, text: 'week from', color: theme.muted, font: { size: 12 * theme.scale } },
        },
        y: {
          ...countAxis(theme, 'units due'),
          max: evenTop(Math.max(highest + 1, Math.ceil(drawnRoom ?? 0))),
        },
      },
      plugins: {
        legend: hatchLegend(theme),
        tooltip: {
          filter: (item) => Number(item.parsed.y) > 0,
          callbacks: {
            title: (items) =>
              items[0] === undefined
                ? ''
                : columnWords(table, items[0].dataIndex).replace(/^due (in the )?/, ''),
            label: (item) =>
              item.dataset.type === 'line'
                ? String(item.dataset.label)
                : `${item.dataset.label}: ${item.formattedValue}`,
            afterBody: (items) => {
              const column = items[0]?.dataIndex ?? 0;
              const names = table.units.flatMap((rows) => rows[column] ?? []);
              return names.length > 0
                ? `units ${names.slice(0, 8).join(', ')}${names.length > 8 ? ' …' : ''}`
                : '';
            },
          },
        },
      },
    },
  });
}
