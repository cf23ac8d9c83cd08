import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chainLimitOf, driveOfEngine } from '../../../models/wear/phaseGeometry.ts';
import { differential, informationBits } from '../../../models/wear/symptomDesk.ts';
import { noSymptoms } from '../../../models/wear/symptomSigns.ts';
import type { SymptomInputs } from '../../../models/wear/symptomSigns.ts';
import { symptomCauses, symptomTable } from '../../../models/wear/symptomTable.ts';
import { coefficients, faultCodes } from './catalog.ts';
import { engineRecord } from './simulation/records.ts';

const file = new URL('../../../data/catalog/symptom-desk.json', import.meta.url);
const table = symptomTable.parse(JSON.parse(readFileSync(file, 'utf8')));
const record = engineRecord({});
const engine = {
  interference: record.interference,
  drive: driveOfEngine(record),
  chainLimit: chainLimitOf(record, coefficients),
};
const ask = (inputs: Partial<SymptomInputs>) =>
  differential({ ...noSymptoms, ...inputs }, { table, engine, faultCodes, coefficients, states: null });
const likeliest = (inputs: Partial<SymptomInputs>) => ask(inputs).causes[0].cause;

describe('symptom desk', () => {
  it('holds a chance for every cause in every row, and causes that add up to 1', () => {
    expect(table.kind).toBe('assumption');
    for (const row of [
      ...table.signs.map(({ chance }) => chance),
      ...table.checks.map(({ positive }) => positive),
    ])
      expect(Object.keys(row).sort()).toEqual([...symptomCauses].sort());
    expect(table.causes.reduce((sum, { prior }) => sum + prior, 0)).toBeCloseTo(1, 12);
  });

  it('answers without signs with the chances of the table', () => {
    for (const { cause, probability } of ask({}).causes)
      expect(probability).toBeCloseTo(table.causes.find(({ id }) => id === cause)!.prior, 12);
  });

  it('updates one sign as Bayes’ rule does by hand', () => {
    const sign = table.signs.find(({ id }) => id === 'level_low')!;
    const total = table.causes.reduce((sum, { id, prior }) => sum + prior * sign.chance[id], 0);
    const level = table.causes.find(({ id }) => id === 'oil_level')!;
    const answer = ask({ levelLow: true }).causes[0];
    expect(answer.cause).toBe('oil_level');
    expect(answer.probability).toBeCloseTo((level.prior * sign.chance.oil_level) / total, 12);
  });

  it('finds the plain cases', () => {
    expect(likeliest({ codes: ['P0340', 'P0341'] })).toBe('wiring');
    expect(likeliest({ codes: ['P0016'], rattleS: 4, soakH: 10, levelLow: false, gradeOk: true })).toBe(
      'chain',
    );
    expect(
      likeliest({
        codes: ['P0011'],
        rattleS: 1.5,
        soakH: 10,
        levelLow: false,
        gradeOk: true,
        screenBlockedShare: 0,
      }),
    ).toBe('phaser');
    expect(
      likeliest({
        codes: ['P0011'],
        rattleS: 0,
        soakH: 10,
        levelLow: false,
        gradeOk: true,
        screenBlockedShare: 0.6,
      }),
    ).toBe('solenoid');
    expect(
      likeliest({
        hotIdlePressureKpa: 70,
        engineRpm: 700,
        oilTemperatureC: 95,
        levelLow: false,
        gradeOk: true,
      }),
    ).toBe('pressure');
    expect(likeliest({ ventilationFault: true })).toBe('ventilation');
  });

  it('adds up to 1 whatever is known, and offers only checks not done yet', () => {
    const flag = fc.option(fc.boolean(), { nil: null });
    const number = (max: number) => fc.option(fc.double({ min: 0, max, noNaN: true }), { nil: null });
    const inputs = fc.record({
      codes: fc.option(fc.subarray([...faultCodes.keys()], { maxLength: 5 }), { nil: null }),
      rattleS: number(15),
      soakH: number(48),
      hotIdlePressureKpa: number(400),
      engineRpm: number(1500),
      oilTemperatureC: number(130),
      screenBlockedShare: number(1),
      levelLow: flag,
      gradeOk: flag,
      ventilationFault: flag,
      thermostatOpen: flag,
      phaseDeviationCrankDeg: number(20),
      coolantInOil: flag,
    });
    fc.assert(
      fc.property(inputs, (known) => {
        const { causes, checks } = ask(known);
        expect(causes.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
        for (const { probability } of causes) expect(probability).toBeGreaterThanOrEqual(0);
        if (known.levelLow !== null) expect(checks.map(({ check }) => check)).not.toContain('read_level');
        for (const { informationBits: bits } of checks) expect(bits).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 60 },
    );
  });

  it('puts what costs nothing first, and stops before anything', () => {
    expect(ask({ codes: ['P0011'] }).checks[0].check).toBe('read_level');
    expect(ask({ codes: ['P0524'] }).cautions[0]).toContain('Stop the engine');
    expect(ask({ codes: ['P0017'] }).cautions[0]).toContain('do not keep driving');
    expect(ask({ codes: ['P0017', 'P0335'] }).cautions[0]).toContain('sensors and wiring come first');
    expect(ask({ coolantInOil: true }).cautions[0]).toContain('coolant');
    expect(ask({ codes: ['P0011'] }).cautions).toEqual([
      'One code is not a parts order: level, grade, pressure, wiring and sensors first.',
    ]);
  });

  // Shannon (1948): an even question settled without error is worth one bit
  it('measures information in bit', () => {
    expect(informationBits([0.5, 0.5], [1, 0])).toBeCloseTo(1, 12);
    expect(informationBits([0.5, 0.5], [0.3, 0.3])).toBeCloseTo(0, 12);
    expect(informationBits([0.25, 0.25, 0.25, 0.25], [1, 1, 0, 0])).toBeCloseTo(1, 12);
  });
});
