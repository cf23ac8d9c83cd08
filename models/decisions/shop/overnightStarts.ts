import type { SiteProblem } from './siteProblem.ts';

/** A visit that stays overnight and may begin in a lane: it takes whole lanes one after another and part of the last. */
export interface OvernightStart {
  readonly visit: number;
  readonly cents: number;
  /** from the first to the last */
  readonly lanes: readonly number[];
  /** cells that it leaves in the last lane */
  readonly leftCells: number;
}

/** The lane that visits can stay overnight into; −1 = none. */
export function laneAfter({ table }: SiteProblem, lane: number): number {
  return table.laneWhole[lane] === 1 ? table.laneNext[lane] : -1;
}

/** Lists, for every lane, the visits that may begin there and stay overnight. */
export function overnightStarts(problem: SiteProblem): readonly (readonly OvernightStart[])[] {
  const { bundles, table } = problem;
  const long = bundles.flatMap(({ length }, b) => (length.fullDays > 0 ? [b] : []));
  return table.lanes.map((_, lane) => {
    if (table.laneWhole[lane] !== 1) return [];
    return long.flatMap((visit) => {
      const { length, costs, firstDay, type } = bundles[visit];
      const day = table.laneDay[lane] - firstDay;
      const cents = day >= 0 && day < costs.length ? costs[day] : Infinity;
      const need = table.typeSkills[type];
      if (cents === Infinity || (table.laneSkills[lane] & need) !== need) return [];
      const lanes = [lane];
      for (let k = 0, at = lane; k < length.fullDays && at >= 0; k++)
        lanes.push((at = laneAfter(problem, at)));
      const last = lanes[lanes.length - 1];
      if (last < 0 || table.laneCells[last] < length.lastCells) return [];
      return [{ visit, cents, lanes, leftCells: table.laneCells[last] - length.lastCells }];
    });
  });
}
