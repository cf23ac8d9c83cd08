import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solveMilp } from '../../../models/decisions/milpSolver.ts';
import { planPortfolio } from '../../../models/decisions/portfolio.ts';
import { efficientFrontier, marginalValue } from '../../../models/decisions/portfolioFrontier.ts';
import type { PortfolioOption, PortfolioProblem } from '../../../models/decisions/portfolioItems.ts';
import { seededRandom } from '../../../models/numeric/random.ts';
import { highs } from './highs.ts';
import { reference } from './reference.ts';

const option = (over: Partial<PortfolioOption>): PortfolioOption => ({
  action: 'renew',
  year: 0,
  costCents: 0,
  hours: 0,
  valueCents: 0,
  ...over,
});
const problem = (units: PortfolioProblem['units'], totalBudgetCents: number): PortfolioProblem => ({
  units,
  totalBudgetCents,
  budgetCentsByYear: [Infinity],
  hoursByYear: [Infinity],
});
const exact = { gap: 0, seconds: 20 };

describe('the solver', () => {
  it('worked by hand: least −x − 2y with x + y ≤ 1.5, whole numbers', () => {
    const result = solveMilp(
      highs,
      {
        numCols: 2,
        numRows: 1,
        colCost: Float64Array.of(-1, -2),
        colLower: new Float64Array(2),
        colUpper: Float64Array.of(1, 1),
        rowLower: Float64Array.of(-Infinity),
        rowUpper: Float64Array.of(1.5),
        matrix: {
          format: 'csr',
          numRows: 1,
          numCols: 2,
          starts: Int32Array.of(0, 2),
          indices: Int32Array.of(0, 1),
          values: Float64Array.of(1, 1),
        },
        integrality: Int32Array.of(1, 1),
      },
      0,
      10,
    );
    expect(result).toMatchObject({ status: 'optimal', objective: -2, bound: -2 });
  });
});

describe('knapsacks', () => {
  it.each(['p07', 'p08'] as const)(
    '%s reaches the published optimum, which ranking by ratio misses',
    (name) => {
      const known = reference.knapsacks[name];
      const units = known.weights.map((costCents, i) => ({
        unitNumber: String(i),
        options: [option({ costCents, valueCents: known.values[i]! })],
      }));
      const result = planPortfolio(problem(units, known.capacity), highs, exact);
      expect(result.valueCents).toBe(known.published);
      expect(known.optimum).toBe(known.published);
      expect(result.gap).toBeLessThan(1e-9);
      expect(result.greedyLossCents).toBe(known.published - known.greedy);
      expect(result.costCents).toBeLessThanOrEqual(known.capacity);
    },
  );
  it.each(Object.entries(reference.budgets.best))(
    'multiple choice at budget %s matches enumeration',
    (budget, best) => {
      const units = reference.budgets.options.map((rows, i) => ({
        unitNumber: String(i),
        options: rows.slice(1).map(([costCents, valueCents]) => option({ costCents, valueCents })),
      }));
      const result = planPortfolio(problem(units, Number(budget)), highs, exact);
      expect(result.valueCents).toBe(best);
      expect(result.boundCents).toBeCloseTo(best, 6);
    },
  );
  it.each(reference.portfolios.map((row, i) => [i, row] as const))(
    'two years of money and hours, case %i, matches enumeration',
    (_, row) => {
      const units = row.options.map((options, i) => ({
        unitNumber: String(i),
        options: options
          .slice(1)
          .map((o) => option({ year: o.year, costCents: o.cost, hours: o.hours, valueCents: o.value })),
      }));
      const result = planPortfolio(
        { units, budgetCentsByYear: row.money, hoursByYear: row.hours, totalBudgetCents: Infinity },
        highs,
        exact,
      );
      expect(result.valueCents).toBe(row.best);
      expect(result.gap).toBeLessThan(1e-9);
    },
  );
});

describe('must and must not', () => {
  const units = [
    {
      unitNumber: 'A',
      options: [
        option({ costCents: 100, valueCents: 500 }),
        option({ action: 'look', costCents: 10, valueCents: 60 }),
      ],
    },
    { unitNumber: 'B', options: [option({ costCents: 100, valueCents: 90 })] },
  ];
  it('worked by hand', () => {
    expect(planPortfolio(problem(units, 110), highs).chosen).toEqual([0, null]);
    const must = [units[0]!, { ...units[1]!, mustDo: true }];
    expect(planPortfolio(problem(must, 110), highs).chosen).toEqual([1, 0]);
    const not = [{ ...units[0]!, mustNot: ['renew'] }, units[1]!];
    expect(planPortfolio(problem(not, 110), highs).chosen).toEqual([1, 0]);
    expect(planPortfolio(problem([{ ...units[0]!, mustNot: true }], 110), highs).chosen).toEqual([null]);
    const look = [{ ...units[0]!, mustDo: 'look' }, units[1]!];
    expect(planPortfolio(problem(look, 500), highs).chosen).toEqual([1, 0]);
  });
  it('keeps what must be done when the money is short, and says so', () => {
    const must = units.map((unit) => ({ ...unit, mustDo: 'renew' }));
    const result = planPortfolio(problem(must, 50), highs);
    expect(result.chosen).toEqual([0, 0]);
    expect(result.overBudgetCents).toBe(150);
    expect(result.notes[0]).toContain('takes more than the limits allow');
    const barred = planPortfolio(problem([{ ...units[1]!, mustDo: true, mustNot: true }], 500), highs);
    expect(barred.chosen).toEqual([null]);
    expect(barred.notes[0]).toContain('nothing that must be done may be done');
  });
  it('finds what must be done where the cheapest ways do not fit together', () => {
    const both = ['A', 'B'].map((unitNumber) => ({
      unitNumber,
      mustDo: true,
      options: [
        option({ year: 0, costCents: 60, hours: 1, valueCents: 5 }),
        option({ year: 1, costCents: 70, hours: 1, valueCents: 4 }),
      ],
    }));
    const years = { budgetCentsByYear: [Infinity, Infinity], totalBudgetCents: Infinity };
    const split = planPortfolio({ units: both, ...years, hoursByYear: [1.5, 1] }, highs, exact);
    expect(split).toMatchObject({ valueCents: 9, overBudgetCents: 0, gap: 0 });
    const tight = planPortfolio({ units: both, ...years, hoursByYear: [1.5, 0.4] }, highs, exact);
    expect(tight.chosen.every((index) => index !== null)).toBe(true);
    expect(tight.notes[0]).toContain('takes more than the limits allow');
  });
  it('does nothing on a budget of 0 and everything worthwhile on an endless one', () => {
    expect(planPortfolio(problem(units, 0), highs)).toMatchObject({
      chosen: [null, null],
      valueCents: 0,
      gap: 0,
    });
    expect(planPortfolio(problem(units, Infinity), highs)).toMatchObject({ chosen: [0, 0], valueCents: 590 });
    expect(planPortfolio(problem([], 5), highs)).toMatchObject({ chosen: [], valueCents: 0, gap: 0 });
    const bad = [{ unitNumber: 'C', options: [option({ costCents: 5, valueCents: -40 })] }];
    expect(planPortfolio(problem(bad, 100), highs).chosen).toEqual([null]);
  });
  it('refuses nonsense', () => {
    expect(() => planPortfolio(problem(units, -1), highs)).toThrow('a limit must be 0 or above, got -1');
    const late = [{ unitNumber: 'C', options: [option({ year: 1 })] }];
    expect(() => planPortfolio(problem(late, 1), highs)).toThrow('year of C must be a year of the plan');
    const odd = [{ unitNumber: 'C', options: [option({ costCents: Number.NaN })] }];
    expect(() => planPortfolio(problem(odd, 1), highs)).toThrow('costCents of C must be 0 or above, got NaN');
    expect(() => planPortfolio({ ...problem([], 1), hoursByYear: [] }, highs)).toThrow(
      '1 to 5 years, got 1 and 0',
    );
  });
});

function randomUnits(seed: number, count: number) {
  const random = seededRandom(seed);
  return Array.from({ length: count }, (_, i) => {
    const risk = 0.02 + 0.3 * random() ** 3;
    const price = 100_000 + Math.round(150_000 * random());
    const failure = 400_000 + 800_000 * random();
    return {
      unitNumber: String(i),
      options: [0, 1, 2].flatMap((year) => [
        option({
          year,
          costCents: price,
          hours: 9,
          valueCents: Math.round(failure * risk * (3 - year) * 0.95 - price),
        }),
        option({
          action: 'look',
          year,
          costCents: 20_000,
          hours: 2,
          valueCents: Math.round(failure * risk * (3 - year) * 0.3 - 20_000),
        }),
      ]),
    };
  });
}

describe('larger fleets', () => {
  it('proves a gap of 0.1 % under three years of money and hours', () => {
    const units = randomUnits(5, 300);
    const result = planPortfolio(
      { units, budgetCentsByYear: [2e6, 2e6, 2e6], hoursByYear: [150, 120, 120], totalBudgetCents: Infinity },
      highs,
      { gap: 0.001, seconds: 20 },
    );
    expect(result.gap).toBeLessThanOrEqual(0.001);
    expect(result.valueCents).toBeLessThanOrEqual(result.boundCents);
    result.costCentsByYear.forEach((cents) => expect(cents).toBeLessThanOrEqual(2e6));
    result.hoursByYear.forEach((hours, y) => expect(hours).toBeLessThanOrEqual([150, 120, 120][y]!));
    expect(result.greedyLossCents).toBeGreaterThan(0);
  });
  it('never loses value on the frontier, and prices the next thousand', () => {
    const free = [Infinity, Infinity, Infinity];
    const base = { ...problem(randomUnits(6, 60), 0), budgetCentsByYear: free, hoursByYear: free };
    const points = efficientFrontier(base, highs, [4e6, 0, 1e6, 2e6, 1e8], exact);
    expect(points.map((point) => point.budgetCents)).toEqual([0, 1e6, 2e6, 4e6, 1e8]);
    for (let i = 1; i < points.length; i++)
      expect(points[i]!.result.valueCents).toBeGreaterThanOrEqual(points[i - 1]!.result.valueCents);
    const at = { ...base, totalBudgetCents: 1e6 };
    const margin = marginalValue(at, highs, points[1]!.result, 100_000, exact);
    expect(margin.basis).toBe('exact');
    expect(margin.nextCents).toBeGreaterThan(0);
    const above = planPortfolio({ ...base, totalBudgetCents: 1.1e6 }, highs, exact).valueCents;
    expect(margin.nextCents).toBe(above - points[1]!.result.valueCents);
    const rough = marginalValue(at, highs, { ...points[1]!.result, gap: 0.01 }, 100_000, exact);
    expect(rough.basis).toBe('price');
    expect(rough.nextCents).toBeGreaterThan(0);
    expect(() => marginalValue(at, highs, points[1]!.result, 0, exact)).toThrow('stepCents must be above 0');
  });
});

/** Best value by trying every choice. */
function enumerate(units: readonly PortfolioOption[][], budget: number): number {
  const [first, ...rest] = units;
  if (!first) return 0;
  let best = enumerate(rest, budget);
  for (const entry of first)
    if (entry.costCents <= budget)
      best = Math.max(best, entry.valueCents + enumerate(rest, budget - entry.costCents));
  return best;
}

describe('against enumeration', () => {
  it('is best on any small case', () => {
    const entry = fc.record({
      costCents: fc.integer({ min: 0, max: 90 }),
      valueCents: fc.integer({ min: -40, max: 300 }),
    });
    const fleet = fc.array(fc.array(entry, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(fleet, fc.integer({ min: 0, max: 400 }), (rows, budget) => {
        const options = rows.map((row) => row.map(option));
        const units = options.map((row, i) => ({ unitNumber: String(i), options: row }));
        const result = planPortfolio(problem(units, budget), highs, exact);
        expect(result.valueCents).toBe(enumerate(options, budget));
        expect(result.costCents).toBeLessThanOrEqual(budget);
      }),
      { seed: 31, numRuns: 150 },
    );
  });
});
