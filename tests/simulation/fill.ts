import type { FamilySpec } from './family.ts';
import type { Random } from './random.ts';
import type { DrainHabit } from './truth.ts';

/** What is poured in. */
export interface Fill {
  readonly grade: string;
  readonly category: string;
  readonly kv100: number;
  readonly dispersancy: number;
  readonly chainSpec: number;
}

const kv100ByGrade: Readonly<Record<string, number>> = {
  '0W-20': 8.3,
  '5W-20': 8.6,
  '0W-30': 10.1,
  '5W-30': 10.3,
  '10W-30': 10.6,
  '5W-40': 13.8,
  '10W-40': 14.2,
  '15W-40': 14.6,
  '20W-50': 18.6,
};
const dispersancyByCategory: Readonly<Record<string, number>> = {
  'API SP': 1,
  'API CK-4': 1.05,
  'API SN': 0.82,
  'API SL': 0.7,
  'API CJ-4': 0.85,
};

/** The family's own oil, or the wrong one where the habit has one and chance will have it. */
export function fillFor(family: FamilySpec, habit: DrainHabit, random: Random): Fill {
  const wrong = habit.wrongOil !== null && random.chance(habit.wrongOil.chance) ? habit.wrongOil : null;
  const grade = wrong?.grade ?? family.engine.requiredGrade;
  const category = wrong?.category ?? family.engine.requiredCategory;
  return {
    grade,
    category,
    kv100: wrong === null ? family.freshKv100 : (kv100ByGrade[grade] ?? family.freshKv100),
    dispersancy: dispersancyByCategory[category] ?? 0.8,
    chainSpec: category === 'API SP' || category === 'API CK-4' ? 1 : 1.35,
  };
}
