/** How a lane may be filled: slots by length, in the order of the lengths asked for. A slot takes any visit no longer than it. */
export type LanePattern = readonly number[];

/**
 * All ways to fill a lane to which nothing can be added: slots for visits of given lengths.
 * @param lengths cells, longest first, each once
 * @param cells of the lane
 * @param most visits that are at least as long as each length; more slots are not needed
 * @param limit patterns beyond which the list is given up
 * @returns the patterns, or null when there are more than the limit
 * Source: patterns of the cutting-stock problem, Gilmore and Gomory, Operations Research 9 (1961), value from memory.
 * Example: lengths 5, 4, 3 in 8 cells, enough of each: 5+3, 4+4 (3+3 gives way to 4+4).
 */
export function lanePatterns(
  lengths: readonly number[],
  cells: number,
  most: readonly number[],
  limit: number,
): readonly LanePattern[] | null {
  const found: LanePattern[] = [];
  const slots = lengths.map(() => 0);
  const last = lengths.length - 1;
  const fill = (at: number, left: number, taken: number): boolean => {
    if (at > last) {
      if (isFull(slots, lengths, left, most)) found.push([...slots]);
      return found.length <= limit;
    }
    const fits = Math.max(0, Math.min(Math.floor(left / lengths[at]), most[at] - taken));
    // of the shortest as many as fit, else one could be added
    for (let count = fits; count >= (at === last ? fits : 0); count--) {
      slots[at] = count;
      if (!fill(at + 1, left - count * lengths[at], taken + count)) return false;
    }
    slots[at] = 0;
    return true;
  };
  return fill(0, cells, 0) ? found : null;
}

/** Whether no slot can be lengthened to the next length. */
function isFull(
  slots: readonly number[],
  lengths: readonly number[],
  left: number,
  most: readonly number[],
): boolean {
  let longer = 0;
  for (let at = 1; at < lengths.length; at++) {
    longer += slots[at - 1];
    if (slots[at] > 0 && lengths[at - 1] - lengths[at] <= left && longer < most[at - 1]) return false;
  }
  return true;
}
