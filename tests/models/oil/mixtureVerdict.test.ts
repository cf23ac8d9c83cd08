import { describe, expect, it } from 'vitest';
import { mixtureVerdict } from '../../../models/oil/mixtureVerdict.ts';
import { parseGrade } from '../../../models/oil/viscosityGrade.ts';
import { gradeFile } from '../../../models/oil/gradeTable.ts';
import { categoryFile } from '../../../models/oil/serviceCategory.ts';
import { catalogJson } from './catalog.ts';

const oilCatalog = {
  grades: gradeFile.parse(catalogJson('oil-grades.json')),
  categories: categoryFile.parse(catalogJson('service-categories.json')),
};
const grade = (text: string) => parseGrade(text, oilCatalog.grades)!;
const mix = (others: { grade: string; liters: number }[], kv100: number, asked = '5W-30') =>
  mixtureVerdict(grade('5W-30'), others, 5, kv100, [grade(asked)], oilCatalog);

describe('topping up with another grade (SAE J300: 5W-30 is 9.3 to below 12.5 mm²/s)', () => {
  it('says amounts, the mixture and the grade it acts as', () => {
    expect(mix([], 10.2)).toBeNull();
    const inside = mix([{ grade: '10W-40', liters: 1 }], 10.75)!;
    expect(inside).toMatchObject({ topic: 'mixture', verdict: 'differs' });
    expect(inside.words).toBe(
      '1 L of 10W-40 topped up on 5 L of 5W-30: together about 10.8 mm²/s at 100 °C, within 5W-30; in the cold count on 10W at best.',
    );
  });
  it('is wrong where it leaves the range asked for, either way', () => {
    const thick = mix([{ grade: '15W-40', liters: 4 }], 12.6)!;
    expect(thick.verdict).toBe('wrong');
    expect(thick.words).toContain('thicker than 5W-30');
    const thin = mix(
      [
        { grade: '0W-16', liters: 2 },
        { grade: '0W-16', liters: 1.5 },
      ],
      9.1,
    )!;
    expect(thin.words).toContain('3.5 L of 0W-16');
    expect(thin.words).toMatch(/thinner than 5W-30\.$/);
  });
});
