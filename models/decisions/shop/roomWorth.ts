import type { WindowChoice } from './windowChoice.ts';
import type { WindowRoom } from './windowRooms.ts';

/** What choices bring to a lane of a room above their cost, and the most that one lane can hold. */
export interface RoomWorth {
  readonly mostCents: number;
  /** by take of the room, cents, 0 or more */
  readonly takeCents: Float64Array;
}

/**
 * The most that a lane of a room can hold by worth: a knapsack of groups, at most one choice of each. A visit that stays
 * overnight brings what its room is worth to the others, so that with it, too, no lane brings more than the most; a lane
 * has at most one such visit. A programme that counts a room in cells is as strong as its packed lanes with this as a row.
 * @param groupOf group of a visit
 * Source: knapsack by dynamic programming, Martello and Toth, Knapsack Problems (1990), value from memory.
 * Example: 8 cells; visits of 5, 5 and 3 cells worth 9, 8 and 4: no lane holds more than 13.
 */
export function roomWorth(
  { cells, takes }: WindowRoom,
  choices: readonly WindowChoice[],
  groupOf: (visit: number) => number,
): RoomWorth {
  const isLong = takes.map(({ choice }) => choices[choice].takes.length > 1 || choices[choice].rest === true);
  const groups = new Map<number, number[]>();
  takes.forEach(({ choice, cells: own }, at) => {
    const { visit, worthCents } = choices[choice];
    if (isLong[at] || worthCents <= 0 || own > cells) return;
    const same = groups.get(groupOf(visit));
    if (same === undefined) groups.set(groupOf(visit), [at]);
    else same.push(at);
  });
  const most = new Float64Array(cells + 1);
  for (const same of groups.values())
    for (let x = cells; x >= 0; x--)
      for (const at of same) {
        const { choice, cells: own } = takes[at];
        if (own <= x) most[x] = Math.max(most[x], most[x - own] + choices[choice].worthCents);
      }
  const takeCents = Float64Array.from(takes, ({ choice, cells: own }, at) =>
    isLong[at] ? most[cells] - most[Math.max(0, cells - own)] : Math.max(0, choices[choice].worthCents),
  );
  return { mostCents: most[cells], takeCents };
}
