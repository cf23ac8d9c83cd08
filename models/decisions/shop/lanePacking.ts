import type { PackingRoom } from './packingRoom.ts';
import type { SiteProblem } from './siteProblem.ts';
import { mostBeside, visitLists } from './visitLists.ts';
import type { VisitPairs } from './visitPairs.ts';

/** A packing of the lanes. */
export interface LanePacking {
  /** what the visits in the lanes are worth above their cost, cents */
  worth: number;
  /** visits taken and the lane in which each begins; `count` of them */
  count: number;
  readonly visits: Int32Array;
  readonly lanes: Int32Array;
}

/** Packs all lanes anew for given worths of the visits. */
export type LanePacker = (visitCents: Float64Array, room: PackingRoom, apart: boolean) => LanePacking;

/**
 * Fills each lane with the visits that are worth most above their cost on that day: a knapsack whose items are the groups,
 * at most one visit of each; a visit that stays overnight takes whole days of its lane, found along the lane's days from
 * the last. Each lane is packed for itself, so the same visit may lie in several: never less worth than a plan's visits.
 * Of equal visits only as many are looked at as a lane could hold, which loses nothing.
 * With `apart` no lane takes what another of the same day has: nearer to a plan, but no bound.
 * @returns a packer that takes the worth of each visit, cents; its result is written over by the next call
 * Source: knapsack by dynamic programming, Martello and Toth, Knapsack Problems (1990), value from memory.
 */
export function lanePacker(problem: SiteProblem, pairs: VisitPairs): LanePacker {
  const { table, bundles, splits } = problem;
  const { laneStart, laneDay, laneSkills, laneWhole, laneNext, openCells } = table;
  const { classes, longKinds } = pairs;
  const dayCount = table.days.length;
  const laneCount = table.lanes.length;
  const classCount = classes.length;
  const least = classes.reduce((cells, entry) => Math.min(cells, entry.cells), openCells + 1);
  const lists = visitLists(problem, pairs, least);
  const { width, listed, listWorth, listVisit, longWorth, longVisit } = lists;
  const byCells = classes.map((_, c) => c).sort((a, b) => classes[a].cells - classes[b].cells || a - b);
  const groupOf = Int32Array.from(bundles, ({ group }) => group);
  const alone = Uint8Array.from(groupOf, (g) =>
    splits.bundleStart[g + 1] - splits.bundleStart[g] === 1 ? 1 : 0,
  );
  const cellsOf = Int32Array.from(bundles, ({ length }) => length.lastCells);
  const groupLeast = new Int32Array(splits.bundleStart.length).fill(openCells + 1);
  for (let b = 0; b < bundles.length; b++)
    groupLeast[groupOf[b]] = Math.min(groupLeast[groupOf[b]], cellsOf[b]);
  const fill = new Float64Array(laneCount * (openCells + 1));
  const choice: Int32Array[] = Array.from({ length: laneCount }, () => new Int32Array(0));
  const rows = new Int32Array(laneCount);
  // lane whose knapsack holds for this one too
  const packed = new Int32Array(laneCount);
  const chain = new Float64Array(laneCount);
  const longTaken = new Int32Array(laneCount);
  const continued = new Uint8Array(laneCount);
  for (let l = 0; l < laneCount; l++) if (laneWhole[l] === 1 && laneNext[l] >= 0) continued[laneNext[l]] = 1;
  const candidate = new Int32Array(classCount * width + 1);
  const candidateWorth = new Float64Array(classCount * width + 1);
  const groupMark = new Int32Array(splits.bundleStart.length).fill(-1);
  let mark = 0;
  const result: LanePacking = {
    worth: 0,
    count: 0,
    visits: new Int32Array(laneCount * (openCells + 1)),
    lanes: new Int32Array(laneCount * (openCells + 1)),
  };

  /**
   * Least cells that are taken when this visit and every group with a visit no longer and worth no less are in the lane;
   * beyond the lane's cells one of them would be free to stand in for it. Counted until more does not matter.
   */
  const crowd = (b: number, worth: number, most: number, front: number, back: number): number => {
    let taken = cellsOf[b];
    for (let k = back; k < candidate.length && taken <= most; k++)
      if (candidateWorth[k] >= worth) taken += cellsOf[candidate[k]];
    for (let k = 0, last = groupOf[b]; k < front && taken <= most; k++) {
      const group = groupOf[candidate[k]];
      if (candidateWorth[k] < worth || group === last || group === groupOf[b]) continue;
      taken += groupLeast[group];
      last = group;
    }
    return taken;
  };

  /** Visits that the lane may take: from the back those that are alone in their group, in front the others by group. */
  const gather = (lane: number, cells: number, apart: boolean): readonly [number, number] => {
    let front = 0;
    let back = candidate.length;
    for (const c of byCells) {
      const { cells: own, need } = classes[c];
      if (own > cells) break;
      if ((laneSkills[lane] & need) !== need) continue;
      const list = laneDay[lane] * classCount + c;
      for (let k = 0, left = mostBeside(own, cells, least); k < listed[list] && left > 0; k++) {
        const b = listVisit[list * width + k];
        const worth = listWorth[list * width + k];
        if (apart && groupMark[groupOf[b]] === mark) continue;
        const taken = crowd(b, worth, cells + own, front, back);
        // the next of the list has the same crowd but for its own group
        if (taken > cells + own) break;
        if (taken > cells) continue;
        left -= 1;
        let at = front;
        if (alone[b] === 1) at = --back;
        else
          for (front += 1; at > 0 && groupOf[candidate[at - 1]] > groupOf[b]; at--) {
            candidate[at] = candidate[at - 1];
            candidateWorth[at] = candidateWorth[at - 1];
          }
        candidate[at] = b;
        candidateWorth[at] = worth;
      }
    }
    return [front, back];
  };

  /** Knapsack of one lane for every number of cells. */
  const packLane = (lane: number, cells: number, apart: boolean): void => {
    const [front, back] = gather(lane, cells, apart);
    const n = front + candidate.length - back;
    candidate.copyWithin(front, back);
    candidateWorth.copyWithin(front, back);
    const base = lane * (openCells + 1);
    fill.fill(0, base, base + cells + 1);
    if (choice[lane].length < n * (cells + 1)) choice[lane] = new Int32Array(2 * n * (cells + 1));
    const taken = choice[lane];
    let row = 0;
    for (let i = 0, end = 0; i < n; i = end, row++) {
      end = i + 1;
      while (end < n && groupOf[candidate[end]] === groupOf[candidate[i]]) end += 1;
      const at = row * (cells + 1);
      for (let x = cells; x >= 0; x--) {
        let best = fill[base + x];
        let visit = -1;
        for (let k = i; k < end; k++) {
          const own = cellsOf[candidate[k]];
          if (own > x) continue;
          const worth = fill[base + x - own] + candidateWorth[k];
          if (worth > best) {
            best = worth;
            visit = candidate[k];
          }
        }
        fill[base + x] = best;
        taken[at + x] = visit;
      }
    }
    rows[lane] = row;
  };

  /** The lane after it where that is of the same day, as long, and open to the same of the day's visits; else the lane. */
  const twinOf = (lane: number, laneCells: Int32Array): number => {
    const next = lane + 1;
    if (next === laneStart[laneDay[lane] + 1] || laneCells[next] !== laneCells[lane]) return lane;
    const differ = laneSkills[next] ^ laneSkills[lane];
    if (differ !== 0)
      for (let c = 0; c < classCount; c++)
        if ((classes[c].need & differ) !== 0 && listed[laneDay[lane] * classCount + c] > 0) return lane;
    return packed[next];
  };

  /** Walks back through a lane's knapsack. */
  const each = (lane: number, cells: number, left: number, take: (b: number) => void): void => {
    const from = packed[lane];
    for (let row = rows[from] - 1, x = left; row >= 0; row--) {
      const b = choice[from][row * (cells + 1) + x];
      if (b < 0) continue;
      x -= cellsOf[b];
      take(b);
    }
  };
  const markGroup = (b: number) => {
    groupMark[groupOf[b]] = mark;
  };

  /** Best worth from a lane on along its days, whether a visit that stays overnight begins in it or not. */
  const chainLane = (lane: number, { laneCells }: PackingRoom): void => {
    const base = packed[lane] * (openCells + 1);
    const next = laneWhole[lane] === 1 ? laneNext[lane] : -1;
    const empty = (l: number) => laneWhole[l] === 1 && laneCells[l] === table.laneCells[l];
    chain[lane] = fill[base + laneCells[lane]] + (next >= 0 ? chain[next] : 0);
    longTaken[lane] = -1;
    if (!empty(lane)) return;
    for (let kind = 0; kind < longKinds.length; kind++) {
      const { fullDays, lastCells, need } = longKinds[kind];
      const worth = longWorth[kind * dayCount + laneDay[lane]];
      if (worth <= 0 || (laneSkills[lane] & need) !== need) continue;
      let at = lane;
      for (let k = 0; k < fullDays && at >= 0; k++) at = empty(at) ? laneNext[at] : -1;
      if (at < 0 || laneCells[at] < lastCells) continue;
      const after = laneWhole[at] === 1 ? laneNext[at] : -1;
      const whole =
        worth +
        fill[packed[at] * (openCells + 1) + laneCells[at] - lastCells] +
        (after >= 0 ? chain[after] : 0);
      if (whole <= chain[lane]) continue;
      chain[lane] = whole;
      longTaken[lane] = kind;
    }
  };

  const take = (b: number, lane: number) => {
    result.visits[result.count] = b;
    result.lanes[result.count++] = lane;
  };

  return (visitCents, room, apart) => {
    const { laneCells } = room;
    lists.fill(visitCents, room);
    for (let lane = laneCount - 1; lane >= 0; lane--) {
      if (lane === laneStart[laneDay[lane] + 1] - 1) mark += 1;
      packed[lane] = apart ? lane : twinOf(lane, laneCells);
      if (packed[lane] === lane) packLane(lane, laneCells[lane], apart);
      if (apart) each(lane, laneCells[lane], laneCells[lane], markGroup);
      chainLane(lane, room);
    }
    result.worth = 0;
    result.count = 0;
    for (let first = 0; first < laneCount; first++) {
      if (continued[first] === 1) continue;
      result.worth += chain[first];
      for (let lane = first, carried = 0; lane >= 0;) {
        const kind = carried === 0 ? longTaken[lane] : -1;
        if (kind >= 0) {
          take(longVisit[kind * dayCount + laneDay[lane]], lane);
          for (let k = 0; k < longKinds[kind].fullDays; k++) lane = laneNext[lane];
          carried = longKinds[kind].lastCells;
          continue;
        }
        const here = lane;
        each(here, laneCells[here], laneCells[here] - carried, (b) => take(b, here));
        carried = 0;
        lane = laneWhole[here] === 1 ? laneNext[here] : -1;
      }
    }
    return result;
  };
}
