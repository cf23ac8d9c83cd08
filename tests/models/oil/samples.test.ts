import { describe, expect, it } from 'vitest';
import { comparableBaseNumber } from '../../../models/oil/baseNumberMethod.ts';
import { condemningFile, limitsFor } from '../../../models/oil/condemningLimits.ts';
import { oilCondition } from '../../../models/oil/condition.ts';
import { expectedMeasurand, noiseSd } from '../../../models/oil/expectedMeasurand.ts';
import { unitRates } from '../../../models/oil/exposure.ts';
import { impossibleSample } from '../../../models/oil/impossibleSample.ts';
import type { SampleContext, SampleLevel } from '../../../models/oil/sampleVerdicts.ts';
import { sampleVerdicts } from '../../../models/oil/sampleVerdicts.ts';
import { sampleWarnings } from '../../../models/oil/sampleWarnings.ts';
import { categoriesIn, categoryFile } from '../../../models/oil/serviceCategory.ts';
import { viscosityIndexFile } from '../../../models/oil/viscosityIndex.ts';
import type { Sample } from '../../../models/schema/sample.ts';
import { sample as sampleSchema } from '../../../models/schema/sample.ts';
import { catalogJson, coefficients } from './catalog.ts';
import { checkCase } from './checkCases.ts';

const { limits } = condemningFile.parse(catalogJson('condemning-limits.json'));
const { bands } = viscosityIndexFile.parse(catalogJson('viscosity-index.json'));
const categories = categoryFile.parse(catalogJson('service-categories.json'));
const { engine, fill, exposure } = checkCase('C');
const context: SampleContext = { fill, engine, topUpLiters: 0, freshSiliconPpm: 4, breakIn: false };
const sample = (values: Partial<Sample>): Sample =>
  sampleSchema.parse({ unitNumber: '7', sampledOn: '2026-03-01', ...values });
const levels = (values: Partial<Sample>, more: Partial<SampleContext> = {}) =>
  Object.fromEntries(
    sampleVerdicts(sample(values), { ...context, ...more }, limits, coefficients).map((v) => [
      v.measurand,
      v.level,
    ]),
  ) as Record<string, SampleLevel>;
const warnings = (
  values: Partial<Sample>,
  named = 'API SP',
  metals: Parameters<typeof sampleWarnings>[2] = null,
) =>
  sampleWarnings(
    sample(values),
    sampleVerdicts(sample(values), context, limits, coefficients),
    metals,
    categoriesIn(named, categories),
    coefficients,
  ).map((warning) => warning.code);

describe('limits of a sample (laboratory tables; fill 10.2 mm²/s, base number 8)', () => {
  it('base number: half of fresh is a caution, 35 % condemns', () => {
    const by = (baseNumberMgKohG: number) =>
      levels({ baseNumberMgKohG, baseNumberMethod: 'D2896' }).baseNumber;
    expect([by(4.5), by(3.9), by(2.7)]).toEqual(['normal', 'caution', 'condemn']);
  });

  it('base number by D4739 is shifted to D2896 before it is compared (offset: value from memory)', () => {
    expect(levels({ baseNumberMgKohG: 3.9, baseNumberMethod: 'D4739' }).baseNumber).toBe('normal');
    expect(comparableBaseNumber(5, 'ASTM D4739', coefficients)).toEqual({
      value: 6,
      methodSd: 0.6,
      method: 'D4739',
    });
    expect(comparableBaseNumber(5, 'D2896', coefficients)).toEqual({
      value: 5,
      methodSd: 0,
      method: 'D2896',
    });
    const unknown = comparableBaseNumber(5, null, coefficients);
    expect(unknown.value).toBe(5.5);
    expect(unknown.methodSd).toBeGreaterThan(0.6);
  });

  it('acid number against base number: 0.7 is a caution, 1 condemns', () => {
    const by = (acidNumberMgKohG: number) =>
      levels({ acidNumberMgKohG, baseNumberMgKohG: 4, baseNumberMethod: 'D2896' }).acidNumber;
    expect([by(2.5), by(3), by(3.9), by(4.1)]).toEqual(['normal', 'caution', 'caution', 'condemn']);
  });

  it('viscosity: −10/+20 % caution, −20/+30 % condemn', () => {
    const by = (kv100Mm2S: number) => levels({ kv100Mm2S }).kv100;
    expect([by(9.5), by(9.0), by(8.1), by(12.3), by(13.4)]).toEqual([
      'normal',
      'caution',
      'condemn',
      'caution',
      'condemn',
    ]);
  });

  it('soot and fuel limits depend on the fuel system', () => {
    const diesel = { engine: { ...engine, fuelSystem: 'diesel' } } as const;
    expect(levels({ sootPercent: 1.2 }).sootPercent).toBe('caution');
    expect(levels({ sootPercent: 1.2 }, diesel).sootPercent).toBe('normal');
    expect(levels({ fuelPercent: 5.5 }).fuelPercent).toBe('condemn');
    expect(levels({ fuelPercent: 5.5 }, diesel).fuelPercent).toBe('caution');
    expect(limitsFor('sootPercent', 'diesel', limits).map((limit) => limit.condemn)).toEqual([5]);
  });

  it('silicon counts above new oil; copper of a new cooler is a caution only in the first two drains', () => {
    expect(levels({ siliconPpm: 18 }).siliconPpm).toBe('normal');
    expect(levels({ siliconPpm: 20 }).siliconPpm).toBe('caution');
    expect(levels({ copperPpm: 300 }).copperPpm).toBe('condemn');
    expect(levels({ copperPpm: 300 }, { breakIn: true }).copperPpm).toBe('caution');
  });

  it('says nothing of what was not measured, and a sentence with the source of what was', () => {
    expect(levels({})).toEqual({});
    const [verdict] = sampleVerdicts(sample({ ironPpm: 120, oilKm: 10_000 }), context, limits, coefficients);
    expect(verdict).toMatchObject({ level: 'condemn', ppmPer1000Km: 12, caution: 50, condemn: 100 });
    expect(verdict.words).toBe('iron 120 ppm (condemn at most 100 ppm).');
    expect(verdict.source).toMatch(/handbook/);
  });
});

describe('warnings of a sample', () => {
  it('fuel, water and glycol ask for their source', () => {
    expect(warnings({ fuelPercent: 5.5 })).toEqual(['fuel_source']);
    expect(warnings({ waterPercent: 0.2, glycol: true })).toEqual(['coolant', 'water_source']);
    expect(warnings({ sodiumPpm: 120, potassiumPpm: 40 })).toEqual(['coolant']);
    expect(warnings({ sodiumPpm: 120 })).toEqual([]);
  });
  it('only glycol is direct evidence for a stop', () => {
    const of = (values: Partial<Sample>) =>
      sampleWarnings(
        sample(values),
        sampleVerdicts(sample(values), context, limits, coefficients),
        null,
        [],
        coefficients,
      ).map((warning) => warning.stop);
    expect(of({ glycol: true })).toEqual([true]);
    expect(of({ fuelPercent: 8, waterPercent: 1 })).toEqual([false, false]);
  });
  it('acid above base number, both by comparable methods', () => {
    const crossed = { acidNumberMgKohG: 4.5, baseNumberMgKohG: 4 };
    expect(warnings({ ...crossed, baseNumberMethod: 'D2896' })).toEqual(['acid_crossover']);
    expect(warnings({ ...crossed, baseNumberMethod: 'D4739' })).toEqual([]);
  });
  it('additive metals tell a wrong fill: two of them off against the fresh oil, or phosphorus out of its category', () => {
    const metals = { calciumPpm: 1200, magnesiumPpm: 500, zincPpm: 800, phosphorusPpm: 700 };
    expect(warnings({ calciumPpm: 1150, magnesiumPpm: 480, zincPpm: 760 }, 'API SP', metals)).toEqual([]);
    expect(warnings({ calciumPpm: 3200, magnesiumPpm: 20, zincPpm: 1250 }, 'API SP', metals)).toEqual([
      'wrong_fill',
    ]);
    expect(warnings({ phosphorusPpm: 1400 })).toEqual(['wrong_fill']);
    expect(warnings({ phosphorusPpm: 750 })).toEqual([]);
    expect(warnings({ phosphorusPpm: 1200 }, 'API CK-4')).toEqual([]);
  });
});

describe('impossible chemistry', () => {
  const codes = (values: Partial<Sample>) =>
    impossibleSample({ ...sample({}), ...values }, bands).map((fault) => fault.code);
  it('finds what no engine oil has', () => {
    expect(codes({ kv40Mm2S: 9, kv100Mm2S: 10.2 })).toEqual(['viscosity_order']);
    expect(codes({ kv40Mm2S: 12, kv100Mm2S: 10.2 })).toEqual(['viscosity_index']);
    expect(codes({ kv100Mm2S: 90 })).toEqual(['no_oil']);
    expect(codes({ fuelPercent: 120 })).toEqual(['percent_above_100']);
    expect(codes({ fuelPercent: 60, waterPercent: 50 })).toEqual(['percent_sum']);
    expect(codes({ baseNumberMgKohG: -1 })).toEqual(['below_zero']);
    expect(codes({ ironPpm: 30_000 })).toEqual(['number_out_of_range']);
    expect(codes({ oilKm: 9000, odometerKm: 5000 })).toEqual(['distance_over_odometer']);
    expect(codes({ reportedOn: '2026-02-01' })).toEqual(['reported_before_sampled']);
  });
  it('lets an ordinary sample pass', () => {
    const ordinary = { kv40Mm2S: 61.7, kv100Mm2S: 10.2, baseNumberMgKohG: 5, fuelPercent: 1.2, ironPpm: 30 };
    expect(codes({ ...ordinary, oilKm: 6000, odometerKm: 90_000 })).toEqual([]);
    expect(codes({})).toEqual([]);
  });
  it('says which value and what it must be', () => {
    const [fault] = impossibleSample({ ...sample({}), kv40Mm2S: 9, kv100Mm2S: 10.2 }, bands);
    expect(fault.words).toBe('viscosity at 40 °C must be above that at 100 °C (10.2), got 9');
  });
});

describe('what a laboratory should read', () => {
  const { state } = oilCondition(exposure, engine, fill, unitRates, coefficients);
  const known = { methodKnown: true, sampleKmKnown: true };
  it('is the state itself, nitration and sulfation by their ratios', () => {
    const read = (name: Parameters<typeof expectedMeasurand>[2], system: 'TGDI' | 'gas' = 'TGDI') =>
      expectedMeasurand(state, fill, name, system, coefficients);
    expect(read('baseNumber')).toBe(state.baseNumber);
    expect(read('kv100')).toBe(state.kv100);
    expect(read('nitration')).toBeCloseTo(0.55 * state.oxidation, 12);
    expect(read('nitration', 'gas')).toBe(state.oxidation);
    expect(read('sulfation')).toBeCloseTo(10 + 2.2 * (8 - state.baseNumber), 12);
  });
  it('noise: 0.5, 0.3 or 0.16 X (D664: R = 0.44 X, over 2.77), 3 %, 0.5 or 1.0, 10 %, 1.5, 15 % (engineering judgement)', () => {
    const sd = (...[name, value, basis = known]: [Parameters<typeof noiseSd>[0], number, typeof known?]) =>
      noiseSd(name, value, basis, coefficients);
    expect(sd('baseNumber', 5)).toBe(0.5);
    expect(sd('acidNumber', 1)).toBe(0.3);
    expect(sd('acidNumber', 5)).toBeCloseTo((5 * 0.44) / 2.77, 1);
    expect(sd('kv100', 10)).toBeCloseTo(0.3, 12);
    expect(sd('fuelPercent', 2)).toBe(0.5);
    expect(sd('fuelPercent', 2, { ...known, methodKnown: false })).toBe(1);
    expect(sd('sootPercent', 1)).toBeCloseTo(0.1, 12);
    expect(sd('oxidation', 8)).toBe(1.5);
    expect(sd('metal', 40)).toBeCloseTo(6, 12);
  });
  it('is larger when the distance on the oil is not known', () => {
    const unknown = { methodKnown: true, sampleKmKnown: false };
    expect(noiseSd('oxidation', 10, unknown, coefficients)).toBeGreaterThan(1.5);
    expect(noiseSd('baseNumber', 5, unknown, coefficients, 3)).toBeCloseTo(Math.hypot(0.5, 0.15 * 3), 12);
  });
});
