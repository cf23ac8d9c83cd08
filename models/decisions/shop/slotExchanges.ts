import type { SlotAssignment } from './slotAssignment.ts';
import type { SlotRules } from './windowRules.ts';

/** Slots of two lanes that change places. */
export interface SlotExchange {
  readonly a: number;
  readonly b: number;
  /** slots of a that go to b, and of b that go to a */
  readonly fromA: readonly number[];
  readonly fromB: readonly number[];
  /** the visits can not get cheaper by more than this, cents, above 0 */
  readonly mostGainCents: number;
}

/**
 * For each two lanes the exchange of slots that may gain most, by the prices of slots: for every set of one lane's slots
 * the best set of the other's that fits the cells left in both.
 * @param free cells left by lane
 * @param rules of a lane with more slots than `mostSlots` only the first are looked at; exchanges that can not gain more than
 * `leastGainCents` are left out
 * @returns best first
 */
export function slotExchanges(
  { laneSlots, slotCells, slotPrice, worth, width }: SlotAssignment,
  free: Int32Array,
  { mostSlots, leastGainCents }: SlotRules,
): readonly SlotExchange[] {
  const size = 1 << mostSlots;
  const gainA = new Float64Array(size);
  const gainB = new Float64Array(size);
  const cellsA = new Int32Array(size);
  const cellsB = new Int32Array(size);
  const bestOf = new Int32Array(width);
  /** Gain and cells of every set of a lane's slots if they were in the other lane. */
  const sets = (own: readonly number[], other: number, gain: Float64Array, cells: Int32Array): number => {
    const count = 1 << Math.min(own.length, mostSlots);
    for (let set = 1; set < count; set++) {
      const bit = 31 - Math.clz32(set);
      const rest = set ^ (1 << bit);
      const slot = own[bit];
      cells[set] = cells[rest] + slotCells[slot];
      gain[set] = gain[rest] + slotPrice[slot] - worth[other * width + slotCells[slot]];
    }
    return count;
  };
  const found: SlotExchange[] = [];
  for (let a = 0; a < laneSlots.length; a++)
    for (let b = a + 1; b < laneSlots.length; b++) {
      const countA = sets(laneSlots[a], b, gainA, cellsA);
      const countB = sets(laneSlots[b], a, gainB, cellsB);
      bestOf.fill(-1);
      for (let set = 0; set < countB; set++) {
        const at = cellsB[set];
        if (at < width && (bestOf[at] < 0 || gainB[set] > gainB[bestOf[at]])) bestOf[at] = set;
      }
      let most = leastGainCents;
      let bestA = -1;
      let bestB = -1;
      for (let set = 0; set < countA; set++) {
        const end = Math.min(width - 1, cellsA[set] + free[a]);
        for (let at = Math.max(0, cellsA[set] - free[b]); at <= end; at++) {
          const other = bestOf[at];
          if (other < 0 || gainA[set] + gainB[other] <= most) continue;
          most = gainA[set] + gainB[other];
          bestA = set;
          bestB = other;
        }
      }
      if (bestA < 0) continue;
      const chosen = (own: readonly number[], set: number) =>
        own.filter((_, bit) => bit < mostSlots && (set >> bit) & 1);
      found.push({
        a,
        b,
        fromA: chosen(laneSlots[a], bestA),
        fromB: chosen(laneSlots[b], bestB),
        mostGainCents: most,
      });
    }
  return found.sort((x, y) => y.mostGainCents - x.mostGainCents || x.a - y.a || x.b - y.b);
}
