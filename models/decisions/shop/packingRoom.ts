import type { SiteProblem } from './siteProblem.ts';
import type { VisitPairs } from './visitPairs.ts';

/** What is settled already, and what is left open to the packing. */
export interface PackingRoom {
  /** cells left by lane */
  readonly laneCells: Int32Array;
  /** 1 = the visit is not to be had */
  readonly closed: Uint8Array;
  /** 1 = the visit can't begin on that day, by pair */
  readonly banned: Uint8Array;
}

/** All room open. */
export function wholeRoom({ table, bundles }: SiteProblem, pairs: VisitPairs): PackingRoom {
  return {
    laneCells: Int32Array.from(table.laneCells),
    closed: new Uint8Array(bundles.length),
    banned: new Uint8Array(pairs.day.length),
  };
}
