import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assetReplacement } from '../../../models/decisions/assetReplacement.ts';
import { bestBlockInterval, expectedRenewals } from '../../../models/decisions/blockReplacement.ts';
import { bestInspectionInterval, type DelayTimeInputs } from '../../../models/decisions/delayTime.ts';
import { economicLife, equivalentAnnualCost, presentValue } from '../../../models/decisions/economicLife.ts';
import { runOrRenew } from '../../../models/decisions/finiteHorizon.ts';
import { weibullLife } from '../../../models/decisions/lifetime.ts';
import { bestMinimalRepairAge } from '../../../models/decisions/minimalRepair.ts';
import { reference, relativeDifference } from './reference.ts';

const { published } = reference;

describe('minimal repair', () => {
  it('worked by hand: shape 2, scale 10, costs 4 and 1 → age 20 at 0.4', () => {
    expect(bestMinimalRepairAge(2, 10, 4, 1)).toEqual({ age: 20, centsPerUnit: 0.4, notes: [] });
  });
  it('matches the closed form printed for 2.5, 1000, 1, 5', () => {
    const best = bestMinimalRepairAge(2.5, 1000, 1, 5);
    expect(best.age).toBeCloseTo(published.minimalRepair.age, 9);
    expect(best.centsPerUnit).toBeCloseTo(published.minimalRepair.rate, 15);
  });
  it('never renews when repairs do not grow, and refuses nonsense', () => {
    expect(bestMinimalRepairAge(1, 10, 4, 1)).toMatchObject({ age: null, centsPerUnit: 0.1 });
    expect(bestMinimalRepairAge(0.5, 10, 4, 1)).toMatchObject({ age: null, centsPerUnit: null });
    expect(bestMinimalRepairAge(2, 10, 4, 0)).toMatchObject({ age: null, centsPerUnit: 0 });
    expect(() => bestMinimalRepairAge(0, 10, 4, 1)).toThrow('shape must be above 0, got 0');
  });
});

describe('renewal function and block replacement', () => {
  it('an exponential life renews at a steady rate', () => {
    expect(expectedRenewals(weibullLife(1, 1), 3, 1500)[1500]).toBeCloseTo(3, 5);
  });
  it.each(Object.entries(reference.renewals))(
    'matches another discretisation for shape %s',
    (shape, values) => {
      for (const [upTo, expected] of Object.entries(values))
        expect(expectedRenewals(weibullLife(Number(shape), 1), Number(upTo), 1500).at(-1)).toBeCloseTo(
          expected,
          6,
        );
    },
  );
  it('matches the block golden value and the hydraulic seals', () => {
    const best = bestBlockInterval(weibullLife(2.5, 1000), 1, 5, 3000);
    expect(Math.abs(best.every! - published.block.every)).toBeLessThan(0.5);
    expect(relativeDifference(best.centsPerUnit, published.block.rate)).toBeLessThan(1e-6);
    const seals = published.hydraulicSeals;
    const block = bestBlockInterval(weibullLife(seals.shape, seals.scaleHours), 1, seals.failureOverPlanned);
    expect(block.every! / seals.scaleHours).toBeCloseTo(seals.blockShare, 2);
    expect(block.costShare).toBeCloseTo(seals.blockCostShare, 2);
  });
  it('runs to failure when nothing is gained and refuses nonsense', () => {
    expect(bestBlockInterval(weibullLife(1, 10), 1, 5)).toMatchObject({ every: null, costShare: 1 });
    expect(bestBlockInterval(weibullLife(3, 10), 5, 1).every).toBeNull();
    expect(() => expectedRenewals(weibullLife(2, 1), 0, 10)).toThrow('upTo must be above 0, got 0');
    expect(() => expectedRenewals(weibullLife(2, 1), 1, 1.5)).toThrow(
      'steps must be a whole number from 1, got 1.5',
    );
  });
  it('rises with time and stays between F and F/(1 − F)', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.6, max: 5, noNaN: true }), (shape) => {
        const life = weibullLife(shape, 1);
        const renewals = expectedRenewals(life, 1.5, 300);
        for (let i = 1; i <= 300; i++) {
          const failed = 1 - life.survival(i * 0.005);
          expect(renewals[i]!).toBeGreaterThanOrEqual(renewals[i - 1]! - 1e-12);
          expect(renewals[i]!).toBeGreaterThan(failed - 1e-3);
          expect(renewals[i]!).toBeLessThan(failed / (1 - failed) + 1e-3);
        }
      }),
      { seed: 13, numRuns: 25 },
    );
  });
});

describe('delay-time inspection', () => {
  const { k, mu, inspection, repair, failure } = published.delayTime;
  const inputs: DelayTimeInputs = {
    defectsPerUnit: k,
    failureRateOfDefect: mu,
    inspectionCents: inspection,
    repairCents: repair,
    failureCents: failure,
  };
  it('matches the worked case', () => {
    const best = bestInspectionInterval(inputs);
    expect(best.every!.toFixed(6)).toBe('1.202141');
    expect(best.centsPerUnit.toFixed(6)).toBe('116.277243');
    expect(best.failuresPerUnit).toBeCloseTo(0.010902428, 8);
    expect(best.runToFailureCentsPerUnit).toBeCloseTo(published.delayTime.without, 12);
  });
  it('does not inspect when it can not pay, and refuses nonsense', () => {
    expect(bestInspectionInterval({ ...inputs, inspectionCents: 1e6 })).toMatchObject({
      every: null,
      centsPerUnit: k * failure,
    });
    expect(bestInspectionInterval({ ...inputs, repairCents: 9e6 }).every).toBeNull();
    expect(() => bestInspectionInterval({ ...inputs, defectsPerUnit: 0 })).toThrow(
      'defectsPerUnit must be above 0',
    );
    expect(() => bestInspectionInterval({ ...inputs, failureCents: -1 })).toThrow(
      'failureCents must be 0 or above',
    );
  });
  it('never costs more than not inspecting', () => {
    const positive = fc.double({ min: 0.01, max: 1000, noNaN: true });
    fc.assert(
      fc.property(positive, positive, positive, positive, positive, (a, b, c, d, e) => {
        const best = bestInspectionInterval({
          defectsPerUnit: a,
          failureRateOfDefect: b,
          inspectionCents: c,
          repairCents: d,
          failureCents: e,
        });
        expect(best.centsPerUnit).toBeLessThanOrEqual(best.runToFailureCentsPerUnit * (1 + 1e-9));
      }),
      { seed: 14 },
    );
  });
});

describe('asset replacement', () => {
  const known = reference.assetReplacement;
  it('matches Miranda & Fackler 7.6.2 to the printed digits', () => {
    const policy = assetReplacement(known.profitByAge, known.replacement, known.factor);
    policy.valueCents.forEach((value, i) => expect(value.toFixed(8)).toBe(known.published[i]!.toFixed(8)));
    expect(policy.replace.map(Number)).toEqual(known.publishedReplace);
    policy.valueCents.forEach((value, i) => expect(value).toBeCloseTo(known.value[i]!, 8));
  });
  it('takes a factor of 1 as 0.9999 with words, and refuses nonsense', () => {
    expect(assetReplacement([50, 40], 10, 1).notes).toHaveLength(1);
    expect(() => assetReplacement([50], 10, 0.9)).toThrow('2 ages or more, got 1');
    expect(() => assetReplacement([50, Number.NaN], 10, 0.9)).toThrow('must be numbers, got NaN');
    expect(() => assetReplacement([50, 40], 10, -0.1)).toThrow('discountFactor must be 0 or above, got -0.1');
  });
});

describe('economic life', () => {
  it('worked by hand: a 100 asset kept two years at 0 %', () => {
    const life = economicLife(100, [10, 30], [40, 20], 0);
    expect(life.annualCentsByYears).toEqual([70, 60]);
    expect(life.bestYears).toBe(2);
  });
  it('matches machines A and B and a worked table', () => {
    for (const machine of [published.machines.A, published.machines.B]) {
      const present = presentValue(machine.cash, 0.06);
      expect(present.toFixed(2)).toBe(machine.present.toFixed(2));
      expect(equivalentAnnualCost(present, 0.06, machine.cash.length - 1).toFixed(2)).toBe(
        machine.annual.toFixed(2),
      );
    }
    expect(presentValue([-1000, 300, 400, 500, 200], 0.1)).toBeCloseTo(115.56587664776981, 10);
    const table = published.economicLife;
    const life = economicLife(table.price, table.running, table.resale, table.rate);
    life.annualCentsByYears.forEach((value, i) => expect(value).toBeCloseTo(table.annual[i]!, 5));
    expect(life.bestYears).toBe(5);
  });
  it('takes a rate below 0 as 0 and refuses nonsense', () => {
    expect(economicLife(100, [10], [40], -0.5)).toMatchObject({ annualCentsByYears: [70] });
    expect(economicLife(100, [10], [40], -0.5).notes).toHaveLength(1);
    expect(() => economicLife(100, [], [], 0)).toThrow('of one length from 1, got 0 and 0');
    expect(() => economicLife(-1, [1], [1], 0)).toThrow('priceCents must be 0 or above, got -1');
    expect(() => presentValue([1], -1)).toThrow('ratePerYear must be above -1, got -1');
    expect(() => equivalentAnnualCost(1, 0.1, 0)).toThrow('years must be 1 or above, got 0');
  });
});

describe('run or renew before disposal', () => {
  it.each(Object.entries(reference.runOrRenew))('matches brute force at age %s', (age, expected) => {
    const result = runOrRenew(weibullLife(3, 260), Number(age), 60, 1200, 9000, (0.05 * 2) / 60);
    expect(result.chanceFails).toBeCloseTo(expected.chance, 10);
    expect(result.runCents).toBeCloseTo(expected.run, 6);
    expect(result.renewCents).toBeCloseTo(expected.renew, 6);
    expect(result.savingCents).toBeCloseTo(expected.saving, 6);
  });
  it('leaves units alone that are gone or nearly gone, with words', () => {
    const gone = runOrRenew(weibullLife(3, 260), 200, -5, 1200, 9000, 0.001);
    expect(gone).toMatchObject({ chanceFails: 0, runCents: 0, savingCents: -1200 });
    expect(gone.notes).toEqual(['the disposal date has passed: nothing is left to gain']);
    expect(runOrRenew(weibullLife(3, 260), 200, 1, 1200, 9000, 0).savingCents).toBeLessThan(0);
    const odd = runOrRenew(weibullLife(3, 260), 200, 60, 9000, 1200, -0.1);
    expect(odd.notes).toHaveLength(2);
    expect(() => runOrRenew(weibullLife(3, 260), -1, 60, 1200, 9000, 0)).toThrow(
      'age must be 0 or above, got -1',
    );
  });
  it('an older part of a wearing kind always gains more from renewal', () => {
    const age = fc.double({ min: 0, max: 600, noNaN: true });
    fc.assert(
      fc.property(age, age, (a, b) => {
        const saving = (x: number) => runOrRenew(weibullLife(2.5, 300), x, 80, 1000, 9000, 0.001).savingCents;
        expect(saving(Math.max(a, b))).toBeGreaterThanOrEqual(saving(Math.min(a, b)) - 1e-6);
      }),
      { seed: 15 },
    );
  });
});
