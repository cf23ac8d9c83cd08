import type { SiteProblem } from './siteProblem.ts';

/**
 * The day sheet of one site while a plan is made: which visit lies on which day, with whom, in which bay, from which cell.
 * On a day with no more people than bays and nothing locked everyone keeps to one bay, so only hours are counted and clock
 * times follow at the end; on other days cells are kept one by one.
 */
export interface Board {
  readonly problem: SiteProblem;
  /** bundles on each day */
  readonly dayVisits: readonly number[][];
  /** cells each technician still has, at [day·technicians + technician] */
  readonly technicianFree: Int32Array;
  /** cells all technicians together still have, by day */
  readonly dayFree: Int32Array;
  /** 1 = cells are kept one by one */
  readonly timed: Uint8Array;
  /** 1 = taken, at [(day·(bays + technicians) + lane)·openCells + cell]; bays first */
  readonly taken: Uint8Array;
  /** technician, bay and first cell of each bundle's place */
  readonly visitTechnician: Int32Array;
  readonly visitBay: Int32Array;
  readonly visitCell: Int32Array;
  readonly journal: Journal;
}

/** Days as they were before the changes since {@link openJournal}. */
interface Journal {
  readonly days: number[];
  readonly marked: Uint8Array;
  /** for each of `days`: bundle, technician, bay, cell, one after another */
  readonly entries: number[][];
}

export function emptyBoard(problem: SiteProblem): Board {
  const dayCount = problem.days.length;
  const people = problem.technicians.length;
  const bundles = problem.bundleType.length;
  const board: Board = {
    problem,
    dayVisits: Array.from({ length: dayCount }, () => []),
    technicianFree: Int32Array.from(problem.technicianCells),
    dayFree: new Int32Array(dayCount),
    timed: new Uint8Array(dayCount),
    taken: new Uint8Array(dayCount * (problem.bayCount + people) * problem.openCells),
    visitTechnician: new Int32Array(bundles).fill(-1),
    visitBay: new Int32Array(bundles).fill(-1),
    visitCell: new Int32Array(bundles).fill(-1),
    journal: { days: [], marked: new Uint8Array(dayCount), entries: [] },
  };
  for (const hold of problem.held) {
    const length = hold.endCell - hold.firstCell;
    board.timed[hold.dayIndex] = 1;
    markCells(board, hold.dayIndex, hold.bay, hold.technician, hold.firstCell, length, 1);
    const at = hold.dayIndex * people + hold.technician;
    if (hold.technician >= 0) board.technicianFree[at] = Math.max(0, board.technicianFree[at]! - length);
  }
  for (let d = 0; d < dayCount; d++) {
    let present = 0;
    for (let k = 0; k < people; k++) {
      if (problem.technicianCells[d * people + k]! > 0) present++;
      board.dayFree[d] = board.dayFree[d]! + board.technicianFree[d * people + k]!;
    }
    if (present > problem.bayCount) board.timed[d] = 1;
  }
  return board;
}

/** Puts a bundle on a day where there is room, moving the day's other visits about if need be; false = no room. */
export function placeVisit(board: Board, bundle: number, day: number): boolean {
  const type = board.problem.bundleType[bundle]!;
  if (board.dayFree[day]! < board.problem.typeCells[type]!) return false;
  remember(board, day);
  const found = findGap(board, type, day);
  if (!found) return board.dayVisits[day]!.length > 0 && repack(board, bundle, day);
  settle(board, bundle, day, gap.technician, gap.bay, gap.cell);
  board.dayVisits[day]!.push(bundle);
  return true;
}

/** Whether a bundle would find room on a day; the day's visits may be moved about to tell. */
export function hasRoom(board: Board, bundle: number, day: number): boolean {
  const type = board.problem.bundleType[bundle]!;
  if (board.dayFree[day]! < board.problem.typeCells[type]!) return false;
  if (findGap(board, type, day)) return true;
  if (board.dayVisits[day]!.length === 0) return false;
  remember(board, day);
  if (!repack(board, bundle, day)) return false;
  takeOff(board, bundle, day);
  return true;
}

/** Takes a bundle off its day. */
export function takeOff(board: Board, bundle: number, day: number): void {
  remember(board, day);
  const list = board.dayVisits[day]!;
  list[list.indexOf(bundle)] = list[list.length - 1]!;
  list.length--;
  unsettle(board, bundle, day);
}

/** Begins to remember days as they are before they change. */
export function openJournal(board: Board): void {
  const { days, marked } = board.journal;
  for (const day of days) marked[day] = 0;
  days.length = 0;
}

/** Puts back every day that changed since {@link openJournal}. */
export function rollBack(board: Board): void {
  const { days, entries } = board.journal;
  days.forEach((day, i) => {
    const list = board.dayVisits[day]!;
    for (const bundle of list) unsettle(board, bundle, day);
    list.length = 0;
    const kept = entries[i]!;
    for (let e = 0; e < kept.length; e += 4) {
      settle(board, kept[e]!, day, kept[e + 1]!, kept[e + 2]!, kept[e + 3]!);
      list.push(kept[e]!);
    }
  });
  openJournal(board);
}

function remember(board: Board, day: number): void {
  const { days, marked, entries } = board.journal;
  if (marked[day] === 1) return;
  marked[day] = 1;
  const entry = (entries[days.length] ??= []);
  entry.length = 0;
  days.push(day);
  for (const bundle of board.dayVisits[day]!)
    entry.push(bundle, board.visitTechnician[bundle]!, board.visitBay[bundle]!, board.visitCell[bundle]!);
}

/** The place that {@link findGap} found last. */
const gap = { technician: -1, bay: -1, cell: -1 };

/** Finds a technician (tightest fit first), bay and cell without touching the day's other visits. */
function findGap(board: Board, type: number, day: number): boolean {
  const { problem, technicianFree } = board;
  const people = problem.technicians.length;
  const length = problem.typeCells[type]!;
  const able = problem.typeTechnicians[type]!;
  gap.technician = -1;
  gap.bay = -1;
  gap.cell = -1;
  let least = 1 << 30;
  let earliest = 1 << 30;
  for (let i = 0; i < able.length; i++) {
    const technician = able[i]!;
    const free = technicianFree[day * people + technician]!;
    if (free < length) continue;
    if (board.timed[day] === 0) {
      if (free < least) {
        least = free;
        gap.technician = technician;
      }
      continue;
    }
    for (let bay = 0; bay < problem.bayCount; bay++) {
      const cell = firstFree(board, day, bay, technician, length, earliest);
      if (cell < 0) continue;
      earliest = cell;
      gap.technician = technician;
      gap.bay = bay;
      gap.cell = cell;
    }
  }
  return gap.technician >= 0;
}

/** First cell below `before` from which bay and technician are both free for the length; -1 = none. */
function firstFree(board: Board, day: number, bay: number, technician: number, length: number, before: number) {
  const { bayCount, technicians, openCells } = board.problem;
  const base = day * (bayCount + technicians.length);
  const b = (base + bay) * openCells;
  const t = (base + bayCount + technician) * openCells;
  const { taken } = board;
  const end = Math.min(openCells, before + length - 1);
  let run = 0;
  for (let cell = 0; cell < end; cell++) {
    run = taken[b + cell] === 0 && taken[t + cell] === 0 ? run + 1 : 0;
    if (run === length) return cell - length + 1;
  }
  return -1;
}

function settle(board: Board, bundle: number, day: number, technician: number, bay: number, cell: number): void {
  const length = board.problem.typeCells[board.problem.bundleType[bundle]!]!;
  const at = day * board.problem.technicians.length + technician;
  board.technicianFree[at] = board.technicianFree[at]! - length;
  board.dayFree[day] = board.dayFree[day]! - length;
  board.visitTechnician[bundle] = technician;
  board.visitBay[bundle] = bay;
  board.visitCell[bundle] = cell;
  if (board.timed[day] === 1) markCells(board, day, bay, technician, cell, length, 1);
}

function unsettle(board: Board, bundle: number, day: number): void {
  const length = board.problem.typeCells[board.problem.bundleType[bundle]!]!;
  const technician = board.visitTechnician[bundle]!;
  const at = day * board.problem.technicians.length + technician;
  board.technicianFree[at] = board.technicianFree[at]! + length;
  board.dayFree[day] = board.dayFree[day]! + length;
  if (board.timed[day] === 1)
    markCells(board, day, board.visitBay[bundle]!, technician, board.visitCell[bundle]!, length, 0);
}

function markCells(
  board: Board,
  day: number,
  bay: number,
  technician: number,
  cell: number,
  length: number,
  value: number,
): void {
  const { bayCount, technicians, openCells } = board.problem;
  const base = day * (bayCount + technicians.length);
  const b = (base + bay) * openCells + cell;
  const t = (base + bayCount + technician) * openCells + cell;
  if (bay >= 0) board.taken.fill(value, b, b + length);
  if (technician >= 0) board.taken.fill(value, t, t + length);
}

/** Lays the whole day anew with one more visit, hardest first; puts everything back as it was when that fails. */
function repack(board: Board, bundle: number, day: number): boolean {
  const { problem } = board;
  const list = board.dayVisits[day]!;
  const before = list.flatMap((b) => [board.visitTechnician[b]!, board.visitBay[b]!, board.visitCell[b]!]);
  for (const other of list) unsettle(board, other, day);
  const order = [...list, bundle].sort((a, b) => {
    const [x, y] = [problem.bundleType[a]!, problem.bundleType[b]!];
    const skilled = problem.typeTechnicians[x]!.length - problem.typeTechnicians[y]!.length;
    return skilled || problem.typeCells[y]! - problem.typeCells[x]! || a - b;
  });
  let done = 0;
  for (; done < order.length && findGap(board, problem.bundleType[order[done]!]!, day); done++)
    settle(board, order[done]!, day, gap.technician, gap.bay, gap.cell);
  if (done === order.length) {
    list.push(bundle);
    return true;
  }
  for (let i = 0; i < done; i++) unsettle(board, order[i]!, day);
  list.forEach((other, i) =>
    settle(board, other, day, before[3 * i]!, before[3 * i + 1]!, before[3 * i + 2]!),
  );
  return false;
}
