import { solveMilp, type MilpSolver } from '../milpSolver.ts';
import type { SiteProblem } from './siteProblem.ts';
import type { WindowChoice } from './windowChoice.ts';
import { patternInHand, shareLanes } from './windowLanes.ts';
import { roomWorth } from './roomWorth.ts';
import { windowRooms, type PatternLimits, type WindowRoom } from './windowRooms.ts';

/** How long a window may be worked on. */
export interface WindowEffort {
  readonly nodes: number;
  /** steps of the simplex method that are left for this window and those after it; counted down */
  readonly budget: { steps: number };
  /** a bound below this after so many steps is not worth more of them; left out: all are worth it */
  readonly hope?: { readonly steps: number; readonly bound: number };
  /** a solution this near to its bound is good enough, cents */
  readonly gapCents: number;
  /** null: lanes are counted in cells alone, which is quicker where a day has one lane */
  readonly patterns: PatternLimits | null;
  /** whether lanes counted in cells hold no more worth than one can: stronger to begin with, but the tree grows slowly */
  readonly byWorth: boolean;
}

// costs are of the size of 1e6 cents and the solver reckons in doubles
const roundingCents = 0.01;
// worths are of the size of 1e3 cents, cells of 1e1
const worthUnit = 100;

/**
 * Picks choices of a window so that every owed job is done once, no job twice and no lane is overfull, at least cost. Each
 * lane is filled by one of its patterns, whose slots the visits take: once the patterns are whole numbers the visits nearly
 * are, so that the tree stays small, and the continuous programme is as strong as a packing of each lane for itself.
 * @param roomCells cells of each lane that are free for the choices
 * @returns the choices picked with their lanes, or null, and what no pick undercuts, cents
 * Source: Gilmore and Gomory, Operations Research 9 (1961); Vance and others, Computational Optimization and Applications 3
 * (1994); values from memory.
 */
export function solveWindow(
  { bundles, table }: SiteProblem,
  solver: MilpSolver,
  all: readonly WindowChoice[],
  roomCells: (lane: number) => number,
  { nodes, budget, hope, gapCents, patterns, byWorth }: WindowEffort,
): { readonly picked: readonly WindowChoice[] | null; readonly boundCents: number } {
  // the solver takes no programme without columns
  if (all.length === 0) return { picked: [], boundCents: 0 };
  if (budget.steps <= 0) return { picked: null, boundCents: -Infinity };
  const { choices, rooms } = windowRooms(table, all, roomCells, patterns);
  const rows: { columns: number[]; values: number[]; lower: number; upper: number }[] = [];
  const addRow = (lower: number, upper: number) => {
    const row = { columns: [] as number[], values: [] as number[], lower, upper };
    rows.push(row);
    return row;
  };
  const enter = (row: (typeof rows)[number], column: number, value: number) => {
    row.columns.push(column);
    row.values.push(value);
  };
  const jobRow = new Map<string, (typeof rows)[number]>();
  choices.forEach(({ visit, owed, rest }, column) => {
    if (rest) return;
    for (const { jobId } of bundles[visit].jobs) {
      const row = jobRow.get(jobId) ?? addRow(-Infinity, 1);
      jobRow.set(jobId, row);
      if (owed) row.lower = 1;
      enter(row, column, 1);
    }
  });
  const unitRow = new Map<string, { groups: Set<number>; columns: number[] }>();
  choices.forEach(({ visit, lane, takes, rest }, column) => {
    if (lane < 0 || rest) return;
    for (const take of takes) {
      const key = `${bundles[visit].unit}|${table.laneDay[take.lane]}`;
      const row = unitRow.get(key) ?? { groups: new Set<number>(), columns: [] };
      unitRow.set(key, row);
      row.groups.add(bundles[visit].group);
      row.columns.push(column);
    }
  });
  for (const { groups, columns } of unitRow.values())
    if (groups.size > 1) {
      const row = addRow(-Infinity, 1);
      for (const column of columns) enter(row, column, 1);
    }
  const start: number[] = choices.map(({ taken }) => (taken ? 1 : 0));
  const most = choices.map(() => 1);
  const first = rooms.map((room) => {
    const { lanes, cells, takes, lengths, patterns: ways } = room;
    const rests = takes.filter(({ choice }) => choices[choice].rest);
    if (rests.length > lanes.length) {
      const row = addRow(-Infinity, lanes.length);
      for (const take of rests) enter(row, take.choice, 1);
    }
    const column = start.length;
    if (ways === null) {
      if (takes.reduce((sum, take) => sum + take.cells, 0) <= cells) return column;
      const row = addRow(-Infinity, cells * lanes.length);
      for (const take of takes) enter(row, take.choice, take.cells);
      if (!byWorth) return column;
      const { mostCents, takeCents } = roomWorth(room, choices, (visit) => bundles[visit].group);
      const worth = addRow(-Infinity, (lanes.length * mostCents) / worthUnit);
      takes.forEach(({ choice }, at) => {
        if (takeCents[at] > 0) enter(worth, choice, takeCents[at] / worthUnit);
      });
      return column;
    }
    const filled = addRow(-Infinity, lanes.length);
    ways.forEach((_, way) => enter(filled, column + way, 1));
    lengths.forEach((length, at) => {
      const row = addRow(-Infinity, 0);
      for (const take of takes) if (take.cells >= length) enter(row, take.choice, 1);
      ways.forEach((slots, way) => {
        const count = slots.slice(0, at + 1).reduce((sum, own) => sum + own, 0);
        if (count > 0) enter(row, column + way, -count);
      });
    });
    const inHand = ways.map(() => 0);
    for (const lane of lanes) {
      const way = patternInHand(room, choices, lane);
      if (way >= 0) inHand[way] += 1;
    }
    start.push(...inHand);
    most.push(...ways.map(() => lanes.length));
    return column;
  });
  const starts = [0];
  for (const { columns } of rows) starts.push(starts[starts.length - 1] + columns.length);
  const numCols = start.length;
  const numRows = rows.length;
  const result = solveMilp(
    solver,
    {
      numCols,
      numRows,
      colCost: Float64Array.from(start, (_, i) => (i < choices.length ? choices[i].cents : 0)),
      colLower: new Float64Array(numCols),
      colUpper: Float64Array.from(most),
      rowLower: Float64Array.from(rows, ({ lower }) => lower),
      rowUpper: Float64Array.from(rows, ({ upper }) => upper),
      matrix: {
        format: 'csr',
        numRows,
        numCols,
        starts: Int32Array.from(starts),
        indices: Int32Array.from(rows.flatMap(({ columns }) => columns)),
        values: Float64Array.from(rows.flatMap(({ values }) => values)),
      },
      integrality: new Int32Array(numCols).fill(1),
    },
    0,
    Infinity,
    Float64Array.from(start),
    { nodes, steps: budget.steps, absoluteGap: gapCents, ...(hope === undefined ? {} : { hope }) },
  );
  // a programme costs something before its first step
  budget.steps -= result.steps + numCols;
  const { values } = result;
  const waysOf = (room: WindowRoom, at: number) =>
    (room.patterns ?? []).flatMap((slots, way) =>
      Array.from({ length: Math.round(values?.[first[at] + way] ?? 0) }, () => slots),
    );
  return {
    picked:
      values === null
        ? null
        : shareLanes(
            choices,
            rooms.map((room, at) => ({ room, ways: waysOf(room, at) })),
            (choice) => (values[choice] ?? 0) > 0.5,
          ),
    boundCents: result.bound - roundingCents,
  };
}
