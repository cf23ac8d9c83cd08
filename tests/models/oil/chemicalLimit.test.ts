import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chemicalLimit } from '../../../models/oil/chemicalLimit.ts';
import { oilCondition, partOfExposure } from '../../../models/oil/condition.ts';
import type { Exposure, OilEngine, OilFill } from '../../../models/oil/exposure.ts';
import { unitRates } from '../../../models/oil/exposure.ts';
import { limitReach, oilLimits } from '../../../models/oil/limitReach.ts';
import { coefficients } from './catalog.ts';
import { checkCase, checkCases } from './checkCases.ts';
import { anyCharge } from './generators.ts';

const limit = (exposure: Exposure, engine: OilEngine, fill: OilFill) =>
  chemicalLimit(exposure, engine, fill, unitRates, coefficients);

describe('the column of chemical limits (values computed by the stepped calculation, rounded to 100 km)', () => {
  for (const check of checkCases)
    it(`${check.name}: ${check.limit.join(', ')}`, () => {
      const found = limit(check.exposure, check.engine, check.fill);
      // The printed values round dispersancy to two decimals before comparing with 1: up to 0.5 % short.
      expect(Math.abs(found.distanceKm! - check.limit[0])).toBeLessThanOrEqual(50 + 0.006 * check.limit[0]);
      expect(Math.abs(found.engineHours! - check.limit[1])).toBeLessThanOrEqual(1 + 0.006 * check.limit[1]);
      expect(found.governing).toBe(check.limit[2]);
    });
});

describe('what moves the chemical limit (values computed by the stepped calculation)', () => {
  const rows: readonly (readonly [string, readonly [number, number, number, number, number]])[] = [
    ['B', [8998, 7829, 6174, 18316, 6749]],
    ['D', [3509, 3164, 2970, 7445, 2634]],
    ['A', [13984, 13873, 13984, 27969, 13984]],
  ];
  for (const [letter, [base, idle, cold, sump, older]] of rows) {
    const check = checkCase(letter);
    const near = (name: string, value: number, exposure: Exposure, engine: OilEngine, fill: OilFill) =>
      it(`${check.name}, ${name}: ${value} km`, () => {
        const found = limit(exposure, engine, fill).distanceKm!;
        expect(Math.abs(found / value - 1)).toBeLessThanOrEqual(0.007);
      });
    const { exposure, engine, fill } = check;
    near('base', base, exposure, engine, fill);
    near('twice the idling', idle, { ...exposure, idleHours: 2 * exposure.idleHours }, engine, fill);
    near('15 °C colder', cold, { ...exposure, ambientC: exposure.ambientC - 15 }, engine, fill);
    near('twice the sump', sump, exposure, { ...engine, sumpLiters: 2 * engine.sumpLiters }, fill);
    near('older oil', older, exposure, engine, { ...fill, dispersancyFactor: 0.75 });
  }
});

describe('each limit', () => {
  it('is where the condition model puts it', () => {
    fc.assert(
      fc.property(anyCharge, ({ exposure, engine, fill, rates }) => {
        const reach = limitReach(exposure, engine, fill, rates, coefficients);
        const limits = oilLimits(fill, engine.fuelSystem, coefficients);
        const at = (times: number) =>
          oilCondition(partOfExposure(exposure, times), engine, fill, rates, coefficients).state;
        const check = (times: number, value: (s: ReturnType<typeof at>) => number, target: number) => {
          if (Number.isFinite(times) && times > 0)
            expect(Math.abs(value(at(times)) - target)).toBeLessThan(1e-4 * Math.max(1, target));
        };
        check(reach.times.base_number, (s) => s.baseNumber, limits.baseNumber);
        check(reach.times.additive, (s) => s.additiveShare, limits.additiveShare);
        check(reach.times.oxidation, (s) => s.oxidation, limits.oxidation);
        check(reach.times.soot, (s) => s.sootPercent, limits.sootPercent);
        check(reach.times.dispersancy, (s) => s.dispersancyUsed, 1);
        check(reach.times.fuel, (s) => s.fuelPercent, limits.fuelPercent);
        check(reach.times.acid_number, (s) => s.acidNumber - s.baseNumber, 0);
      }),
      { numRuns: 200, seed: 31, endOnFailure: true },
    );
  });

  it('from a state part-way is what is left of the whole', () => {
    fc.assert(
      fc.property(anyCharge, ({ exposure, engine, fill, rates }) => {
        const whole = limitReach(exposure, engine, fill, rates, coefficients).times;
        const share = 0.4 * Math.min(whole.base_number, whole.dispersancy, whole.oxidation, whole.additive);
        const { state } = oilCondition(partOfExposure(exposure, share), engine, fill, rates, coefficients);
        const left = limitReach(exposure, engine, fill, rates, coefficients, state).times;
        for (const name of ['base_number', 'dispersancy', 'oxidation', 'additive', 'acid_number'] as const)
          if (Number.isFinite(whole[name]))
            expect(Math.abs((left[name] + share) / Math.max(share, whole[name]) - 1)).toBeLessThan(1e-5);
      }),
      { numRuns: 100, seed: 32, endOnFailure: true },
    );
  });
});
