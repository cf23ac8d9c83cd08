import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gradeFile } from '../../../models/oil/gradeTable.ts';
import { stayInGrade } from '../../../models/oil/stayInGrade.ts';
import {
  actingGrade,
  gradeLimits,
  gradeName,
  gradesIn,
  operatingGrades,
  parseGrade,
  winterGrade,
} from '../../../models/oil/viscosityGrade.ts';
import { viscosityAt, viscosityLine } from '../../../models/oil/viscosityTemperature.ts';
import { catalogJson, coefficients } from './catalog.ts';

const table = gradeFile.parse(catalogJson('oil-grades.json'));
const grade = (text: string) => parseGrade(text, table)!;

describe('reading a grade', () => {
  it('takes the ways people write it', () => {
    const cases: readonly (readonly [string, string | null])[] = [
      ['5W-30', '5W-30'],
      ['5w30', '5W-30'],
      ['0w20', '0W-20'],
      ['15W40', '15W-40'],
      ['SAE 30', 'SAE 30'],
      ['SAE 5W-30', '5W-30'],
      ['sae30', 'SAE 30'],
      ['30', 'SAE 30'],
      ['30wt', 'SAE 30'],
      ['HD-40', 'SAE 40'],
      ['5 W 30', '5W-30'],
      ['10W–40', '10W-40'],
      ['10W', '10W'],
      ['fully syn 0W-16 API SP', '0W-16'],
      ['5W-35', null],
      ['3W-30', null],
      ['synthetic', null],
      ['', null],
      ['2015W', null],
    ];
    for (const [text, name] of cases) {
      const read = parseGrade(text, table);
      expect([text, read === null ? null : gradeName(read)]).toEqual([text, name]);
    }
    expect(parseGrade(null, table)).toBeNull();
    expect(gradesIn('5W-30 or 0W-30', table).map(gradeName)).toEqual(['5W-30', '0W-30']);
  });

  it('written and read again is the same grade', () => {
    const winters = fc.constantFrom(null, 0, 5, 10, 15, 20, 25);
    const operatings = fc.constantFrom(8, 12, 16, 20, 30, 40, 50, 60);
    fc.assert(
      fc.property(winters, operatings, (winter, operating) => {
        expect(parseGrade(gradeName({ winter, operating }), table)).toEqual({ winter, operating });
      }),
      { numRuns: 60, seed: 5 },
    );
  });
});

describe('SAE J300 (2015 table, as quoted in published extracts)', () => {
  it('limits of the grades', () => {
    const rows: readonly (readonly [string, number, number, number])[] = [
      ['SAE 8', 4.0, 6.1, 1.7],
      ['SAE 12', 5.0, 7.1, 2.0],
      ['0W-16', 6.1, 8.2, 2.3],
      ['0W-20', 6.9, 9.3, 2.6],
      ['5W-30', 9.3, 12.5, 2.9],
      ['0W-40', 12.5, 16.3, 3.5],
      ['10W-40', 12.5, 16.3, 3.5],
      ['15W-40', 12.5, 16.3, 3.7],
      ['SAE 40', 12.5, 16.3, 3.7],
      ['20W-50', 16.3, 21.9, 3.7],
      ['10W-60', 21.9, 26.1, 3.7],
    ];
    for (const [name, min, below, hths] of rows) {
      const limits = gradeLimits(grade(name), table);
      expect([name, limits.kv100Min, limits.kv100Below, limits.hthsMinMpaS]).toEqual([
        name,
        min,
        below,
        hths,
      ]);
    }
    const cold = gradeLimits(grade('5W-30'), table).winter!;
    expect([cold.crankingMaxMpaS, cold.crankingC, cold.pumpingMaxMpaS, cold.pumpingC]).toEqual([
      6600, -30, 60_000, -35,
    ]);
    expect(gradeLimits(grade('10W'), table)).toMatchObject({ kv100Min: 4.1, kv100Below: null });
  });

  it('high shear decides between 8, 12, 16 and 20, which overlap at 100 °C', () => {
    expect(operatingGrades(7.0, 2.6, 0, table)).toEqual([20, 16, 12]);
    expect(operatingGrades(7.0, 2.5, 0, table)).toEqual([16, 12]);
    expect(operatingGrades(7.0, 2.2, 0, table)).toEqual([12]);
    expect(operatingGrades(5.5, 1.9, 0, table)).toEqual([8]);
    expect(operatingGrades(7.0, null, 0, table)).toEqual([20, 16, 12]);
    expect(operatingGrades(13.5, 3.6, 5, table)).toEqual([40]);
    expect(operatingGrades(13.5, 3.6, 15, table)).toEqual([]);
    expect(operatingGrades(9.3, 2.9, 5, table)).toEqual([30]);
  });

  it('labels the coldest winter grade that passes both tests', () => {
    const test = (g: number, cranking: number, pumping: number, yieldStress = false) => ({
      grade: g,
      crankingMpaS: cranking,
      pumpingMpaS: pumping,
      yieldStress,
    });
    expect(
      winterGrade(10.2, [test(0, 6300, 50_000), test(5, 6500, 40_000), test(10, 4000, 20_000)], table),
    ).toBe(5);
    expect(winterGrade(10.2, [test(5, 6500, 40_000, true), test(10, 4000, 20_000)], table)).toBe(10);
    expect(winterGrade(5.0, [test(15, 6000, 40_000)], table)).toBeNull();
  });

  it('a grade at operating temperature: a 5W-30 at 130 °C is as thin as a 12 at 100 °C, at 85 °C as a 40', () => {
    const line = viscosityLine(40, 61.7, 100, 10.2);
    expect(actingGrade(viscosityAt(line, 130), table)).toBe(12);
    expect(actingGrade(viscosityAt(line, 85), table)).toBe(40);
    expect(actingGrade(2, table)).toBeNull();
    expect(actingGrade(40, table)).toBeNull();
  });

  it('typical viscosities of the catalog lie within their grades', () => {
    for (const entry of table.typicalKv100) {
      const limits = gradeLimits(grade(entry.grade), table);
      expect(entry.kv100).toBeGreaterThanOrEqual(limits.kv100Min);
      expect(entry.kv100).toBeLessThan(limits.kv100Below!);
    }
  });
});

describe('stay in grade', () => {
  const judge = (kv100: number, text = '5W-30', fresh: number | null = 10.2) =>
    stayInGrade(kv100, grade(text), fresh, table, coefficients);
  it('a little below by shear is a caution, far below condemns (−20 %/+30 %, laboratory table)', () => {
    expect(judge(9.8).verdict).toBe('in_grade');
    expect(judge(8.9)).toMatchObject({ verdict: 'caution', side: 'thin', actsAs: 20 });
    expect(judge(8.1).verdict).toBe('condemn');
    expect(judge(12.8)).toMatchObject({ verdict: 'caution', side: 'thick' });
    expect(judge(13.3).verdict).toBe('condemn');
    expect(judge(8.9).words).toContain('below 5W-30, 13 % thinner than fresh, like a 20 when hot');
  });
  it('without the fresh viscosity one whole grade off condemns', () => {
    expect(judge(8.9, '5W-30', null).verdict).toBe('caution');
    expect(judge(6.5, '5W-30', null).verdict).toBe('condemn');
  });
});

it('refuses a grade that is not in the table', () => {
  expect(() => gradeLimits({ winter: 3, operating: 30 }, table)).toThrow(
    'grade must be one of SAE J300, got 3W-30',
  );
});
