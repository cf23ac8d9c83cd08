import type { CapacityChain } from './capacityChain.ts';
import { impossibleCents, type SiteProblem } from './siteProblem.ts';

/** The possible visits of each day that are still in play, by skill stage and then by bundle. */
export interface DayItems {
  readonly start: Int32Array;
  /** end of each day's items; falls as items are struck out */
  readonly end: Int32Array;
  readonly bundle: Int32Array;
  /** position in costs */
  readonly at: Int32Array;
}

/** Lists, by day, every visit that may take place on it. */
export function dayItems(problem: SiteProblem, chain: CapacityChain): DayItems {
  const { bundleStart, bundleFirstDay, bundleType, costs } = problem;
  const dayCount = problem.days.length;
  const may = (b: number, i: number, day: number) =>
    costs[i]! < impossibleCents && chain.fits[bundleType[b]! * dayCount + day] === 1;
  const start = new Int32Array(dayCount + 1);
  const eachOf = (visit: (b: number, i: number, day: number) => void) => {
    for (let stage = 0; stage < chain.stages; stage++)
      for (let b = 0; b < bundleType.length; b++) {
        if (chain.typeStage[bundleType[b]!] !== stage) continue;
        for (let i = bundleStart[b]!; i < bundleStart[b + 1]!; i++) {
          const day = i - bundleStart[b]! + bundleFirstDay[b]!;
          if (may(b, i, day)) visit(b, i, day);
        }
      }
  };
  eachOf((_b, _i, day) => (start[day + 1] = start[day + 1]! + 1));
  for (let day = 0; day < dayCount; day++) start[day + 1] = start[day + 1]! + start[day]!;
  const end = start.slice(0, dayCount);
  const bundle = new Int32Array(start[dayCount]!);
  const at = new Int32Array(start[dayCount]!);
  eachOf((b, i, day) => {
    const place = end[day]!;
    bundle[place] = b;
    at[place] = i;
    end[day] = place + 1;
  });
  return { start, end, bundle, at };
}

/** Work space and result of filling one day. */
export interface DayFill {
  /** most gain for each number of cells, cents, at the last stage */
  readonly gain: Float64Array;
  /** items taken, positions in the day items */
  readonly taken: number[];
  gainCents: number;
  /** true: everything with a gain fits at once, so `gain` was not worked out */
  simple: boolean;
  /** cells of everything with a gain */
  wantedCells: number;
  /** steps of work done since it was made */
  workCells: number;
  /** item of each row and cell, and room for the list of items with a gain */
  pick: Int32Array;
  readonly wanted: number[];
  readonly rowEnd: number[];
  readonly stageEnd: number[];
}

export function dayFill(problem: SiteProblem, chain: CapacityChain): DayFill {
  let most = 0;
  for (const cells of chain.cells) most = Math.max(most, cells);
  return {
    gain: new Float64Array(most + 1),
    taken: [],
    gainCents: 0,
    simple: true,
    wantedCells: 0,
    workCells: 0,
    pick: new Int32Array(64 * (most + 1)),
    wanted: [],
    rowEnd: [],
    stageEnd: [],
  };
}

/**
 * Most worth that a day can hold: visits with worth above cost are chosen under the room of each skill stage, no more than
 * one visit of a group (0-1 knapsack with classes, by dynamic programming over cells and stages).
 * @param worth worth of having each bundle done, cents
 */
export function fillDay(
  problem: SiteProblem,
  chain: CapacityChain,
  items: DayItems,
  day: number,
  worth: Float64Array,
  fill: DayFill,
): void {
  const { bundleType, typeCells, bundleGroup, costs } = problem;
  const { stages, typeStage, cells } = chain;
  const { wanted, rowEnd, stageEnd, gain, taken } = fill;
  const room = day * stages;
  wanted.length = 0;
  rowEnd.length = 0;
  stageEnd.length = 0;
  taken.length = 0;
  fill.simple = true;
  let total = 0;
  let all = 0;
  let lastGroup = -1;
  for (let i = items.start[day]!; i < items.end[day]!; i++) {
    const b = items.bundle[i]!;
    const surplus = worth[b]! - costs[items.at[i]!]!;
    if (surplus <= 0) continue;
    const stage = typeStage[bundleType[b]!]!;
    while (stageEnd.length < stage) {
      if (total > cells[room + stageEnd.length]!) fill.simple = false;
      stageEnd.push(rowEnd.length);
      lastGroup = -1;
    }
    wanted.push(i);
    if (bundleGroup[b] === lastGroup) {
      fill.simple = false;
      rowEnd[rowEnd.length - 1] = wanted.length;
    } else rowEnd.push(wanted.length);
    lastGroup = bundleGroup[b]!;
    total += typeCells[bundleType[b]!]!;
    all += surplus;
  }
  while (stageEnd.length < stages) {
    if (total > cells[room + stageEnd.length]!) fill.simple = false;
    stageEnd.push(rowEnd.length);
  }
  fill.wantedCells = total;
  fill.workCells += items.end[day]! - items.start[day]!;
  if (fill.simple) {
    fill.gainCents = all;
    for (const i of wanted) taken.push(i);
    return;
  }
  const width = gain.length;
  if (fill.pick.length < rowEnd.length * width) fill.pick = new Int32Array(2 * rowEnd.length * width);
  const { pick } = fill;
  const most = cells[room + stages - 1]!;
  gain.fill(0, 0, most + 1);
  let from = 0;
  for (let stage = 0, row = 0; stage < stages; stage++) {
    const here = cells[room + stage]!;
    if (stage > 0) for (let x = cells[room + stage - 1]! + 1; x <= here; x++) gain[x] = gain[x - 1]!;
    for (; row < stageEnd[stage]!; row++) {
      const to = rowEnd[row]!;
      fill.workCells += (to - from) * here;
      for (let x = here; x >= 0; x--) {
        let best = gain[x]!;
        let choice = -1;
        for (let w = from; w < to; w++) {
          const i = wanted[w]!;
          const b = items.bundle[i]!;
          const length = typeCells[bundleType[b]!]!;
          if (length > x) continue;
          const value = gain[x - length]! + worth[b]! - costs[items.at[i]!]!;
          if (value > best) {
            best = value;
            choice = i;
          }
        }
        gain[x] = best;
        pick[row * width + x] = choice;
      }
      from = to;
    }
  }
  fill.gainCents = gain[most]!;
  let x = most;
  for (let stage = stages - 1, row = rowEnd.length - 1; stage >= 0; stage--) {
    x = Math.min(x, cells[room + stage]!);
    for (; row >= (stage === 0 ? 0 : stageEnd[stage - 1]!); row--) {
      const i = pick[row * width + x]!;
      if (i < 0) continue;
      taken.push(i);
      x -= typeCells[bundleType[items.bundle[i]!]!]!;
    }
  }
}
