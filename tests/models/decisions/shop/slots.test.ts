import fc from 'fast-check';
import { expect, test } from 'vitest';
import { dearStretches } from '../../../../models/decisions/shop/dearStretches.ts';
import { siteProblem, type SiteProblem } from '../../../../models/decisions/shop/siteProblem.ts';
import { buildFirst } from '../../../../models/decisions/shop/siteSearch.ts';
import {
  emptyState,
  placedCents,
  unitFree,
  type SiteState,
} from '../../../../models/decisions/shop/siteState.ts';
import {
  slotAssignment,
  type SlotAssignment,
  type SlotVisits,
} from '../../../../models/decisions/shop/slotAssignment.ts';
import { slotExchanges } from '../../../../models/decisions/shop/slotExchanges.ts';
import { slotSearch } from '../../../../models/decisions/shop/slotSearch.ts';
import { leastCost, twinWeek } from './leastCost.ts';

interface Slots {
  readonly cells: readonly number[];
  readonly lanes: readonly number[];
  readonly costs: readonly (readonly number[])[];
}

const every = {
  leastLaneCents: 0,
  daysBeside: 0,
  mostLanes: 100,
  mostSlots: 9,
  leastGainCents: 0,
  tries: 1000,
};
const laneCount = 3;
const width = 9;

/** Up to six visits in three lanes; a visit can always stay in its own slot. */
const slots: fc.Arbitrary<Slots> = fc.integer({ min: 2, max: 6 }).chain((count) =>
  fc
    .record({
      cells: fc.array(fc.integer({ min: 1, max: 4 }), { minLength: count, maxLength: count }),
      lanes: fc.array(fc.nat(laneCount - 1), { minLength: count, maxLength: count }),
      costs: fc.array(
        fc.array(fc.oneof(fc.nat(1000), fc.constant(Infinity)), {
          minLength: laneCount,
          maxLength: laneCount,
        }),
        { minLength: count, maxLength: count },
      ),
    })
    .map(({ cells, lanes, costs }) => ({
      cells,
      lanes,
      costs: costs.map((own, i) =>
        own.map((cents, lane) => (lane === lanes[i] && cents === Infinity ? 7 : cents)),
      ),
    })),
);

function visitsOf({ cells, costs }: Slots): SlotVisits {
  return {
    count: cells.length,
    cells: Int32Array.from(cells),
    firstLane: new Int32Array(cells.length),
    endLane: new Int32Array(cells.length).fill(laneCount),
    cents: Float64Array.from(costs.flat()),
  };
}

function assigned(given: Slots): SlotAssignment {
  const made = slotAssignment(visitsOf(given), Int32Array.from(given.lanes), laneCount, width, () => true);
  if (made === null) throw new Error('each visit could stay where it is');
  return made;
}

/** Least cost over every way to give the visits the slots. */
function leastOfAll(
  { cells, costs }: Slots,
  slotLane: ArrayLike<number>,
  slotCells: ArrayLike<number>,
): number {
  const taken = new Set<number>();
  const rest = (visit: number): number => {
    if (visit === cells.length) return 0;
    let least = Infinity;
    for (let slot = 0; slot < cells.length; slot++) {
      if (taken.has(slot) || slotCells[slot] < cells[visit]) continue;
      taken.add(slot);
      least = Math.min(least, costs[visit][slotLane[slot]] + rest(visit + 1));
      taken.delete(slot);
    }
    return least;
  };
  return rest(0);
}

const costOf = (given: Slots, { slotOf, slotLane }: SlotAssignment) =>
  given.costs.reduce((sum, own, visit) => sum + own[slotLane[slotOf[visit]]], 0);

// every way to give the visits the slots is tried
test('visits have their best slots, and the prices prove it', () => {
  fc.assert(
    fc.property(slots, (given) => {
      const made = assigned(given);
      const least = leastOfAll(given, made.slotLane, made.slotCells);
      expect(costOf(given, made)).toBe(least);
      expect(made.cents()).toBeCloseTo(least, 6);
    }),
    { numRuns: 300, seed: 7 },
  );
});

test('after an exchange the visits have their best slots anew; one that costs too much leaves all as it was', () => {
  fc.assert(
    fc.property(slots, fc.array(fc.nat(laneCount - 1), { minLength: 6, maxLength: 6 }), (given, to) => {
      const made = assigned(given);
      const before = [...made.slotOf, ...made.slotLane];
      const moved = [...made.slotLane.keys()].filter((slot) => slot % 2 === 0);
      const lanes = Int32Array.from(made.slotLane, (lane, slot) => (slot % 2 === 0 ? to[slot] : lane));
      const least = leastOfAll(given, lanes, made.slotCells);
      const limit = made.cents() - 0.5;
      const wanted = moved.map((slot) => to[slot]);
      expect(made.exchange(moved, wanted, limit)).toBe(least < limit);
      if (least < limit) {
        expect(costOf(given, made)).toBe(least);
        expect(made.cents()).toBeCloseTo(least, 6);
      } else expect([...made.slotOf, ...made.slotLane]).toEqual(before);
      made.laneSlots.forEach((own, lane) => own.forEach((slot) => expect(made.slotLane[slot]).toBe(lane)));
    }),
    { numRuns: 300, seed: 11 },
  );
});

// every set of one lane's slots against every set of another's
test('no exchange between two lanes gains more than is said of them', () => {
  fc.assert(
    fc.property(slots, fc.array(fc.nat(2), { minLength: 3, maxLength: 3 }), (given, left) => {
      const made = assigned(given);
      const free = Int32Array.from(left);
      const said = new Map(
        slotExchanges(made, free, every).map((one) => [one.a * laneCount + one.b, one.mostGainCents]),
      );
      const sets = (own: readonly number[]) =>
        Array.from({ length: 1 << own.length }, (_, set) => own.filter((_, bit) => (set >> bit) & 1));
      const cells = (own: readonly number[]) => own.reduce((sum, slot) => sum + made.slotCells[slot], 0);
      for (let a = 0; a < laneCount; a++)
        for (let b = a + 1; b < laneCount; b++)
          for (const fromA of sets(made.laneSlots[a]))
            for (const fromB of sets(made.laneSlots[b])) {
              const more = cells(fromA) - cells(fromB);
              if (more > free[b] || -more > free[a]) continue;
              const lanes = Int32Array.from(made.slotLane);
              for (const slot of fromA) lanes[slot] = b;
              for (const slot of fromB) lanes[slot] = a;
              const gain = made.cents() - leastOfAll(given, lanes, made.slotCells);
              expect(gain).toBeLessThanOrEqual((said.get(a * laneCount + b) ?? 0) + 1e-6);
            }
    }),
    { numRuns: 100, seed: 13 },
  );
});

function built(problem: SiteProblem): SiteState {
  const state = emptyState(problem);
  buildFirst(state, null);
  return state;
}

const total = ({ groupCents }: SiteState) => groupCents.reduce((sum, cents) => sum + cents, 0);

test('a stretch gets cheaper or stays, keeps its rules, and never undercuts the least cost of all plans', () => {
  let cheaper = 0;
  fc.assert(
    fc.property(twinWeek, (inputs) => {
      const problem = siteProblem(inputs, inputs.sites[0], inputs.jobs, new Map(), new Map());
      const state = built(problem);
      const before = total(state);
      const stretch = { fromDay: 0, toDay: problem.table.days.length };
      slotSearch(state, stretch, every);
      const after = total(state);
      if (after < before) cheaper += 1;
      expect(after).toBeLessThanOrEqual(before);
      expect(after).toBeGreaterThanOrEqual(leastCost(inputs) - 1e-6);
      expect(Math.min(...state.free)).toBeGreaterThanOrEqual(0);
      state.chosen.forEach((own, group) => {
        expect(
          own.reduce((sum, b) => sum + placedCents(problem.bundles[b], problem, state.place[b]), 0),
        ).toBeCloseTo(state.groupCents[group], 6);
        for (const b of own)
          if (state.place[b] >= 0)
            expect(unitFree(state, b, problem.table.laneDay[state.place[b]])).toBe(true);
      });
    }),
    { numRuns: 60, seed: 41 },
  );
  expect(cheaper).toBeGreaterThan(0);
});

test('days of dear room make stretches, with days beside them; those that meet are one', () => {
  const table = {
    days: Array.from({ length: 12 }, (_, day) => day),
    laneDay: Int32Array.from({ length: 12 }, (_, day) => day),
    laneStart: Int32Array.from({ length: 13 }, (_, day) => day),
  };
  const bundle = { costs: new Float64Array(12), firstDay: 0, length: { fullDays: 0 } };
  const problem = { table, bundles: [bundle] } as unknown as SiteProblem;
  const packed = (days: readonly number[]) => ({
    worth: 0,
    count: days.length,
    visits: new Int32Array(days.length),
    lanes: Int32Array.from(days),
  });
  const worth = Float64Array.from([400]);
  const found = (days: readonly number[], leastLaneCents: number, mostLanes = 100) =>
    dearStretches(problem, packed(days), worth, { ...every, leastLaneCents, daysBeside: 1, mostLanes });
  expect(found([0, 2, 9], 300)).toEqual([
    { fromDay: 0, toDay: 4 },
    { fromDay: 8, toDay: 11 },
  ]);
  expect(found([0, 2, 9], 500)).toEqual([]);
  expect(found([0, 1, 2, 3, 4], 300, 3)).toEqual([
    { fromDay: 0, toDay: 3 },
    { fromDay: 3, toDay: 6 },
  ]);
});
