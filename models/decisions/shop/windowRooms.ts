import { lanePatterns, type LanePattern } from './lanePatterns.ts';
import type { LaneTable } from './laneTable.ts';
import type { WindowChoice } from './windowChoice.ts';

/** Lanes of a day that choices can't tell apart: the same room and skills. */
export interface WindowRoom {
  readonly lanes: readonly number[];
  /** cells of each of them */
  readonly cells: number;
  /** choices that take of it, by their position, and the cells that each takes */
  readonly takes: readonly RoomTake[];
  /** cells that choices take, longest first */
  readonly lengths: readonly number[];
  /** how each lane may be filled; null = only its cells are counted */
  readonly patterns: readonly LanePattern[] | null;
}

export interface RoomTake {
  readonly choice: number;
  readonly cells: number;
}

/** Which patterns are looked at. */
export interface PatternLimits {
  /** patterns whose best visits are worth so much less than the best pattern's are left out, cents */
  readonly mostLossCents: number;
  /** most patterns of a room; where there are more the best are taken */
  readonly mostPatterns: number;
}

/**
 * Rooms of a window: twin lanes are one room, so that nothing is told apart that is the same, and of choices that differ in
 * the lane alone one is kept, the one in hand first.
 * @param roomCells cells of each lane that are free
 * @param limits of the patterns, or null: rooms are only counted in cells
 */
export function windowRooms(
  table: LaneTable,
  all: readonly WindowChoice[],
  roomCells: (lane: number) => number,
  limits: PatternLimits | null,
): { readonly choices: readonly WindowChoice[]; readonly rooms: readonly WindowRoom[] } {
  const { laneDay, laneSkills, laneStart } = table;
  const keyOf = (lane: number) => `${laneDay[lane]}|${roomCells(lane)}|${laneSkills[lane]}`;
  const choices = distinct(all, keyOf);
  const drafts = new Map<string, { lanes: number[]; takes: RoomTake[] }>();
  choices.forEach(({ takes }, choice) => {
    for (const { lane, cells } of takes) {
      const key = keyOf(lane);
      let draft = drafts.get(key);
      if (draft === undefined) {
        const day = laneDay[lane];
        const lanes: number[] = [];
        for (let twin = laneStart[day]; twin < laneStart[day + 1]; twin++)
          if (keyOf(twin) === key) lanes.push(twin);
        drafts.set(key, (draft = { lanes, takes: [] }));
      }
      draft.takes.push({ choice, cells });
    }
  });
  const rooms = [...drafts.values()].map(({ lanes, takes }) => {
    const cells = roomCells(lanes[0]);
    const lengths = [...new Set(takes.map((take) => take.cells))].sort((a, b) => b - a);
    const draft = { lanes, cells, takes, lengths };
    return { ...draft, patterns: limits === null ? null : patternsOf(draft, choices, limits) };
  });
  return { choices, rooms };
}

function distinct(all: readonly WindowChoice[], keyOf: (lane: number) => string): WindowChoice[] {
  const kept = new Map<string, WindowChoice>();
  for (const choice of all) {
    const { visit, lane, takes, owed, rest } = choice;
    // a visit that stays overnight goes on in the same bay
    const where = takes.length === 1 && !rest ? keyOf(lane) : String(lane);
    const key = `${visit}|${owed}|${rest ?? false}|${where}`;
    if (choice.taken || !kept.has(key)) kept.set(key, choice);
  }
  return [...kept.values()];
}

function patternsOf(
  { cells, takes, lengths }: Omit<WindowRoom, 'patterns'>,
  choices: readonly WindowChoice[],
  { mostLossCents, mostPatterns }: PatternLimits,
): readonly LanePattern[] | null {
  if (takes.reduce((sum, take) => sum + take.cells, 0) <= cells) return null;
  const most = lengths.map((length) => takes.reduce((sum, take) => sum + (take.cells >= length ? 1 : 0), 0));
  const all = lanePatterns(lengths, cells, most, 20 * mostPatterns);
  if (all === null) return null;
  const byWorth = takes
    .map(({ choice, cells: own }) => ({
      at: lengths.indexOf(own),
      worth: choices[choice].worthCents,
      whole: choices[choice].takes.length === 1,
    }))
    .filter(({ worth }) => worth > 0)
    .sort((a, b) => b.worth - a.worth);
  // visits that stay overnight count in full for a pattern and not at all for the best: nothing is left out for them
  const within = byWorth.filter(({ whole }) => whole);
  const top = all.reduce((worth, slots) => Math.max(worth, patternWorth(slots, within)), 0);
  const near = all
    .map((slots) => ({ slots, worth: patternWorth(slots, byWorth) }))
    .filter(({ worth }) => top - worth <= mostLossCents);
  return near
    .sort((a, b) => b.worth - a.worth)
    .slice(0, mostPatterns)
    .map(({ slots }) => slots);
}

/** Most worth that the slots can take: dearest visits first, which is best since the slots are nested. */
function patternWorth(
  slots: LanePattern,
  byWorth: readonly { readonly at: number; readonly worth: number }[],
): number {
  const left = new Int32Array(slots.length);
  let sum = 0;
  slots.forEach((count, at) => (left[at] = sum += count));
  let open = sum;
  let worth = 0;
  for (const visit of byWorth) {
    if (open === 0) break;
    let fits = true;
    for (let at = visit.at; at < left.length && fits; at++) fits = left[at] > 0;
    if (!fits) continue;
    for (let at = visit.at; at < left.length; at++) left[at] -= 1;
    open -= 1;
    worth += visit.worth;
  }
  return worth;
}
