import type { DueJob, ShopInputs, ShopSite } from './shopInputs.ts';
import { siteLanes, usualDayCells, type Lane } from './siteLanes.ts';
import type { VisitLength } from './visitCost.ts';

/** A site's lanes, and which kinds of visit each can take. */
export interface LaneTable {
  readonly days: readonly number[];
  readonly lanes: readonly Lane[];
  readonly laneStart: Int32Array;
  readonly laneCells: Int32Array;
  readonly laneDay: Int32Array;
  /** skills of the lane's technician, as bits over `skills` */
  readonly laneSkills: Int32Array;
  /** lane of the same bay and technician on the next open day, from opening on; −1 = none */
  readonly laneNext: Int32Array;
  /** 1 = from opening on, as long as a usual day, and the only one in its bay */
  readonly laneWhole: Uint8Array;
  /** a usual working day, cells */
  readonly dayCells: number;
  readonly openCells: number;
  /** skills that some job asks for */
  readonly skills: readonly string[];
  readonly typeLength: VisitLength[];
  readonly typeSkills: number[];
  /** whether some lane could take the type on an open day if nothing else were there */
  readonly typeFits: Uint8Array[];
  /** number of the type of a visit; a new one where it is met first */
  readonly typeOf: (length: VisitLength, jobs: readonly DueJob[]) => number;
}

/** Lays out the lanes of a site for jobs with their skills. */
export function laneTable(inputs: ShopInputs, site: ShopSite, jobs: readonly DueJob[]): LaneTable {
  const { days, lanes, laneStart, openCells } = siteLanes(inputs, site);
  const skills = [...new Set(jobs.flatMap((job) => job.skill ?? []))].sort();
  const bitsOf = (names: readonly string[] | null) =>
    skills.reduce((bits, skill, i) => (names === null || names.includes(skill) ? bits | (1 << i) : bits), 0);
  const dayCells = usualDayCells(inputs, site);
  const laneSkills = Int32Array.from(lanes, (lane) => bitsOf(lane.technician.skills));
  const laneNext = Int32Array.from(lanes, (lane) => {
    for (let i = laneStart[lane.dayIndex + 1]; i < (laneStart[lane.dayIndex + 2] ?? 0); i++)
      if (lanes[i].bay === lane.bay && lanes[i].technician === lane.technician && lanes[i].startCell === 0)
        return i;
    return -1;
  });
  // what stays overnight holds its bay: nobody else works there on that day
  const shared = (lane: Lane) =>
    lanes
      .slice(laneStart[lane.dayIndex], laneStart[lane.dayIndex + 1])
      .some((other) => other !== lane && other.bay === lane.bay);
  const table: LaneTable = {
    days,
    lanes,
    laneStart: Int32Array.from(laneStart),
    laneCells: Int32Array.from(lanes, (lane) => lane.cells),
    laneDay: Int32Array.from(lanes, (lane) => lane.dayIndex),
    laneSkills,
    laneNext,
    laneWhole: Uint8Array.from(lanes, (lane) =>
      lane.whole && lane.cells === dayCells && !shared(lane) ? 1 : 0,
    ),
    dayCells,
    openCells,
    skills,
    typeLength: [],
    typeSkills: [],
    typeFits: [],
    typeOf: (length, chosen) => {
      const need = bitsOf(chosen.flatMap((job) => job.skill ?? []));
      const key = `${length.cells}|${need}`;
      const known = numbers.get(key);
      if (known !== undefined) return known;
      numbers.set(key, table.typeLength.length);
      table.typeLength.push(length);
      table.typeSkills.push(need);
      const fits = new Uint8Array(days.length);
      for (let lane = 0; lane < lanes.length; lane++)
        if (laneTakes(table, table.laneCells, lane, length, need)) fits[lanes[lane].dayIndex] = 1;
      table.typeFits.push(fits);
      return table.typeLength.length - 1;
    },
  };
  const numbers = new Map<string, number>();
  return table;
}

/**
 * Whether a visit can begin in a lane: room for it and the skills asked for; a longer one takes whole days of the same bay
 * and technician, one open day after another, and the beginning of the last.
 * @param free cells left by lane
 */
export function laneTakes(
  { laneCells, laneSkills, laneNext, laneWhole }: LaneTable,
  free: Int32Array,
  lane: number,
  { fullDays, lastCells }: VisitLength,
  need: number,
): boolean {
  if ((laneSkills[lane] & need) !== need) return false;
  let at = lane;
  for (let k = 0; k < fullDays; k++) {
    if (at < 0 || laneWhole[at] === 0 || free[at] !== laneCells[at]) return false;
    at = laneNext[at];
  }
  return at >= 0 && free[at] >= lastCells;
}
