import type { FormerSlot, SiteProblem } from './siteProblem.ts';
import type { SiteState } from './siteState.ts';

/** Cells after opening at which each visit in a bay begins, by visit number. */
export type StartCells = ReadonlyMap<number, number>;

/**
 * Gives the visits of each lane their times. A visit that runs on from the day before comes first; those of an earlier plan
 * keep their time where it is still free; the others fill the gaps in order of due date.
 */
export function laneLayout(state: SiteState, former: ReadonlyMap<string, FormerSlot>): StartCells {
  const { problem, place } = state;
  const { table, bundles } = problem;
  const byLane = new Map<number, number[]>();
  const carried = new Map<number, number>();
  for (let b = 0; b < bundles.length; b++) {
    if (place[b] < 0) continue;
    let lane = place[b];
    if (bundles[b].length.fullDays > 0) {
      for (let k = 0; k < bundles[b].length.fullDays; k++) lane = table.laneNext[lane];
      carried.set(lane, bundles[b].length.lastCells);
      continue;
    }
    const list = byLane.get(lane);
    if (list === undefined) byLane.set(lane, [b]);
    else list.push(b);
  }
  const starts = new Map<number, number>();
  for (let b = 0; b < bundles.length; b++)
    if (place[b] >= 0 && bundles[b].length.fullDays > 0) starts.set(b, table.lanes[place[b]].startCell);
  for (const [lane, visits] of byLane) layLane(problem, lane, visits, carried.get(lane) ?? 0, former, starts);
  return starts;
}

function layLane(
  { table, bundles, inputs, site }: SiteProblem,
  lane: number,
  visits: readonly number[],
  carried: number,
  former: ReadonlyMap<string, FormerSlot>,
  starts: Map<number, number>,
): void {
  const { startCell, cells } = table.lanes[lane];
  const first = startCell + carried;
  const end = startCell + cells;
  const kept = (b: number): number | null => {
    const slot = former.get(bundles[b].jobs[0].jobId);
    if (slot === undefined || bundles[b].formerLane !== lane) return null;
    return Math.round((slot.startMinute - site.opensAtMinute) / inputs.rules.cellMinutes);
  };
  const due = (b: number) => Math.min(...bundles[b].jobs.map((job) => job.medianDay));
  const inOrder = [...visits].sort((a, b) => (kept(a) ?? 1e6 + due(a)) - (kept(b) ?? 1e6 + due(b)) || a - b);
  const taken: [number, number][] = [];
  const freeAt = (from: number, length: number) =>
    from >= first && from + length <= end && taken.every(([a, b]) => from + length <= a || from >= b);
  let packed = false;
  for (const b of inOrder) {
    const length = bundles[b].length.lastCells;
    const wanted = kept(b);
    let at = wanted !== null && freeAt(wanted, length) ? wanted : -1;
    for (let from = first; at < 0 && from + length <= end; from++) if (freeAt(from, length)) at = from;
    if (at < 0) packed = true;
    else {
      taken.push([at, at + length]);
      starts.set(b, at);
    }
  }
  if (!packed) return;
  // gaps too small for what is left: all close up
  let at = first;
  for (const b of inOrder) {
    starts.set(b, at);
    at += bundles[b].length.lastCells;
  }
}
