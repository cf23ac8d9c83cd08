import type { Coefficients } from '../schema/coefficient.ts';
import { coefficientValue } from './conditionCoefficients.ts';
import type { KnownFill, OilCatalog, RequiredOil } from './oilFill.ts';
import { thinnerBy, typicalKv100 } from './oilFill.ts';
import { categoriesIn, categoryCovers } from './serviceCategory.ts';
import type { ViscosityGrade } from './viscosityGrade.ts';
import { gradeName, gradesIn } from './viscosityGrade.ts';

/** One thing said about whether the right oil is in. */
export interface OilVerdict {
  readonly topic: 'grade' | 'category' | 'season' | 'mixture';
  /** right; differs in a way that is allowed or harmless; wrong; not known */
  readonly verdict: 'right' | 'differs' | 'wrong' | 'unknown';
  readonly words: string;
}

/** Whether the oil is right, and what the wrong one does. */
export interface RightOil {
  readonly verdicts: readonly OilVerdict[];
  /** effect on fill properties against the required oil, 1 = none */
  readonly effect: {
    readonly kv100: number;
    readonly dispersancyFactor: number;
    readonly chainWearFactor: number;
  };
}

/**
 * Judges an oil against what the engine asks for and against the season.
 * Grade: one of the required grades, or the same operating grade with a colder winter grade, is right; a thinner one
 * wears more; a thicker one differs. Category: right when it covers the required one. Season: the winter grade's
 * cranking temperature must lie below the coldest month's mean less a cold snap.
 * @param fill from `fillFrom`
 * @param ambientByMonthC mean ambient of January–December, °C; null: not known
 * @returns verdicts in words and the effect; a 5W-20 where 5W-30 is required → wrong, chain wear × 1.15
 * Source: SAE J300 cranking temperatures; the ladder of categories from the catalog; cold snap by engineering judgement.
 */
export function rightOil(
  fill: KnownFill,
  required: RequiredOil,
  ambientByMonthC: readonly number[] | null,
  catalog: OilCatalog,
  coefficients: Coefficients,
): RightOil {
  const asked = required.grade === null ? [] : gradesIn(required.grade, catalog.grades);
  const askedCategories = categoriesIn(required.category, catalog.categories);
  const exponent = coefficientValue(coefficients, 'wear.chain_viscosity');
  const thinner = thinnerBy(fill.grade, asked, catalog.grades);
  const base = askedCategories.length === 0 ? null : askedCategories[0];
  return {
    verdicts: [
      gradeVerdict(fill, asked, Math.pow(thinner, exponent)),
      categoryVerdict(fill, required, catalog),
      seasonVerdict(fill.grade, ambientByMonthC, catalog, coefficients),
    ],
    effect: {
      kv100: asked.length === 0 ? 1 : fill.fill.kv100 / typicalKv100(asked[0], catalog.grades),
      dispersancyFactor: base === null ? 1 : fill.fill.dispersancyFactor / base.dispersancyFactor,
      chainWearFactor: base === null ? 1 : fill.fill.chainWearFactor / base.chainWearFactor,
    },
  };
}

function gradeVerdict(fill: KnownFill, asked: readonly ViscosityGrade[], wear: number): OilVerdict {
  const say = (verdict: OilVerdict['verdict'], words: string): OilVerdict => ({
    topic: 'grade',
    verdict,
    words,
  });
  const name = gradeName(fill.grade);
  if (fill.inferred.includes('grade')) return say('unknown', fill.notes[0]);
  if (asked.length === 0) return say('unknown', `${name} is in; the required grade is not recorded.`);
  const wanted = asked.map(gradeName).join(' or ');
  const same = asked.filter((grade) => grade.operating === fill.grade.operating);
  if (same.some((grade) => grade.winter === fill.grade.winter)) return say('right', `${name} as required.`);
  if (
    same.some(
      (grade) => grade.winter !== null && fill.grade.winter !== null && fill.grade.winter < grade.winter,
    )
  )
    return say('right', `${name} stands in for ${wanted}: the same when hot, better in the cold.`);
  if (same.length > 0)
    return say('differs', `${name} is in, ${wanted} is required: the same when hot, stiffer in the cold.`);
  if (wear > 1)
    return say(
      'wrong',
      `${name} is thinner than the required ${wanted}: chain wear about ${Math.round(100 * (wear - 1))} % more.`,
    );
  if (fill.grade.operating === null)
    return say('wrong', `${name} has no operating grade; ${wanted} is required.`);
  return say(
    'differs',
    `${name} is thicker than the required ${wanted}: slower phaser response from cold and more fuel used.`,
  );
}

function categoryVerdict(fill: KnownFill, required: RequiredOil, catalog: OilCatalog): OilVerdict {
  const say = (verdict: OilVerdict['verdict'], words: string): OilVerdict => ({
    topic: 'category',
    verdict,
    words,
  });
  const asked = categoriesIn(required.category, catalog.categories);
  if (fill.inferred.includes('category')) return say('unknown', fill.notes[fill.notes.length - 1]);
  const named = fill.categories.map((entry) => entry.title).join(', ');
  if (asked.length === 0) return say('unknown', `${named} is in; the required category is not recorded.`);
  const missing = asked.filter(
    (wanted) => !fill.categories.some((offered) => categoryCovers(offered, wanted, catalog.categories)),
  );
  const wanted = asked.map((entry) => entry.title).join(', ');
  if (missing.length === 0)
    return say(
      'right',
      named === wanted ? `${named} as required.` : `${named} covers the required ${wanted}.`,
    );
  const older = fill.categories[0].dispersancyFactor < missing[0].dispersancyFactor;
  return say(
    missing.length < asked.length ? 'differs' : 'wrong',
    `${named} does not cover ${missing.map((entry) => entry.title).join(', ')}${older ? ': less dispersancy, so sludge sooner' : ''}.`,
  );
}

/** The coldest winter grade that the coldest month calls for; null when even the coldest grade is not enough. */
export function winterGradeFor(
  coldestMonthC: number,
  catalog: OilCatalog,
  coefficients: Coefficients,
): number | null {
  const snapC = coldestMonthC - coefficientValue(coefficients, 'oil.cold_snap');
  const fit = catalog.grades.winter.filter((row) => row.crankingC <= snapC).map((row) => row.grade);
  return fit.length === 0 ? null : Math.max(...fit);
}

function seasonVerdict(
  grade: ViscosityGrade,
  ambientByMonthC: readonly number[] | null,
  catalog: OilCatalog,
  coefficients: Coefficients,
): OilVerdict {
  const say = (verdict: OilVerdict['verdict'], words: string): OilVerdict => ({
    topic: 'season',
    verdict,
    words,
  });
  if (ambientByMonthC === null || ambientByMonthC.length === 0)
    return say('unknown', 'The climate of the unit is not known; the winter grade is not judged.');
  const coldest = Math.min(...ambientByMonthC);
  const needed = winterGradeFor(coldest, catalog, coefficients);
  const where = `a coldest month of ${Math.round(coldest)} °C`;
  const name = gradeName(grade);
  if (needed === null)
    return grade.winter === 0
      ? say('differs', `${where} is colder than any grade is made for; an engine heater is called for.`)
      : say('wrong', `${name} is too stiff for ${where}; use 0W and an engine heater.`);
  const own = grade.winter ?? Infinity;
  if (own <= needed) return say('right', `${name} cranks in ${where}.`);
  const warm =
    Math.max(...catalog.grades.winter.map((row) => row.crankingC)) +
    coefficientValue(coefficients, 'oil.cold_snap');
  if (grade.winter === null && coldest > warm) return say('right', `${name} cranks in ${where}.`);
  return say(
    'wrong',
    `${name} is too stiff for cold starts in ${where}; ${needed}W or colder is called for.`,
  );
}
