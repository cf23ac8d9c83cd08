import type { SiteProblem } from './siteProblem.ts';

/** Each visit with each day on which it may begin, cheapest first; flat arrays for speed. */
export interface VisitPairs {
  /** pairs of visit b: start[b] … start[b + 1] − 1 */
  readonly start: Int32Array;
  readonly day: Int32Array;
  /** cost without the price of moves, cents */
  readonly cents: Float64Array;
  /** class of a visit within a day, or −1 − kind of one that stays overnight */
  readonly classOf: Int32Array;
  /** visits of a class ask for the same cells and skills */
  readonly classes: readonly { readonly cells: number; readonly need: number }[];
  readonly longKinds: readonly {
    readonly fullDays: number;
    readonly lastCells: number;
    readonly need: number;
  }[];
}

/** Lays out the visits of a site by day, cost and class. */
export function visitPairs({ bundles, table }: SiteProblem): VisitPairs {
  const start = [0];
  const day: number[] = [];
  const cents: number[] = [];
  const classOf = new Int32Array(bundles.length);
  const classes: { cells: number; need: number }[] = [];
  const longKinds: { fullDays: number; lastCells: number; need: number }[] = [];
  const numbers = new Map<string, number>();
  bundles.forEach(({ costs, searchCosts, order, firstDay, length, type }, b) => {
    const byCost = searchCosts === costs ? order : cheapestFirst(costs, firstDay);
    for (const d of byCost) {
      day.push(d);
      cents.push(costs[d - firstDay]);
    }
    start.push(day.length);
    const { fullDays, lastCells } = length;
    const need = table.typeSkills[type];
    const key = `${fullDays}|${lastCells}|${need}`;
    let known = numbers.get(key);
    if (known === undefined) {
      known =
        fullDays > 0
          ? -longKinds.push({ fullDays, lastCells, need })
          : classes.push({ cells: lastCells, need }) - 1;
      numbers.set(key, known);
    }
    classOf[b] = known;
  });
  return {
    start: Int32Array.from(start),
    day: Int32Array.from(day),
    cents: Float64Array.from(cents),
    classOf,
    classes,
    longKinds,
  };
}

function cheapestFirst(costs: Float64Array, firstDay: number): number[] {
  return [...costs.keys()]
    .filter((i) => costs[i] < Infinity)
    .sort((a, b) => costs[a] - costs[b] || a - b)
    .map((i) => i + firstDay);
}
