import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normalDraws, seededRandom } from '../../../models/numeric/random.ts';
import { rangeOf, sortedQuantile, wholeCents } from '../../../models/decisions/range.ts';
import { riskOf, wholeHazard, wholeRenewedHazard, type RiskDraws } from '../../../models/decisions/risk.ts';
import { simulateFleet } from '../../../models/decisions/simulation.ts';
import { planOutlook } from '../../../models/decisions/simulationSummary.ts';
import type { SimulatedUnit, SimulationInputs } from '../../../models/decisions/simulationTypes.ts';
import { reference } from './reference.ts';

const wear = (shape: number, scale: number, age: number, use: number): RiskDraws => ({
  kind: 'wear',
  parts: [{ shape: [shape], scale: [scale], age: [age] }],
  usePerMonth: [use],
});
const unit = (draws: RiskDraws, over: Partial<SimulatedUnit> = {}): SimulatedUnit => ({
  risk: riskOf(draws),
  months: 12,
  failureCents: 5200,
  coveredMonths: 0,
  coveredCents: 0,
  ...over,
});
const run = (units: readonly SimulatedUnit[], over: Partial<SimulationInputs> = {}) =>
  simulateFleet({
    units,
    plans: [[]],
    months: 12,
    judgedMonths: 12,
    draws: 4000,
    monthlyRate: 0,
    failureLogSd: 0,
    plannedLogSd: 0,
    useLogSd: 0,
    random: seededRandom(42),
    ...over,
  });
const mean = (values: ArrayLike<number>) => Array.from(values).reduce((a, b) => a + b, 0) / values.length;
const variance = (values: ArrayLike<number>) => {
  const centre = mean(values);
  return mean(Array.from(values, (x) => (x - centre) ** 2));
};

describe('random numbers', () => {
  it('repeat with the seed and spread evenly', () => {
    const [a, b] = [seededRandom(7), seededRandom(7)];
    const draws = Array.from({ length: 20000 }, () => a());
    expect(draws.slice(0, 5)).toEqual([b(), b(), b(), b(), b()]);
    expect(draws.every((x) => x >= 0 && x < 1)).toBe(true);
    expect(mean(draws)).toBeCloseTo(0.5, 2);
    expect(variance(draws)).toBeCloseTo(1 / 12, 2);
    expect(seededRandom(8)()).not.toBe(draws[0]);
    expect(() => seededRandom(0.5)).toThrow('seed must be a whole number, got 0.5');
  });
  it('give normal numbers with mean 0, variance 1 and the right tails', () => {
    const normal = normalDraws(seededRandom(3));
    const draws = Array.from({ length: 40000 }, () => normal());
    expect(Math.abs(mean(draws))).toBeLessThan(0.02);
    expect(Math.abs(variance(draws) - 1)).toBeLessThan(0.03);
    expect(draws.filter((z) => z > 1.2815515655).length / 40000).toBeCloseTo(0.1, 2);
  });
});

describe('ranges', () => {
  it('worked by hand', () => {
    expect(rangeOf([3, 1, 2])).toEqual({ low: 1.2, mid: 2, high: 2.8 });
    expect(sortedQuantile([0, 10], 0.25)).toBe(2.5);
    expect(rangeOf([0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1200])).toMatchObject({ low: 0, high: 100 });
    expect(wholeCents({ low: 1.4, mid: 1.5, high: 2.6 })).toEqual({ low: 1, mid: 2, high: 3 });
    expect(() => sortedQuantile([], 0.5)).toThrow('at least one value');
  });
});

describe('risk', () => {
  it('worked by hand: Weibull 2, 100, age 30, 5 a month', () => {
    const risk = riskOf(wear(2, 100, 30, 5));
    expect(risk.hazard(0, 0, 4)).toBeCloseTo(0.25 - 0.09, 12);
    expect(risk.monthsTo(0, 0, 0.16)).toBeCloseTo(4, 10);
    expect(risk.renewedHazard(0, 0, 4)).toBeCloseTo(0.04, 12);
    expect(risk.renewedMonthsTo(0, 0, 0.04)).toBeCloseTo(4, 10);
    expect(riskOf(wear(2, 100, 30, 0)).monthsTo(0, 0, 0.1)).toBe(Infinity);
    expect(riskOf(wear(2, 100, 30, 5), { life: 2, shape: 1 }).hazard(0, 0, 4)).toBeCloseTo(0.04, 12);
  });
  it('worked by hand: monthly chances add as hazards, and the last goes on', () => {
    const risk = riskOf({ kind: 'monthly', chance: [[0.1, 0.2]], renewedChance: null });
    expect(Math.exp(-risk.hazard(0, 0, 2))).toBeCloseTo(0.72, 12);
    expect(Math.exp(-risk.hazard(0, 0, 3))).toBeCloseTo(0.576, 12);
    expect(risk.monthsTo(0, 0, risk.hazard(0, 0, 1.5))).toBeCloseTo(1.5, 12);
    expect(risk.renewedHazard(0, 0, 9)).toBe(0);
    expect(risk.renewedMonthsTo(0, 0, 0.1)).toBe(Infinity);
    const sure = riskOf({ kind: 'monthly', chance: [[1]], renewedChance: [[0]] });
    expect(Number.isFinite(sure.hazard(0, 0, 1))).toBe(true);
    expect(sure.renewedMonthsTo(0, 0, 0.1)).toBe(Infinity);
  });
  it('adds the hazards of several parts', () => {
    const part = { shape: [2], scale: [100], age: [30] };
    const risk = riskOf({ kind: 'wear', parts: [part, part], usePerMonth: [5] });
    expect(wholeHazard(risk, 0, 4)).toBeCloseTo(0.32, 12);
    expect(wholeRenewedHazard(risk, 0, 4)).toBeCloseTo(0.08, 12);
  });
  it('refuses impossible draws', () => {
    expect(() => riskOf(wear(0, 1, 1, 1))).toThrow('shape is out of range in draw 0, got 0');
    expect(() => riskOf(wear(2, 1, -1, 1))).toThrow('age is out of range in draw 0, got -1');
    expect(() => riskOf(wear(2, 1, 1, Number.NaN))).toThrow('usePerMonth is out of range');
    expect(() => riskOf({ kind: 'wear', parts: [], usePerMonth: [1] })).toThrow(
      'at least one draw and one part',
    );
    expect(() => riskOf({ kind: 'monthly', chance: [[1.2]], renewedChance: null })).toThrow(
      'chance is out of range',
    );
    expect(() => riskOf({ kind: 'monthly', chance: [[]], renewedChance: null })).toThrow(
      'at least one month',
    );
    expect(() => riskOf({ kind: 'monthly', chance: [], renewedChance: null })).toThrow('at least one draw');
    const uneven = {
      kind: 'wear',
      parts: [{ shape: [1, 2], scale: [1], age: [1] }],
      usePerMonth: [1],
    } as const;
    expect(() => riskOf(uneven)).toThrow('shape must have 1 draws, got 2');
  });
});

describe('simulation of a fleet', () => {
  const known = reference.countDistribution;
  const fleet = known.p.map((p) =>
    unit({ kind: 'monthly', chance: [[p]], renewedChance: null }, { months: 1 }),
  );
  it('matches the exact count distribution when nothing is shared', () => {
    const { base } = run(fleet, { draws: 40000, months: 1, judgedMonths: 1 });
    expect(mean(base.failures)).toBeCloseTo(known.mean, 1);
    expect(Math.abs(variance(base.failures) - known.variance)).toBeLessThan(0.04);
    for (let k = 0; k <= 5; k++)
      expect(base.failures.filter((count) => count === k).length / 40000).toBeCloseTo(known.pmf[k]!, 2);
    const sorted = base.failures.toSorted();
    expect([0.5, 0.8, 0.9, 0.95].map((share) => Math.round(sortedQuantile(sorted, share)))).toEqual(known.q);
    expect(mean(sorted.slice(36000))).toBeCloseTo(known.meanOfWorstTenth, 1);
  });
  it('has mean and variance of the compound cost', () => {
    const logSd = Math.sqrt(Math.log1p((known.cost.sd / known.cost.each) ** 2));
    const { base } = run(fleet, { draws: 60000, months: 1, judgedMonths: 1, failureLogSd: logSd });
    expect(Math.abs(mean(base.unplanned) / known.cost.mean - 1)).toBeLessThan(0.02);
    expect(Math.abs(variance(base.unplanned) / known.cost.variance - 1)).toBeLessThan(0.04);
  });
  it('widens when parameters are shared: variance = mean of variances + variance of means', () => {
    const chance = [[0.05], [0.35]];
    const units = Array.from({ length: 20 }, () =>
      unit({ kind: 'monthly', chance, renewedChance: null }, { months: 1 }),
    );
    const { base } = run(units, { draws: 40000, months: 1, judgedMonths: 1 });
    const within = (20 * (0.05 * 0.95 + 0.35 * 0.65)) / 2;
    const between = ((7 - 1) / 2) ** 2;
    expect(Math.abs(variance(base.failures) / (within + between) - 1)).toBeLessThan(0.03);
  });
  it('puts failures into the right month and leaves out what comes after disposal', () => {
    const chance = [[0.1, 0.2, 0.3]];
    const units = Array.from({ length: 50 }, () =>
      unit({ kind: 'monthly', chance, renewedChance: null }, { months: 2 }),
    );
    const { base } = run(units, { months: 3, judgedMonths: 3 });
    const month = (m: number) =>
      mean(Array.from({ length: 4000 }, (_, d) => base.unplannedByMonth[d * 3 + m]!));
    expect(month(0) / (50 * 0.1 * 5200)).toBeCloseTo(1, 1);
    expect(month(1) / (50 * 0.18 * 5200)).toBeCloseTo(1, 1);
    expect(month(2)).toBe(0);
  });
  it('matches the exact chance of a worn unit with uncertain use left out', () => {
    const units = Array.from({ length: 40 }, () => unit(wear(2.5, 200, 120, 6)));
    const { base } = run(units, { draws: 6000 });
    const exact = 1 - Math.exp((120 / 200) ** 2.5 - (192 / 200) ** 2.5);
    expect(mean(base.failures) / 40).toBeCloseTo(exact, 2);
  });
  it('counts only what is left to pay while covered', () => {
    const certain = unit(
      { kind: 'monthly', chance: [[1]], renewedChance: null },
      { coveredMonths: 12, coveredCents: 70 },
    );
    expect(mean(run([certain], { draws: 50 }).base.unplanned)).toBe(70);
  });
  it('compares plans under the same draws', () => {
    const units = Array.from({ length: 30 }, () => unit(wear(3, 200, 180, 4)));
    const plan = units.map((_, index) => ({
      unit: index,
      month: 0,
      cents: 900,
      otherCents: 100,
      effect: 'renew' as const,
    }));
    const idle = units.map((_, index) => ({ unit: index, month: 0, cents: 0, otherCents: 0, effect: 1 }));
    const half = units.map((_, index) => ({ unit: index, month: 0, cents: 0, otherCents: 0, effect: 0.5 }));
    const { base, plans } = run(units, { plans: [plan, idle, half, []] });
    plans[0]!.failures.forEach((count, d) => expect(count).toBeLessThanOrEqual(base.failures[d]!));
    expect(mean(plans[0]!.planned)).toBe(27000);
    expect([...plans[1]!.failures]).toEqual([...base.failures]);
    expect([...plans[3]!.balance]).toEqual([...base.balance]);
    const exact = 1 - Math.exp(-0.5 * ((228 / 200) ** 3 - 0.9 ** 3));
    expect(mean(plans[2]!.failures) / 30).toBeCloseTo(exact, 2);
    const outlook = planOutlook(base, plans[0]!);
    expect(outlook.failuresAvoided.mid).toBeGreaterThan(5);
    expect(outlook.chanceOfLoss).toBeLessThan(0.5);
    expect(planOutlook(base, plans[1]!)).toMatchObject({
      chanceOfLoss: 0,
      failuresAvoided: { low: 0, mid: 0, high: 0 },
    });
  });
  it('does not pay for a renewal of a unit that failed before its date', () => {
    const certain = unit({ kind: 'monthly', chance: [[1]], renewedChance: null });
    const plan = [{ unit: 0, month: 6, cents: 900, otherCents: 0, effect: 'renew' as const }];
    const { plans } = run([certain], { plans: [plan], draws: 20 });
    expect(mean(plans[0]!.planned)).toBe(0);
    expect(mean(plans[0]!.failures)).toBe(1);
  });
  it('refuses nonsense', () => {
    expect(() => run([], { draws: 0 })).toThrow('draws must be a whole number from 1, got 0');
    const { base } = run([], { draws: 5 });
    expect(() => planOutlook(base, run([], { draws: 6 }).base)).toThrow('same draws, got 5 and 6');
  });
  it('never gives NaN, whatever the fleet', () => {
    const any = fc.record({
      shape: fc.double({ min: 0.3, max: 8, noNaN: true }),
      age: fc.double({ min: 0, max: 900, noNaN: true }),
      use: fc.double({ min: 0, max: 60, noNaN: true }),
      month: fc.integer({ min: 0, max: 14 }),
      effect: fc.oneof(fc.constant('renew' as const), fc.double({ min: 0, max: 1, noNaN: true })),
    });
    fc.assert(
      fc.property(fc.array(any, { maxLength: 5 }), (rows) => {
        const units = rows.map((row) => unit(wear(row.shape, 200, row.age, row.use)));
        const plan = rows.map((row, index) => ({
          unit: index,
          month: row.month,
          cents: 10,
          otherCents: 1,
          effect: row.effect,
        }));
        const { base, plans } = run(units, { plans: [plan], draws: 40, useLogSd: 0.3, failureLogSd: 0.4 });
        const outlook = planOutlook(base, plans[0]!);
        for (const value of Object.values(outlook.savingCents)) expect(Number.isFinite(value)).toBe(true);
        expect(outlook.failures.low).toBeLessThanOrEqual(outlook.failures.high);
        expect(outlook.chanceOfLoss).toBeLessThanOrEqual(1);
      }),
      { seed: 41, numRuns: 60 },
    );
  });
});

describe('a look in the simulation', () => {
  // worked by hand: half the units are worn and fail with chance .8, half are sound and fail with .2; a sure look for 10
  // renews the worn ones for 100 more. Cost 10 + .5·100 = 60; failures fall from .5 to .5·0 + .5·.2 = .1.
  const findings = {
    prior: [0, 0.5, 0.5],
    failsIfRun: [0.5, 0.8, 0.2],
    firstIfState: [0, 1, 0],
    outcomes: [
      { action: 'renew' as const, cents: 110, otherCents: 0, fails: [0, 0, 0] },
      { action: 'run' as const, cents: 10, otherCents: 0, fails: [0.5, 0.8, 0.2] },
    ],
  };
  const risk = riskOf({ kind: 'monthly', chance: [[0.5]], renewedChance: null });
  const inputs = (plans: SimulationInputs['plans']): SimulationInputs => ({
    units: [{ risk, months: 1, failureCents: 1000, coveredMonths: 0, coveredCents: 0 }],
    plans,
    months: 1,
    judgedMonths: 1,
    draws: 20_000,
    monthlyRate: 0,
    failureLogSd: 0,
    plannedLogSd: 0,
    useLogSd: 0,
    random: seededRandom(8),
  });
  const look = { unit: 0, month: 0, cents: 60, otherCents: 0, effect: 0.2, findings };
  const mean = (values: ArrayLike<number>) =>
    Array.from(values).reduce((sum, value) => sum + value, 0) / values.length;
  it('costs what it finds and avoids what it was judged by', () => {
    const { base, plans } = simulateFleet(inputs([[look]]));
    expect(mean(base.failures)).toBeCloseTo(0.5, 1.7);
    expect(mean(plans[0]!.failures)).toBeCloseTo(0.1, 1.7);
    expect(mean(plans[0]!.planned) / 60).toBeCloseTo(1, 1.5);
    expect(new Set(plans[0]!.planned)).toEqual(new Set([10, 110]));
    // a failure that is left is one that the look saw as sound
    plans[0]!.failures.forEach((count, draw) => {
      if (count > 0) expect([base.failures[draw], plans[0]!.planned[draw]]).toEqual([1, 10]);
    });
  });
  it('keeps off part of the failures where it leads to cleaning', () => {
    const cleaned = { ...findings.outcomes[1]!, action: 'clean' as const, fails: [0.5, 0.8, 0.05] };
    const { plans } = simulateFleet(
      inputs([[{ ...look, findings: { ...findings, outcomes: [findings.outcomes[0]!, cleaned] } }]]),
    );
    expect(mean(plans[0]!.failures)).toBeCloseTo(0.025, 2);
  });
  it('leaves what happens without any plan as it is, whatever is planned beside it', () => {
    const bare = simulateFleet(inputs([]));
    const beside = simulateFleet(
      inputs([[look], [{ unit: 0, month: 0, cents: 60, otherCents: 0, effect: 'renew' }]]),
    );
    expect([...beside.base.failures]).toEqual([...bare.base.failures]);
    expect([...beside.base.unplanned]).toEqual([...bare.base.unplanned]);
    // the same plan twice is the same twice
    const twice = simulateFleet(inputs([[look], [look]]));
    expect([...twice.plans[0]!.balance]).toEqual([...twice.plans[1]!.balance]);
  });
});
