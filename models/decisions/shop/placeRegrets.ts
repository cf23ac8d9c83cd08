import { dayVisits, laneWorth, type LaneWorth } from './laneWorth.ts';
import { laneAfter, overnightStarts, type OvernightStart } from './overnightStarts.ts';
import type { SiteProblem } from './siteProblem.ts';
import type { SiteState } from './siteState.ts';
import type { VisitPairs } from './visitPairs.ts';
import { cheapestSplit } from './visitSplits.ts';

/** A visit in a lane, or without a bay, and what no plan with it undercuts. */
export interface VisitPlace {
  readonly visit: number;
  /** lane in which it begins, or −1 = without a bay */
  readonly lane: number;
  /** all lanes that it takes; all but the last in full */
  readonly lanes: readonly number[];
  readonly cents: number;
  /** every plan that has it costs at least the bound and this, cents, 0 or more */
  readonly regretCents: number;
}

/** Places of visits under their prices. */
export interface PlaceRegrets {
  readonly places: readonly VisitPlace[];
  /** no plan costs less, cents */
  readonly boundCents: number;
  /** cheapest split of each group, cents */
  readonly groupCents: Float64Array;
  /** what each day's room is worth, cents */
  readonly dayCents: Float64Array;
  /** what the room of the open days from … to before is worth to visits that begin there, cents */
  readonly roomCents: (fromDay: number, toDay: number) => number;
  /** what the cells of a lane that are taken are worth when so many are left, cents */
  readonly laneHeldCents: (lane: number, leftCells: number) => number;
}

/** Whether the plan has the visit there; any place without a bay is one. */
export function hasPlace(
  { problem, chosen, place }: SiteState,
  { visit, lane }: Pick<VisitPlace, 'visit' | 'lane'>,
): boolean {
  if (!chosen[problem.bundles[visit].group].includes(visit)) return false;
  return lane < 0 ? place[visit] < 0 : place[visit] === lane;
}

// far above any cost, so that the cheapest split has the visit
const forced = 1e10;

/**
 * What each visit in each lane costs at least above the bound: the lanes are packed and the group is split again with it.
 * @param visitCents worth of each visit, at most what it costs without a bay, cents
 * @param slackCents places whose regret is above this are left out
 * Source: fixing by reduced costs under Lagrangian prices, Beasley in Reeves (ed.), Modern Heuristic Techniques (1993),
 * value from memory.
 */
export function placeRegrets(
  problem: SiteProblem,
  pairs: VisitPairs,
  visitCents: Float64Array,
  slackCents: number,
): PlaceRegrets {
  const { bundles, table, groupUnit, splits } = problem;
  const { laneCells, laneDay } = table;
  const days = dayVisits(problem, pairs);
  const worths = table.lanes.map((_, l) => laneWorth(problem, days[laneDay[l]], visitCents, l, slackCents));
  const starts = overnightStarts(problem);
  const groupCents = Float64Array.from(groupUnit, (_, g) => cheapestSplit(splits, g, visitCents));
  const trial = visitCents.slice();
  const groupRegret = Float64Array.from(bundles, ({ group }, b) => {
    trial[b] -= forced;
    const cents = cheapestSplit(splits, group, trial) + forced - groupCents[group];
    trial[b] = visitCents[b];
    return Math.max(0, cents);
  });
  const { before, from, whole } = chainCents(problem, worths, starts, visitCents);
  const places: VisitPlace[] = [];
  const keep = (place: Omit<VisitPlace, 'regretCents'>, regretCents: number) => {
    if (regretCents <= slackCents) places.push({ ...place, regretCents: Math.max(0, regretCents) });
  };
  const ends = table.lanes.map(() => [] as OvernightStart[]);
  for (const start of starts.flat()) ends[start.lanes[start.lanes.length - 1]].push(start);
  worths.forEach(({ visits, worths: own, beside }, lane) => {
    const next = from(laneAfter(problem, lane));
    visits.forEach((visit, i) => {
      const cells = bundles[visit].length.lastCells;
      let most = before[lane] + beside(i, laneCells[lane] - cells);
      for (const { visit: b, cents, lanes, leftCells } of ends[lane])
        if (cells <= leftCells)
          most = Math.max(most, before[lanes[0]] + visitCents[b] - cents + beside(i, leftCells - cells));
      const regret = groupRegret[visit] + whole[lane] - (most + own[i] + next);
      keep({ visit, lane, lanes: [lane], cents: visitCents[visit] - own[i] }, regret);
    });
    for (const { visit, cents, lanes, leftCells } of starts[lane]) {
      const last = lanes[lanes.length - 1];
      const rest = worths[last].top(leftCells) + from(laneAfter(problem, last));
      const regret = groupRegret[visit] + whole[lane] - (before[lane] + visitCents[visit] - cents + rest);
      keep({ visit, lane, lanes, cents }, regret);
    }
  });
  bundles.forEach(({ otherCents: cents }, visit) => {
    if (cents < Infinity)
      keep({ visit, lane: -1, lanes: [], cents }, groupRegret[visit] + cents - visitCents[visit]);
  });
  const dayCents = new Float64Array(table.days.length);
  worths.forEach(({ top }, lane) => (dayCents[laneDay[lane]] += top(laneCells[lane])));
  const roomCents = (fromDay: number, toDay: number) =>
    chainCents(problem, worths, starts, visitCents, fromDay, toDay).sum;
  const boundCents = groupCents.reduce((sum, cents) => sum + cents, -roomCents(0, table.days.length));
  const laneHeldCents = (lane: number, leftCells: number) => heldCents(worths, laneCells, lane, leftCells);
  return { places, boundCents, groupCents, dayCents, roomCents, laneHeldCents };
}

/** Worth of what is taken of a lane when so many cells are left, cents. */
function heldCents(
  worths: readonly LaneWorth[],
  laneCells: Int32Array,
  lane: number,
  leftCells: number,
): number {
  const { top } = worths[lane];
  return top(laneCells[lane]) - top(leftCells);
}

/** Best worth along lanes that are joined by visits that stay overnight, within the days from … to before. */
function chainCents(
  problem: SiteProblem,
  worths: readonly LaneWorth[],
  starts: readonly (readonly OvernightStart[])[],
  visitCents: Float64Array,
  fromDay = 0,
  toDay = Infinity,
) {
  const { laneDay, laneCells, lanes } = problem.table;
  const inside = (lane: number) => lane >= 0 && laneDay[lane] >= fromDay && laneDay[lane] < toDay;
  const onward = new Float64Array(lanes.length);
  const from = (lane: number) => (inside(lane) ? onward[lane] : 0);
  const first = new Uint8Array(lanes.length).fill(1);
  // what a visit that ends beyond the days takes there is paid for at its worth
  const long = ({ visit, cents, lanes: own, leftCells }: OvernightStart) => {
    const last = own[own.length - 1];
    let rest = inside(last) ? worths[last].top(leftCells) : 0;
    for (const lane of own)
      if (!inside(lane)) rest -= heldCents(worths, laneCells, lane, lane === last ? leftCells : 0);
    return visitCents[visit] - cents + rest;
  };
  for (let lane = lanes.length - 1; lane >= 0; lane--) {
    if (!inside(lane)) continue;
    const next = laneAfter(problem, lane);
    if (next >= 0) first[next] = 0;
    onward[lane] = worths[lane].top(laneCells[lane]) + from(next);
    for (const start of starts[lane])
      onward[lane] = Math.max(
        onward[lane],
        long(start) + from(laneAfter(problem, start.lanes[start.lanes.length - 1])),
      );
  }
  let sum = 0;
  const before = new Float64Array(lanes.length).fill(-Infinity);
  const whole = new Float64Array(lanes.length);
  for (let lane = 0; lane < lanes.length; lane++) {
    if (!inside(lane)) continue;
    if (first[lane] === 1) {
      before[lane] = 0;
      whole[lane] = onward[lane];
      sum += onward[lane];
    }
    const reach = (to: number, cents: number) => {
      if (!inside(to)) return;
      whole[to] = whole[lane];
      before[to] = Math.max(before[to], before[lane] + cents);
    };
    reach(laneAfter(problem, lane), worths[lane].top(laneCells[lane]));
    for (const start of starts[lane])
      reach(laneAfter(problem, start.lanes[start.lanes.length - 1]), long(start));
  }
  return { before, from, whole, sum };
}
