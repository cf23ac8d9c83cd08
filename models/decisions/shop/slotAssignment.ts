/** Visits that may move, and what each costs in each lane. */
export interface SlotVisits {
  readonly count: number;
  /** cells that each takes */
  readonly cells: Int32Array;
  /** lanes from … to before which each visit may lie in some */
  readonly firstLane: Int32Array;
  readonly endLane: Int32Array;
  /** cents of a visit in a lane, at [visit·lanes + lane]; Infinity = it can't be there */
  readonly cents: Float64Array;
}

/**
 * Visits in slots of lanes, one in each, at least cost, with the prices that prove it: a visit's cost in a slot that takes
 * it is never below the sum of both prices, and equal to it in its own.
 */
export interface SlotAssignment {
  /** slot of each visit, visit of each slot; −1 = none */
  readonly slotOf: Int32Array;
  readonly visitOf: Int32Array;
  readonly slotLane: Int32Array;
  readonly slotCells: Int32Array;
  readonly slotPrice: Float64Array;
  readonly laneSlots: number[][];
  /** sum of all prices, cents: what the visits cost, or, while some have no slot, what they cost at least */
  readonly cents: () => number;
  /** highest price that a slot of so many cells in the lane could have, at [lane·width + cells], cents */
  readonly worth: Float64Array;
  readonly width: number;
  /**
   * Gives slots other lanes and finds the visits their best slots anew.
   * @returns whether they cost less than the limit then; else all is as before
   */
  readonly exchange: (slots: readonly number[], lanes: readonly number[], limitCents: number) => boolean;
}

/**
 * Assigns visits to slots, each to one that is at least as long.
 * @param slotLane lane of each slot, which has the length of the visit of the same number
 * @param lanes lanes in all
 * @param width cells of the longest lane and one more
 * @param stands whether an assignment keeps the other rules
 * @returns null when there is none
 * Source: shortest augmenting paths, Jonker and Volgenant, Computing 38 (1987), value from memory.
 */
export function slotAssignment(
  visits: SlotVisits,
  slotLane: Int32Array,
  lanes: number,
  width: number,
  stands: (slotOf: Int32Array, slotLane: Int32Array) => boolean,
): SlotAssignment | null {
  const { count, cells, firstLane, endLane, cents } = visits;
  const slotCells = Int32Array.from(cells);
  const laneSlots: number[][] = Array.from({ length: lanes }, () => []);
  slotLane.forEach((lane, slot) => laneSlots[lane].push(slot));
  const slotOf = new Int32Array(count).fill(-1);
  const visitOf = new Int32Array(count).fill(-1);
  const visitPrice = new Float64Array(count);
  const slotPrice = new Float64Array(count);
  const worth = new Float64Array(lanes * width);
  // no slot of the lane has a higher price
  const laneTop = new Float64Array(lanes);
  const dist = new Float64Array(count);
  const former = new Int32Array(count);
  const isDone = new Uint8Array(count);
  const reached = new Int32Array(count);
  const scanned = new Int32Array(count);
  const kept = {
    slotOf: slotOf.slice(),
    visitOf: visitOf.slice(),
    visit: visitPrice.slice(),
    slot: slotPrice.slice(),
  };

  let total = 0;

  /** Finds a visit a slot along the cheapest path of changes; false = none keeps the whole below the limit. */
  const seat = (visit: number, limitCents: number): boolean => {
    dist.fill(Infinity);
    isDone.fill(0);
    let reach = 0;
    let scan = 0;
    let low = 0;
    const most = limitCents - total;
    for (let i = visit; ; i = visitOf[scanned[scan - 1]]) {
      for (let lane = firstLane[i]; lane < endLane[i]; lane++) {
        if (laneSlots[lane].length === 0) continue;
        const base = low + cents[i * lanes + lane] - visitPrice[i];
        // what is not below the limit leads nowhere
        if (base === Infinity || base - laneTop[lane] >= most) continue;
        for (const slot of laneSlots[lane]) {
          if (isDone[slot] === 1 || slotCells[slot] < cells[i]) continue;
          const to = base - slotPrice[slot];
          if (to >= dist[slot] || to >= most) continue;
          if (dist[slot] === Infinity) reached[reach++] = slot;
          dist[slot] = to;
          former[slot] = i;
        }
      }
      let at = -1;
      low = Infinity;
      for (let k = 0; k < reach; k++) {
        if (dist[reached[k]] >= low) continue;
        low = dist[reached[k]];
        at = k;
      }
      if (at < 0) return false;
      const next = reached[at];
      reached[at] = reached[--reach];
      isDone[next] = 1;
      scanned[scan++] = next;
      if (visitOf[next] < 0) break;
    }
    visitPrice[visit] += low;
    total += low;
    for (let k = 0; k < scan - 1; k++) {
      const slot = scanned[k];
      visitPrice[visitOf[slot]] += low - dist[slot];
      slotPrice[slot] -= low - dist[slot];
    }
    for (let slot = scanned[scan - 1], i = -1; i !== visit;) {
      i = former[slot];
      const old = slotOf[i];
      visitOf[slot] = i;
      slotOf[i] = slot;
      slot = old;
    }
    return true;
  };

  const price = (): void => {
    laneTop.fill(-Infinity);
    for (let slot = 0; slot < count; slot++)
      laneTop[slotLane[slot]] = Math.max(laneTop[slotLane[slot]], slotPrice[slot]);
    worth.fill(Infinity);
    for (let i = 0; i < count; i++)
      for (let lane = firstLane[i]; lane < endLane[i]; lane++) {
        const at = lane * width + cells[i];
        worth[at] = Math.min(worth[at], cents[i * lanes + lane] - visitPrice[i]);
      }
    for (let lane = 0; lane < lanes; lane++)
      for (let at = lane * width + 1; at < (lane + 1) * width; at++)
        worth[at] = Math.min(worth[at], worth[at - 1]);
  };

  const move = (slot: number, lane: number) => {
    const own = laneSlots[slotLane[slot]];
    own.splice(own.indexOf(slot), 1);
    slotLane[slot] = lane;
    laneSlots[lane].push(slot);
  };

  const exchange: SlotAssignment['exchange'] = (slots, to, limitCents) => {
    kept.slotOf.set(slotOf);
    kept.visitOf.set(visitOf);
    kept.visit.set(visitPrice);
    kept.slot.set(slotPrice);
    const from = slots.map((slot) => slotLane[slot]);
    const open = slots.map((slot) => visitOf[slot]);
    const tops = to.map((lane) => laneTop[lane]);
    const before = total;
    slots.forEach((slot, k) => move(slot, to[k]));
    for (const slot of slots) {
      slotOf[visitOf[slot]] = -1;
      visitOf[slot] = -1;
      total -= slotPrice[slot];
      slotPrice[slot] = worth[slotLane[slot] * width + slotCells[slot]];
      total += slotPrice[slot];
      laneTop[slotLane[slot]] = Math.max(laneTop[slotLane[slot]], slotPrice[slot]);
    }
    if (total < limitCents && open.every((visit) => seat(visit, limitCents)) && stands(slotOf, slotLane)) {
      price();
      return true;
    }
    total = before;
    slots.forEach((slot, k) => move(slot, from[k]));
    to.forEach((lane, k) => (laneTop[lane] = tops[k]));
    slotOf.set(kept.slotOf);
    visitOf.set(kept.visitOf);
    visitPrice.set(kept.visit);
    slotPrice.set(kept.slot);
    return false;
  };

  for (let i = 0; i < count; i++) {
    let least = Infinity;
    for (let lane = firstLane[i]; lane < endLane[i]; lane++) least = Math.min(least, cents[i * lanes + lane]);
    visitPrice[i] = least;
    total += least;
  }
  for (let i = 0; i < count; i++) if (visitPrice[i] === Infinity || !seat(i, Infinity)) return null;
  if (!stands(slotOf, slotLane)) return null;
  price();
  return {
    slotOf,
    visitOf,
    slotLane,
    slotCells,
    slotPrice,
    laneSlots,
    cents: () => total,
    worth,
    width,
    exchange,
  };
}
