import fc from 'fast-check';
import { expect, test } from 'vitest';
import { overnightStarts } from '../../../../models/decisions/shop/overnightStarts.ts';
import { roomWorth } from '../../../../models/decisions/shop/roomWorth.ts';
import { siteProblem } from '../../../../models/decisions/shop/siteProblem.ts';
import type { WindowChoice } from '../../../../models/decisions/shop/windowChoice.ts';
import { solveWindow } from '../../../../models/decisions/shop/windowProgram.ts';
import { highs } from '../highs.ts';
import { leastCost, oneWeek, twinWeek } from './leastCost.ts';

const choice = (visit: number, worthCents: number, takes: WindowChoice['takes']): WindowChoice => ({
  visit,
  lane: 0,
  takes,
  cents: 0,
  worthCents,
  owed: false,
  taken: false,
});

test('visits of 5, 5 and 3 cells worth 9, 8 and 4 bring at most 13 to a lane of 8', () => {
  const cells = [5, 5, 3];
  const choices = [9, 8, 4].map((worth, i) => choice(i, worth, [{ lane: 0, cells: cells[i] }]));
  const takes = cells.map((own, i) => ({ choice: i, cells: own }));
  const room = { lanes: [0], cells: 8, takes, lengths: [5, 3], patterns: null };
  expect(roomWorth(room, choices, (visit) => visit)).toEqual({
    mostCents: 13,
    takeCents: Float64Array.from([9, 8, 4]),
  });
});

interface Take {
  readonly cells: number;
  readonly worth: number;
  readonly group: number;
  readonly isLong: boolean;
}

// every set of up to eight visits is packed
test('no set of visits that fits a lane brings more than the most, and the best set within a day brings it', () => {
  const some = fc.array(
    fc.record({
      cells: fc.integer({ min: 1, max: 8 }),
      worth: fc.integer({ min: -5, max: 30 }),
      group: fc.nat(3),
      isLong: fc.boolean(),
    }),
    { maxLength: 8 },
  );
  fc.assert(
    fc.property(some, (own: readonly Take[]) => {
      const choices = own.map(({ cells, worth, isLong }, i) =>
        choice(
          i,
          worth,
          isLong
            ? [
                { lane: 1, cells: 8 },
                { lane: 0, cells },
              ]
            : [{ lane: 0, cells }],
        ),
      );
      const takes = own.map(({ cells }, i) => ({ choice: i, cells }));
      const room = { lanes: [0], cells: 8, takes, lengths: [], patterns: null };
      const { mostCents, takeCents } = roomWorth(room, choices, (visit) => own[visit].group);
      let best = 0;
      for (let set = 0; set < 1 << own.length; set++) {
        const packed = own.map((_, i) => i).filter((i) => (set >> i) & 1);
        const short = packed.filter((i) => !own[i].isLong);
        const cells = packed.reduce((sum, i) => sum + own[i].cells, 0);
        const groups = new Set(short.map((i) => own[i].group));
        if (cells > 8 || groups.size < short.length || packed.length > short.length + 1) continue;
        const cents = packed.reduce((sum, i) => sum + takeCents[i], 0);
        expect(cents).toBeLessThanOrEqual(mostCents);
        if (packed.length === short.length) best = Math.max(best, cents);
      }
      expect(best).toBe(mostCents);
    }),
    { numRuns: 300, seed: 5 },
  );
});

// every assignment of up to seven jobs to five days, or of up to five to two lanes, overnight too, or to none is tried
test('a programme with the worth of lanes proves no less than by cells alone, and nothing above the least cost', () => {
  const prices = fc.array(fc.nat(6000), { minLength: 7, maxLength: 7 });
  fc.assert(
    fc.property(fc.oneof(oneWeek, twinWeek), prices, (inputs, cents) => {
      const problem = siteProblem(inputs, inputs.sites[0], inputs.jobs, new Map(), new Map());
      const { table, bundles } = problem;
      const long = overnightStarts(problem).flat();
      const choices = bundles.flatMap(({ costs, firstDay, length, otherCents }, visit) => {
        const one = (lane: number, takes: WindowChoice['takes'], own: number): WindowChoice => {
          const worthCents = takes.length === 0 ? 0 : cents[visit] - own;
          return { visit, lane, takes, cents: own, worthCents, owed: true, taken: false };
        };
        const within = table.lanes.flatMap(({ dayIndex, cells }, lane) => {
          const own = costs[dayIndex - firstDay] as number | undefined;
          if (own === undefined || own === Infinity || length.fullDays > 0 || length.lastCells > cells)
            return [];
          return [one(lane, [{ lane, cells: length.lastCells }], own)];
        });
        const overnight = long
          .filter((start) => start.visit === visit)
          .map((start) => {
            const last = start.lanes.length - 1;
            const takes = start.lanes.map((lane, i) => ({
              lane,
              cells: i < last ? table.laneCells[lane] : length.lastCells,
            }));
            return one(start.lanes[0], takes, start.cents);
          });
        return [...within, ...overnight, one(-1, [], otherCents)];
      });
      const bound = (byWorth: boolean) => {
        const effort = { nodes: 10_000, budget: { steps: 1e9 }, gapCents: 0, patterns: null, byWorth };
        return solveWindow(problem, highs, choices, (lane) => table.laneCells[lane], effort).boundCents;
      };
      const [byCells, byWorth] = [bound(false), bound(true)];
      expect(byWorth).toBeGreaterThanOrEqual(byCells - 0.1);
      expect(byWorth).toBeLessThanOrEqual(leastCost(inputs) + 0.1);
    }),
    { numRuns: 60, seed: 43 },
  );
});
