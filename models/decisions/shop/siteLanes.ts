import type { FormerPlace, ShopInputs, ShopSite, ShopTechnician } from './shopInputs.ts';
import { isOpen, mondayOf, spanHolds } from './weekCalendar.ts';

/** A stretch of a day that one technician spends in one bay; visits lie in it one after another. */
export interface Lane {
  /** position among the site's open days */
  readonly dayIndex: number;
  readonly bay: string;
  readonly technician: ShopTechnician;
  /** cells after opening */
  readonly startCell: number;
  readonly cells: number;
  /** whether it is the technician's whole day, from opening on */
  readonly whole: boolean;
}

/** The open days of a site, and the lanes of each. */
export interface SiteLanes {
  /** days since 1970-01-01 */
  readonly days: readonly number[];
  /** lanes in order of day */
  readonly lanes: readonly Lane[];
  /** lanes of open day d: laneStart[d] … laneStart[d + 1] − 1 */
  readonly laneStart: readonly number[];
  /** cells from opening to closing */
  readonly openCells: number;
}

interface Hold {
  readonly day: number;
  readonly bay: string | null;
  readonly technician: string | null;
  readonly fromCell: number;
  readonly toCell: number;
}

/**
 * Puts each technician who is present into one bay a day, the most skilled first, and cuts out what locked visits hold.
 * Technicians keep their bay; spare ones take the bays of those who are away, in turns by week, and the hours that a bay is
 * open beyond its first technician's day.
 * @param inputs sites, people, locked visits; the plan runs from fromDay for `weeks` weeks
 */
export function siteLanes(inputs: ShopInputs, site: ShopSite): SiteLanes {
  const cellMinutes = inputs.rules.cellMinutes;
  const openCells = Math.max(0, Math.floor((site.closesAtMinute - site.opensAtMinute) / cellMinutes + 1e-9));
  const people = inputs.technicians
    .filter((person) => person.site === site.site)
    .sort((a, b) => skillCount(b) - skillCount(a));
  const holds = holdsOf(inputs.locked, site, cellMinutes, openCells);
  const days: number[] = [];
  const lanes: Lane[] = [];
  const laneStart = [0];
  for (let day = inputs.fromDay; day < inputs.fromDay + 7 * inputs.weeks; day++) {
    if (!isOpen(site, day)) continue;
    const dayIndex = days.length;
    days.push(day);
    const held = holds.filter((hold) => hold.day === day);
    for (const { bay, person, startCell, cells } of roster(site, people, day, openCells, cellMinutes))
      for (const [from, to] of freeStretches(
        startCell,
        startCell + cells,
        held.filter((hold) => hold.bay === bay || hold.technician === person.technician),
      ))
        lanes.push({
          dayIndex,
          bay,
          technician: person,
          startCell: from,
          cells: to - from,
          whole: from === 0 && to === cells,
        });
    laneStart.push(lanes.length);
  }
  return { days, lanes, laneStart, openCells };
}

const skillCount = (person: ShopTechnician) => person.skills?.length ?? 99;

function roster(
  site: ShopSite,
  people: readonly ShopTechnician[],
  day: number,
  openCells: number,
  cellMinutes: number,
) {
  const cellsOf = (person: ShopTechnician) =>
    spanHolds(person.away, day)
      ? 0
      : Math.min(openCells, Math.floor((person.hoursPerDay * 60) / cellMinutes + 1e-9));
  const spare = people.slice(site.bays.length).filter((person) => cellsOf(person) > 0);
  const turn = spare.length === 0 ? 0 : Math.floor(mondayOf(day) / 7) % spare.length;
  const waiting = [...spare.slice(turn), ...spare.slice(0, turn)];
  const places: { bay: string; person: ShopTechnician; startCell: number; cells: number }[] = [];
  const firstIn = site.bays.map((bay, i) => {
    const home = people[i] as ShopTechnician | undefined;
    const person = home !== undefined && cellsOf(home) > 0 ? home : waiting.shift();
    if (person !== undefined) places.push({ bay, person, startCell: 0, cells: cellsOf(person) });
    return person === undefined ? openCells : cellsOf(person);
  });
  site.bays.forEach((bay, i) => {
    const left = openCells - firstIn[i];
    const next = left > 0 ? waiting.shift() : undefined;
    if (next !== undefined)
      places.push({ bay, person: next, startCell: firstIn[i], cells: Math.min(left, cellsOf(next)) });
  });
  return places;
}

function holdsOf(locked: readonly FormerPlace[], site: ShopSite, cellMinutes: number, openCells: number) {
  const holds: Hold[] = [];
  const cell = (minute: number) => (minute - site.opensAtMinute) / cellMinutes;
  for (const { site: at, day, lastDay, bay, technician, startMinute, endMinute } of locked) {
    if (at !== site.site || (bay === null && technician === null)) continue;
    for (let on = day; on <= lastDay; on++)
      holds.push({
        day: on,
        bay,
        technician,
        fromCell: on === day ? Math.floor(cell(startMinute) + 1e-9) : 0,
        toCell: on === lastDay ? Math.ceil(cell(endMinute) - 1e-9) : openCells,
      });
  }
  return holds;
}

function freeStretches(from: number, to: number, holds: readonly Hold[]): [number, number][] {
  let free: [number, number][] = [[from, to]];
  for (const { fromCell, toCell } of holds)
    free = free.flatMap(([a, b]): [number, number][] =>
      toCell <= a || fromCell >= b
        ? [[a, b]]
        : [
            [a, Math.max(a, fromCell)],
            [Math.min(b, toCell), b],
          ],
    );
  return free.filter(([a, b]) => b > a);
}

/** A usual working day of a site: its longest whole lane when nothing is locked, cells, 1 or more. */
export function usualDayCells(inputs: ShopInputs, site: ShopSite): number {
  const { lanes } = siteLanes({ ...inputs, locked: [] }, site);
  return lanes.reduce((most, lane) => (lane.whole ? Math.max(most, lane.cells) : most), 1);
}
