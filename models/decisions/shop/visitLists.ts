import type { PackingRoom } from './packingRoom.ts';
import type { SiteProblem } from './siteProblem.ts';
import type { VisitPairs } from './visitPairs.ts';

/** Visits of each day and class that are worth most above their cost, best first; of long ones the best of each day. */
export interface VisitLists {
  /** visits of class c on day d: list d·classes + c, at [list·width …], `listed[list]` of them */
  readonly width: number;
  readonly listed: Int32Array;
  readonly listWorth: Float64Array;
  readonly listVisit: Int32Array;
  /** at [kind·days + d] */
  readonly longWorth: Float64Array;
  readonly longVisit: Int32Array;
  readonly fill: (visitCents: Float64Array, room: PackingRoom) => void;
}

/** Most visits of a length that a lane can need to choose from: one more than can lie beside one of them. */
export function mostBeside(cells: number, room: number, leastCells: number): number {
  return Math.max(0, Math.floor((room - cells) / leastCells) + 1);
}

/** Empty lists, and what fills them. */
export function visitLists(
  { table, bundles }: SiteProblem,
  pairs: VisitPairs,
  leastCells: number,
): VisitLists {
  const { laneStart, openCells } = table;
  const { classes, longKinds, classOf } = pairs;
  const dayCount = table.days.length;
  const classCount = classes.length;
  let mostLanes = 1;
  for (let d = 0; d < dayCount; d++) mostLanes = Math.max(mostLanes, laneStart[d + 1] - laneStart[d]);
  const listLength = classes.map(({ cells }) => mostLanes * mostBeside(cells, openCells, leastCells));
  const width = Math.max(1, ...listLength);
  const listed = new Int32Array(dayCount * classCount);
  const listWorth = new Float64Array(dayCount * classCount * width);
  const listVisit = new Int32Array(dayCount * classCount * width);
  const longWorth = new Float64Array(longKinds.length * dayCount);
  const longVisit = new Int32Array(longKinds.length * dayCount);

  const enter = (list: number, most: number, b: number, worth: number): void => {
    const base = list * width;
    let n = listed[list];
    if (n < most) listed[list] = n + 1;
    else if (n === 0 || listWorth[base + n - 1] >= worth) return;
    else n -= 1;
    for (; n > 0 && listWorth[base + n - 1] < worth; n--) {
      listWorth[base + n] = listWorth[base + n - 1];
      listVisit[base + n] = listVisit[base + n - 1];
    }
    listWorth[base + n] = worth;
    listVisit[base + n] = b;
  };

  const fill: VisitLists['fill'] = (visitCents, { closed, banned }) => {
    listed.fill(0);
    longWorth.fill(0);
    for (let b = 0; b < bundles.length; b++) {
      if (closed[b] === 1) continue;
      const c = classOf[b];
      for (let i = pairs.start[b]; i < pairs.start[b + 1]; i++) {
        const worth = visitCents[b] - pairs.cents[i];
        if (worth <= 1e-9) break;
        if (banned[i] === 1) continue;
        if (c >= 0) {
          enter(pairs.day[i] * classCount + c, listLength[c], b, worth);
          continue;
        }
        const at = (-1 - c) * dayCount + pairs.day[i];
        if (worth <= longWorth[at]) continue;
        longWorth[at] = worth;
        longVisit[at] = b;
      }
    }
  };
  return { width, listed, listWorth, listVisit, longWorth, longVisit, fill };
}
