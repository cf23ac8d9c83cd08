import type { DayWindow } from './dayWindows.ts';
import { notInPlan, placedCents, removeGroup, restoreGroup, unitFree, type SiteState } from './siteState.ts';
import { slotAssignment, type SlotVisits } from './slotAssignment.ts';
import { slotExchanges } from './slotExchanges.ts';
import type { SlotRules } from './windowRules.ts';

// whole cents below: a difference in the last digits is no gain
const roundingCents = 0.5;

/**
 * Makes a stretch of days cheaper: each lane is a row of slots, the visits always have their best slots, and any slots of
 * two lanes change places as long as that gains, so that a change in one place may shift visits through the whole stretch.
 * The splits of the jobs, and visits that stay overnight, stay as they are.
 * @param state the plan; it only gets cheaper
 * @param rules which exchanges are worked out
 * Source: exchanges of sets between bins, Thompson and Psaraftis, Operations Research 41 (1993), value from memory.
 */
export function slotSearch(state: SiteState, { fromDay, toDay }: DayWindow, rules: SlotRules): void {
  const { problem, chosen, place, free } = state;
  const { bundles, table } = problem;
  const { laneDay, laneStart } = table;
  const visits = chosen
    .flat()
    .filter(
      (b) =>
        place[b] >= 0 &&
        laneDay[place[b]] >= fromDay &&
        laneDay[place[b]] < toDay &&
        bundles[b].length.fullDays === 0,
    );
  if (visits.length < 2) return;
  const firstLane = laneStart[fromDay];
  const lanes = laneStart[toDay] - firstLane;
  const costs = slotVisits(state, visits, { fromDay, toDay });
  const units = sameUnits(state, visits);
  const slots = slotAssignment(
    costs,
    Int32Array.from(visits, (b) => place[b] - firstLane),
    lanes,
    table.openCells + 1,
    (slotOf, slotLane) =>
      units.every((own) => {
        const days = own.map((i) => laneDay[firstLane + slotLane[slotOf[i]]]);
        return new Set(days).size === days.length;
      }),
  );
  if (slots === null) return;
  const left = free.slice(firstLane, firstLane + lanes);
  const cells = (own: readonly number[]) => own.reduce((sum, slot) => sum + slots.slotCells[slot], 0);
  const touched = new Uint8Array(lanes);
  for (let more = true, tried = 0; more && tried < rules.tries;) {
    more = false;
    touched.fill(0);
    for (const { a, b, fromA, fromB } of slotExchanges(slots, left, rules)) {
      if (touched[a] + touched[b] > 0 || tried === rules.tries) continue;
      tried += 1;
      const to = [...fromA.map(() => b), ...fromB.map(() => a)];
      if (!slots.exchange([...fromA, ...fromB], to, slots.cents() - roundingCents)) continue;
      left[a] += cells(fromA) - cells(fromB);
      left[b] += cells(fromB) - cells(fromA);
      touched[a] = 1;
      touched[b] = 1;
      more = true;
    }
  }
  moveVisits(state, new Map(visits.map((b, i) => [b, firstLane + slots.slotLane[slots.slotOf[i]]])));
}

/** Cost of each visit in each lane of the stretch, where its skills are and its unit is not away. */
function slotVisits(state: SiteState, visits: readonly number[], { fromDay, toDay }: DayWindow): SlotVisits {
  const { problem, place } = state;
  const { bundles, table } = problem;
  const { laneStart, laneSkills, typeSkills } = table;
  const begin = laneStart[fromDay];
  const lanes = laneStart[toDay] - begin;
  const cents = new Float64Array(visits.length * lanes).fill(Infinity);
  const firstLane = new Int32Array(visits.length).fill(lanes);
  const endLane = new Int32Array(visits.length);
  // visits that may move are in nobody's way
  const former = visits.map((b) => place[b]);
  for (const b of visits) place[b] = notInPlan;
  visits.forEach((b, i) => {
    const { firstDay, searchCosts, type } = bundles[b];
    const need = typeSkills[type];
    const endDay = Math.min(toDay, firstDay + searchCosts.length);
    for (let day = Math.max(fromDay, firstDay); day < endDay; day++) {
      if (searchCosts[day - firstDay] === Infinity || !unitFree(state, b, day)) continue;
      for (let lane = laneStart[day]; lane < laneStart[day + 1]; lane++) {
        if ((laneSkills[lane] & need) !== need) continue;
        const at = lane - begin;
        cents[i * lanes + at] = searchCosts[day - firstDay];
        firstLane[i] = Math.min(firstLane[i], at);
        endLane[i] = at + 1;
      }
    }
  });
  visits.forEach((b, i) => (place[b] = former[i]));
  const cells = Int32Array.from(visits, (b) => bundles[b].length.lastCells);
  return { count: visits.length, cells, firstLane, endLane, cents };
}

/** Visits of the same unit, by their position, where there are several. */
function sameUnits(
  { problem: { bundles } }: SiteState,
  visits: readonly number[],
): readonly (readonly number[])[] {
  const byUnit = new Map<number, number[]>();
  visits.forEach((b, i) => {
    const own = byUnit.get(bundles[b].unit);
    if (own === undefined) byUnit.set(bundles[b].unit, [i]);
    else own.push(i);
  });
  return [...byUnit.values()].filter((own) => own.length > 1);
}

/** Puts the visits where they are now. */
function moveVisits(state: SiteState, laneOf: ReadonlyMap<number, number>): void {
  const { problem, chosen, place } = state;
  const groups = new Set([...laneOf.keys()].map((b) => problem.bundles[b].group));
  const plans = [...groups].map((group) => {
    const visits = chosen[group];
    const lanes = visits.map((b) => laneOf.get(b) ?? place[b]);
    return { group, visits, lanes };
  });
  for (const { group } of plans) removeGroup(state, group);
  for (const { group, visits, lanes } of plans) {
    const cents = visits.reduce((sum, b, i) => sum + placedCents(problem.bundles[b], problem, lanes[i]), 0);
    restoreGroup(state, group, visits, lanes, cents);
  }
}
