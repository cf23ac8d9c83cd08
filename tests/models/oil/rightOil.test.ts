import { describe, expect, it } from 'vitest';
import { gradeFile } from '../../../models/oil/gradeTable.ts';
import type { OilCatalog, RequiredOil } from '../../../models/oil/oilFill.ts';
import { fillFrom } from '../../../models/oil/oilFill.ts';
import { rightOil, winterGradeFor } from '../../../models/oil/rightOil.ts';
import { categoriesIn, categoryCovers, categoryFile } from '../../../models/oil/serviceCategory.ts';
import { catalogJson, coefficients } from './catalog.ts';

const catalog: OilCatalog = {
  grades: gradeFile.parse(catalogJson('oil-grades.json')),
  categories: categoryFile.parse(catalogJson('service-categories.json')),
};
const petrol: RequiredOil = { grade: '5W-30', category: 'API SP', fuelSystem: 'GDI' };
const fill = (grade: string | null, category: string | null, required = petrol) =>
  fillFrom(grade, category, required, catalog, coefficients);
const ids = (text: string) => categoriesIn(text, catalog.categories).map((entry) => entry.id);
const category = (text: string) => categoriesIn(text, catalog.categories)[0];

describe('service categories (ladder: value from memory)', () => {
  it('reads the ways they are written', () => {
    expect(ids('API SP')).toEqual(['API SP']);
    expect(ids('sn plus')).toEqual(['API SN PLUS']);
    expect(ids('SN+')).toEqual(['API SN PLUS']);
    expect(ids('API SP/CK-4, ILSAC GF-6A')).toEqual(['API SP', 'API CK-4', 'ILSAC GF-6A']);
    expect(ids('ACEA A3/B4, C3')).toEqual(['ACEA A3/B4', 'ACEA C3']);
    expect(ids('gf6')).toEqual(['ILSAC GF-6A']);
    expect(ids('SAE 5W-30 synthetic')).toEqual([]);
    expect(ids('')).toEqual([]);
  });

  it('knows what stands in for what', () => {
    const covers = (offered: string, required: string) =>
      categoryCovers(category(offered), category(required), catalog.categories);
    expect(covers('API SP', 'API SM')).toBe(true);
    expect(covers('API SM', 'API SP')).toBe(false);
    expect(covers('API CK-4', 'API CI-4')).toBe(true);
    expect(covers('API FA-4', 'API CK-4')).toBe(false);
    expect(covers('ILSAC GF-6A', 'ILSAC GF-5')).toBe(true);
    expect(covers('ILSAC GF-6B', 'ILSAC GF-5')).toBe(false);
    expect(covers('ILSAC GF-6A', 'API SN')).toBe(true);
    expect(covers('ACEA C2', 'ACEA C3')).toBe(false);
    expect(covers('ACEA E11', 'API CI-4')).toBe(true);
  });

  it('every covered category is in the table and no ladder runs in a circle', () => {
    const known = new Set(catalog.categories.categories.map((entry) => entry.id));
    for (const entry of catalog.categories.categories)
      for (const lower of entry.covers) {
        expect(known.has(lower)).toBe(true);
        expect(categoryCovers(category(lower), entry, catalog.categories)).toBe(false);
      }
  });
});

describe('fill from what the record says', () => {
  it('a known grade and category: typical properties, nothing inferred', () => {
    const known = fill('5w30', 'API SP');
    expect(known.fill).toEqual({
      kv100: 10.2,
      baseNumber: 8,
      acidNumber: 2,
      dispersancyFactor: 1,
      chainWearFactor: 1,
    });
    expect(known.inferred).toEqual([]);
    expect(known.notes).toEqual([]);
  });

  it('nothing recorded: the required grade and category are assumed, and it says so', () => {
    const known = fill(null, null);
    expect(known.inferred).toEqual(['grade', 'category']);
    expect(known.notes).toEqual([
      'The grade filled is not recorded; the required 5W-30 is assumed.',
      'The service category filled is not recorded; the required API SP is assumed.',
    ]);
  });

  it('nothing known at all: a common grade and the current category of the fuel', () => {
    const none = { grade: null, category: null, fuelSystem: 'diesel' } as const;
    const known = fill(null, 'house brand', none);
    expect(known.categories[0].id).toBe('API CK-4');
    expect(known.notes[1]).toBe('"house brand" names no service category; API CK-4 is assumed.');
  });

  it('an older category has less dispersancy and wears chains more', () => {
    expect(fill('5W-30', 'API SM').fill).toMatchObject({ dispersancyFactor: 0.75, chainWearFactor: 1.4 });
  });

  it('in a diesel engine the diesel category of a mixed oil counts', () => {
    const diesel = { grade: '15W-40', category: 'API CK-4', fuelSystem: 'diesel' } as const;
    expect(fill('15W-40', 'API SN/CK-4', diesel).fill).toMatchObject({ baseNumber: 10, kv100: 14.6 });
  });

  it('a thinner oil than required wears the chain more: (10.2 / 8.4)^0.7 = 1.146', () => {
    expect(fill('5W-20', 'API SP').fill.chainWearFactor).toBeCloseTo(Math.pow(10.2 / 8.4, 0.7), 12);
    expect(fill('5W-40', 'API SP').fill.chainWearFactor).toBe(1);
  });
});

describe('right oil', () => {
  const mild = [3, 4, 7, 11, 15, 18, 21, 21, 17, 12, 7, 4];
  const judge = (
    grade: string | null,
    kind: string | null,
    required = petrol,
    climate: number[] | null = mild,
  ) => {
    const verdicts = rightOil(fill(grade, kind, required), required, climate, catalog, coefficients).verdicts;
    return Object.fromEntries(verdicts.map((entry) => [entry.topic, entry.verdict]));
  };

  it('as required', () => {
    expect(judge('5W-30', 'API SP')).toEqual({ grade: 'right', category: 'right', season: 'right' });
  });
  it('a newer category and a colder winter grade are right too', () => {
    expect(judge('0W-30', 'API SQ')).toEqual({ grade: 'right', category: 'right', season: 'right' });
  });
  it('an older category is wrong, a thinner grade is wrong, a thicker one differs', () => {
    expect(judge('5W-30', 'API SM').category).toBe('wrong');
    expect(judge('5W-20', 'API SP').grade).toBe('wrong');
    expect(judge('5W-40', 'API SP').grade).toBe('differs');
    expect(judge('10W-30', 'API SP').grade).toBe('differs');
  });
  it('a record of required oil that lists two grades takes either', () => {
    const either = { ...petrol, grade: '5W-30, 0W-20' };
    expect(judge('0W-20', 'API SP', either).grade).toBe('right');
  });
  it('not recorded is unknown, not wrong', () => {
    expect(judge(null, null, petrol, null)).toEqual({
      grade: 'unknown',
      category: 'unknown',
      season: 'unknown',
    });
  });
  it('says the effect of a wrong fill on the model', () => {
    const { effect } = rightOil(fill('5W-20', 'API SM'), petrol, mild, catalog, coefficients);
    expect(effect.kv100).toBeCloseTo(8.4 / 10.2, 12);
    expect(effect.dispersancyFactor).toBe(0.75);
    expect(effect.chainWearFactor).toBeCloseTo(1.4 * Math.pow(10.2 / 8.4, 0.7), 12);
  });
  it('season: 15W-40 is too stiff for a coldest month of −10 °C, 5W-30 cranks down to a mean of −15 °C', () => {
    const cold = [-10, -8, 0, 8, 14, 18, 20, 19, 14, 8, 1, -7];
    const diesel = { grade: '15W-40', category: 'API CK-4', fuelSystem: 'diesel' } as const;
    expect(judge('15W-40', 'API CK-4', diesel, cold).season).toBe('wrong');
    expect(judge('5W-30', 'API SP', petrol, cold).season).toBe('right');
    expect(winterGradeFor(-15, catalog, coefficients)).toBe(5);
    expect(winterGradeFor(-16, catalog, coefficients)).toBe(0);
    expect(winterGradeFor(-21, catalog, coefficients)).toBeNull();
    expect(judge('SAE 30', 'API SP', { ...petrol, grade: 'SAE 30' }, cold).season).toBe('wrong');
    expect(judge('SAE 30', 'API SP', { ...petrol, grade: 'SAE 30' }, [20, 22]).season).toBe('right');
  });
});
