import loadHighs from 'highs';
import { describe, expect, test } from 'vitest';
import { solveMilp, type MilpSolver } from '../../../../models/decisions/milpSolver.ts';
import { planShop } from '../../../../models/decisions/shop/planShop.ts';
import { cheapestSplit, chosenBundles, groupSplits } from '../../../../models/decisions/shop/visitSplits.ts';
import { monday, oil, rules, smallShop, unit } from './smallShop.ts';

// ten jobs, two bays, five days of eight hours, least weighted lateness: 22, by brute force and by HiGHS
const bayJobs = [
  { hours: 5, due: 1, weight: 30, notBefore: 1 },
  { hours: 3, due: 1, weight: 12, notBefore: 1 },
  { hours: 6, due: 2, weight: 45, notBefore: 1 },
  { hours: 4, due: 2, weight: 20, notBefore: 2 },
  { hours: 7, due: 2, weight: 25, notBefore: 1 },
  { hours: 2, due: 3, weight: 10, notBefore: 1 },
  { hours: 5, due: 3, weight: 18, notBefore: 1 },
  { hours: 8, due: 4, weight: 40, notBefore: 3 },
  { hours: 4, due: 1, weight: 22, notBefore: 1 },
  { hours: 6, due: 3, weight: 27, notBefore: 2 },
];

test('ten jobs on two bays: weighted lateness 22 (brute force over all assignments)', () => {
  const [site] = smallShop({}).sites;
  const plan = planShop(
    smallShop({
      weeks: 1,
      sites: [{ ...site, bays: ['Bay 1', 'Bay 2'] }],
      technicians: ['Ada', 'Bo'].map((technician) => ({
        technician,
        site: 'Yard',
        skills: null,
        hoursPerDay: 8,
        away: [],
      })),
      units: bayJobs.map((_, i) => unit(String(i), { downtimeCentsPerDay: 0 })),
      jobs: bayJobs.map(({ hours, due, weight, notBefore }, i) =>
        oil(String(i), monday + due - 1, {
          hours,
          notBeforeDay: monday + notBefore - 1,
          latenessCentsPerDay: weight,
          earlinessCentsPerDay: 0,
        }),
      ),
      rules: { ...rules, setUpHours: 0, setUpCents: 0, cellMinutes: 60 },
    }),
    {
      priceSteps: 300,
      packingSteps: 100,
      diveSteps: 10,
      dives: 1,
      firstStepShare: 0.2,
      lastStepShare: 0.00133,
      roundsPerGroup: 1000,
      leastRounds: 0,
      mostRounds: 10_000,
      kicks: 0,
      windowSteps: 0,
    },
  );
  expect(plan.notPlaced).toEqual([]);
  expect(plan.objectiveCents).toBe(22);
  expect(plan.boundCents).toBeLessThanOrEqual(22);
});

test('seven jobs in groups: 353.790110 in {1,2} {3,4,5} {6,7} (Wildeman, Dekker and Smit 1997, all partitions tried)', () => {
  const times = [2, 2.6, 3.9, 4.3, 5.8, 7.7, 8.1];
  const weights = [40, 25, 60, 30, 15, 50, 80];
  const masks = Array.from({ length: 127 }, (_, i) => i + 1);
  const splits = groupSplits([{ jobCount: 7, masks }]);
  const cents = Float64Array.from(masks, (mask) => {
    const own = times.map((_, i) => i).filter((i) => (mask >> i) & 1);
    const total = own.reduce((sum, i) => sum + weights[i], 0);
    const mean = own.reduce((sum, i) => sum + weights[i] * times[i], 0) / total;
    return 100 + own.reduce((sum, i) => sum + weights[i] * (times[i] - mean) ** 2, 0);
  });
  expect(cheapestSplit(splits, 0, cents)).toBeCloseTo(353.7901098901099, 9);
  expect(chosenBundles(splits, 0).map((b) => masks[b])).toEqual([0b11, 0b11100, 0b1100000]);
});

// [machine, time] of each step of each job: Fisher and Thompson (1963), 6 × 6; the best makespan is 55
const ft06 = [
  [
    [2, 1],
    [0, 3],
    [1, 6],
    [3, 7],
    [5, 3],
    [4, 6],
  ],
  [
    [1, 8],
    [2, 5],
    [4, 10],
    [5, 10],
    [0, 10],
    [3, 4],
  ],
  [
    [2, 5],
    [3, 4],
    [5, 8],
    [0, 9],
    [1, 1],
    [4, 7],
  ],
  [
    [1, 5],
    [0, 5],
    [2, 5],
    [3, 3],
    [4, 8],
    [5, 9],
  ],
  [
    [2, 9],
    [1, 3],
    [4, 5],
    [5, 4],
    [0, 3],
    [3, 1],
  ],
  [
    [1, 3],
    [3, 3],
    [5, 9],
    [0, 10],
    [4, 4],
    [2, 1],
  ],
];

describe('the solver on a job shop', () => {
  test('Fisher and Thompson 6 × 6: 55 (published optimum)', async () => {
    const solver: MilpSolver = await loadHighs();
    // whatever is shorter lies within 55 as well
    const most = 55;
    const sum = (job: number[][]) => job.reduce((total, [, time]) => total + time, 0);
    // no step begins before those ahead of it in its job are done, nor so late that those after it would pass 55
    const steps = ft06.flatMap((job, j) =>
      job.map(([machine, time], k) => {
        const earliest = sum(job.slice(0, k));
        return { j, k, machine, time, earliest, latest: most - sum(job.slice(k)) };
      }),
    );
    const rows: { columns: number[]; values: number[]; lower: number }[] = [];
    const pairs: [number, number][] = [];
    steps.forEach((a, i) =>
      steps.forEach((b, n) => {
        if (i < n && a.machine === b.machine) pairs.push([i, n]);
        if (a.j === b.j && b.k === a.k + 1) rows.push({ columns: [n, i], values: [1, -1], lower: a.time });
      }),
    );
    const makespan = steps.length;
    steps.forEach((step, i) => rows.push({ columns: [makespan, i], values: [1, -1], lower: step.time }));
    pairs.forEach(([i, n], p) => {
      const order = makespan + 1 + p;
      const after = steps[i].latest + steps[i].time - steps[n].earliest;
      const before = steps[n].latest + steps[n].time - steps[i].earliest;
      rows.push({ columns: [n, i, order], values: [1, -1, after], lower: steps[i].time });
      rows.push({ columns: [i, n, order], values: [1, -1, -before], lower: steps[n].time - before });
    });
    const numCols = makespan + 1 + pairs.length;
    const whole = Int32Array.from({ length: numCols }, (_, i) => (i > makespan ? 1 : 0));
    const starts = [0];
    for (const { columns } of rows) starts.push(starts[starts.length - 1] + columns.length);
    const result = solveMilp(
      solver,
      {
        numCols,
        numRows: rows.length,
        colCost: Float64Array.from(whole, (_, i) => (i === makespan ? 1 : 0)),
        colLower: Float64Array.from(whole, (_, i) => (i < makespan ? steps[i].earliest : 0)),
        colUpper: Float64Array.from(whole, (binary, i) =>
          binary === 1 ? 1 : i < makespan ? steps[i].latest : most,
        ),
        rowLower: Float64Array.from(rows, ({ lower }) => lower),
        rowUpper: new Float64Array(rows.length).fill(Infinity),
        matrix: {
          format: 'csr',
          numRows: rows.length,
          numCols,
          starts: Int32Array.from(starts),
          indices: Int32Array.from(rows.flatMap(({ columns }) => columns)),
          values: Float64Array.from(rows.flatMap(({ values }) => values)),
        },
        integrality: whole,
      },
      0,
      60,
    );
    expect(result.objective).toBeCloseTo(55, 6);
  });
});
