import type { LanePattern } from './lanePatterns.ts';
import type { WindowChoice } from './windowChoice.ts';
import type { WindowRoom } from './windowRooms.ts';

/** A room and the patterns by which its lanes are filled. */
export interface FilledRoom {
  readonly room: WindowRoom;
  readonly ways: readonly LanePattern[];
}

/** Number of the pattern that holds what the plan in hand has in a lane; −1 = none does. */
export function patternInHand(
  { takes, lengths, patterns }: WindowRoom,
  choices: readonly WindowChoice[],
  lane: number,
): number {
  const least = lengths.map(() => 0);
  let any = false;
  for (const { choice, cells } of takes) {
    const { taken, takes: own } = choices[choice];
    if (!taken || !own.some((take) => take.lane === lane)) continue;
    any = true;
    for (let at = lengths.indexOf(cells); at < least.length; at++) least[at] += 1;
  }
  if (!any || patterns === null) return -1;
  return patterns.findIndex((slots) => {
    let sum = 0;
    return slots.every((count, at) => (sum += count) >= least[at]);
  });
}

/**
 * Gives the picked choices their lanes: first those that stay overnight keep theirs, then the longest get a slot first.
 * @param rooms with the patterns picked for their lanes
 * @param isPicked by the choice's position
 * @returns the picked choices, each with the lane where it begins, or null where the lanes of a room do not suffice
 */
export function shareLanes(
  choices: readonly WindowChoice[],
  rooms: readonly FilledRoom[],
  isPicked: (choice: number) => boolean,
): readonly WindowChoice[] | null {
  const laneOf = new Map<number, number>();
  for (const { room, ways } of rooms) {
    const picked = room.takes.filter(({ choice }) => isPicked(choice));
    const bound = picked.filter(({ choice }) => choices[choice].takes.length > 1);
    const own = picked.filter(({ choice }) => choices[choice].takes.length === 1);
    if (!shareRoom(room, ways, choices, bound, own, laneOf)) return null;
  }
  return choices.flatMap((choice, at) => {
    if (!isPicked(at)) return [];
    const lane = laneOf.get(at);
    if (lane === undefined) return [choice];
    return [{ ...choice, lane, takes: choice.takes.map(({ cells }) => ({ lane, cells })) }];
  });
}

function shareRoom(
  { lanes, cells, lengths, patterns }: WindowRoom,
  ways: readonly LanePattern[],
  choices: readonly WindowChoice[],
  bound: WindowRoom['takes'],
  own: WindowRoom['takes'],
  laneOf: Map<number, number>,
): boolean {
  if (patterns === null) return shareCells(lanes, cells, choices, bound, own, laneOf);
  const slots = ways.map((way) =>
    way.flatMap((count, at) => Array.from({ length: count }, () => lengths[at])),
  );
  const lane: (number | null)[] = ways.map(() => null);
  const free = new Set(lanes);
  for (const take of bound) {
    const at = choices[take.choice].takes.find((one) => free.has(one.lane) && one.cells === take.cells)?.lane;
    if (at === undefined || !free.delete(at)) return false;
    const way = bestFit(slots, lane, take.cells);
    if (way < 0) return false;
    lane[way] = at;
    slots[way].splice(slotOf(slots[way], take.cells), 1);
  }
  const left = [...free];
  lane.forEach((at, way) => (lane[way] = at ?? left.shift() ?? null));
  const open = slots
    .flatMap((lengthsOf, way) => lengthsOf.map((length) => ({ length, lane: lane[way] })))
    .sort((a, b) => b.length - a.length);
  const longest = [...own].sort((a, b) => b.cells - a.cells);
  return longest.every(({ choice, cells: need }, at) => {
    const slot = open[at] as { length: number; lane: number | null } | undefined;
    if (slot === undefined || slot.lane === null || slot.length < need) return false;
    laneOf.set(choice, slot.lane);
    return true;
  });
}

/** Pattern without a lane that has the shortest slot that will do. */
function bestFit(
  slots: readonly (readonly number[])[],
  lane: readonly (number | null)[],
  cells: number,
): number {
  let best = -1;
  let least = Infinity;
  slots.forEach((own, way) => {
    const slot = own[slotOf(own, cells)] as number | undefined;
    if (lane[way] !== null || slot === undefined || slot >= least) return;
    least = slot;
    best = way;
  });
  return best;
}

/** Position of the shortest slot that will do; −1 = none. */
function slotOf(slots: readonly number[], cells: number): number {
  let best = -1;
  slots.forEach((slot, at) => {
    if (slot >= cells && (best < 0 || slot < slots[best])) best = at;
  });
  return best;
}

/** Without patterns: the longest first into the fullest lane that still takes it. */
function shareCells(
  lanes: readonly number[],
  cells: number,
  choices: readonly WindowChoice[],
  bound: WindowRoom['takes'],
  own: WindowRoom['takes'],
  laneOf: Map<number, number>,
): boolean {
  const left = new Map(lanes.map((lane) => [lane, cells]));
  for (const take of bound) {
    const lane = choices[take.choice].takes.find(
      (one) => left.has(one.lane) && one.cells === take.cells,
    )?.lane;
    if (lane === undefined) return false;
    left.set(lane, (left.get(lane) ?? 0) - take.cells);
  }
  for (const { choice, cells: need } of [...own].sort((a, b) => b.cells - a.cells)) {
    let best = -1;
    for (const [lane, room] of left)
      if (room >= need && (best < 0 || room < (left.get(best) ?? 0))) best = lane;
    if (best < 0) return false;
    left.set(best, (left.get(best) ?? 0) - need);
    laneOf.set(choice, best);
  }
  return [...left.values()].every((room) => room >= 0);
}
