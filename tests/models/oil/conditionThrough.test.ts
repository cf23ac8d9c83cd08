import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { oilCondition, partOfExposure } from '../../../models/oil/condition.ts';
import { carriedOver, conditionThrough } from '../../../models/oil/conditionThrough.ts';
import { unitRates } from '../../../models/oil/exposure.ts';
import { mixedFill } from '../../../models/oil/mixedFill.ts';
import { coefficients } from './catalog.ts';
import { checkCase } from './checkCases.ts';
import { anyCharge } from './generators.ts';

const { exposure, engine, fill } = checkCase('B');
const half = partOfExposure(exposure, 0.5);
const through = (liters: number, segments = 2) =>
  conditionThrough(
    Array.from({ length: segments }, (_, i) => ({
      exposure: half,
      topUpLitersAfter: i < segments - 1 ? liters : 0,
    })),
    engine,
    fill,
    unitRates,
    coefficients,
  );

describe('conditionThrough', () => {
  it('without events is the charge in one piece', () => {
    const whole = oilCondition(exposure, engine, fill, unitRates, coefficients);
    const course = through(0);
    expect(course.state.baseNumber).toBeCloseTo(whole.state.baseNumber, 9);
    expect(course.state.dispersancyUsed).toBeCloseTo(whole.state.dispersancyUsed, 9);
    expect(course.wear.sludge).toBeCloseTo(whole.wear.sludge, 9);
    expect(course.wear.chainPercent / whole.wear.chainPercent).toBeCloseTo(1, 3);
    expect(course.wear.wearMultiplier).toBeCloseTo(whole.wear.wearMultiplier, 2);
  });

  it('a top-up of 1 L in 5 L mixes a fifth of fresh oil in (worked by hand)', () => {
    const first = conditionThrough([{ exposure: half }], engine, fill, unitRates, coefficients).state;
    const course = conditionThrough(
      [{ exposure: half, topUpLitersAfter: 1 }],
      engine,
      fill,
      unitRates,
      coefficients,
    );
    expect(course.states[0].baseNumber).toBe(first.baseNumber);
    expect(course.state.baseNumber).toBeCloseTo(0.8 * first.baseNumber + 0.2 * 8, 12);
    expect(course.state.additiveShare).toBeCloseTo(0.8 * first.additiveShare + 0.2, 12);
    expect(course.state.sootPercent).toBeCloseTo(0.8 * first.sootPercent, 12);
    expect(course.state.fuelPercent).toBeCloseTo(0.8 * first.fuelPercent, 12);
    expect(course.state.dispersancyUsed).toBeCloseTo(0.8 * first.dispersancyUsed, 12);
    expect(course.state.engineHours).toBeCloseTo(first.engineHours, 12);
  });

  it('a top-up never makes the oil worse or the wear more', () => {
    fc.assert(
      fc.property(anyCharge, fc.double({ min: 0.1, max: 2, noNaN: true }), (charge, liters) => {
        const part = partOfExposure(charge.exposure, 0.5);
        const run = (added: number) =>
          conditionThrough(
            [{ exposure: part, topUpLitersAfter: added }, { exposure: part }],
            charge.engine,
            charge.fill,
            charge.rates,
            coefficients,
          );
        const without = run(0);
        const topped = run(liters);
        expect(topped.state.baseNumber).toBeGreaterThanOrEqual(without.state.baseNumber - 1e-9);
        expect(topped.state.dispersancyUsed).toBeLessThanOrEqual(without.state.dispersancyUsed + 1e-9);
        expect(topped.wear.sludge).toBeLessThanOrEqual(without.wear.sludge + 1e-12);
        expect(topped.wear.chainPercent).toBeLessThanOrEqual(without.wear.chainPercent * (1 + 1e-4));
      }),
      { numRuns: 100, seed: 41, endOnFailure: true },
    );
  });

  it('a top-up with a thicker oil changes the fill by its share', () => {
    const thick = { ...fill, kv100: 14, baseNumber: 10 };
    const course = conditionThrough(
      [{ exposure: half, topUpLitersAfter: 1, topUpFill: thick }],
      engine,
      fill,
      unitRates,
      coefficients,
    );
    expect(course.fill.baseNumber).toBeCloseTo(8.4, 12);
    expect(course.fill.kv100).toBeGreaterThan(10.2);
    expect(course.fill.kv100).toBeLessThan(10.2 * 0.8 + 14 * 0.2);
  });

  it('refuses a negative top-up', () => {
    expect(() => through(-1)).toThrow('topUpLitersAfter must be 0 or above, got -1');
  });
});

describe('carriedOver', () => {
  const { state } = oilCondition(exposure, engine, fill, unitRates, coefficients);
  it('keeps 7 % of the old charge by default', () => {
    const start = carriedOver(state, engine, fill, coefficients);
    expect(start.baseNumber).toBeCloseTo(0.93 * 8 + 0.07 * state.baseNumber, 12);
    expect(start.dispersancyUsed).toBeCloseTo(0.07 * state.dispersancyUsed, 12);
    expect(start.sootPercent).toBeCloseTo(0.07 * state.sootPercent, 12);
    expect(start.engineHours).toBe(0);
    expect(start.fuelLiters).toBe(0);
  });
  it('with nothing carried over is fresh oil', () => {
    const start = carriedOver(state, engine, fill, coefficients, 0);
    expect(start.baseNumber).toBe(8);
    expect(start.oxidation).toBe(0);
  });
  it('refuses a share above 1', () => {
    expect(() => carriedOver(state, engine, fill, coefficients, 1.5)).toThrow(
      'share must be within 0..1, got 1.5',
    );
  });
});

describe('mixedFill', () => {
  it('3 L of 5 mm²/s with 2 L of 20 mm²/s → 8.109 (Refutas, Maples 2000: published example to 3 digits)', () => {
    const mixed = mixedFill([
      { fill: { ...fill, kv100: 5 }, liters: 3 },
      { fill: { ...fill, kv100: 20, baseNumber: 10 }, liters: 2 },
    ]);
    expect(mixed.kv100).toBeCloseTo(8.109, 3);
    expect(mixed.baseNumber).toBeCloseTo(8.8, 12);
  });
  it('refuses no oil at all', () => {
    expect(() => mixedFill([])).toThrow('mixedFill liters must sum to above 0, got 0');
  });
});
