import type { Coefficients } from '../schema/coefficient.ts';
import { coefficientValue } from './conditionCoefficients.ts';
import type { FuelSystem, OilFill } from './exposure.ts';
import type { GradeTable } from './gradeTable.ts';
import type { CategoryTable, ServiceCategory } from './serviceCategory.ts';
import { categoriesIn } from './serviceCategory.ts';
import type { ViscosityGrade } from './viscosityGrade.ts';
import { gradeLimits, gradeName, gradesIn, parseGrade } from './viscosityGrade.ts';

/** What is known about oils: grades and service categories of the catalog. */
export interface OilCatalog {
  readonly grades: GradeTable;
  readonly categories: CategoryTable;
}

/** What the engine asks for, as texts of its record; null: not recorded. */
export interface RequiredOil {
  readonly grade: string | null;
  readonly category: string | null;
  readonly fuelSystem: FuelSystem;
}

/** A fill with how it was come by. */
export interface KnownFill {
  readonly fill: OilFill;
  readonly grade: ViscosityGrade;
  readonly categories: readonly ServiceCategory[];
  /** what was assumed: `grade`, `category` */
  readonly inferred: readonly ('grade' | 'category')[];
  readonly notes: readonly string[];
}

/** Fresh viscosity at 100 °C usual for a grade, mm²/s: the catalog's, else the middle of its range. 5W-30 → 10.2. */
export function typicalKv100(grade: ViscosityGrade, table: GradeTable): number {
  const name = gradeName(grade).replace('SAE ', '');
  const known = table.typicalKv100.find((entry) => entry.grade === name);
  if (known !== undefined) return known.kv100;
  const limits = gradeLimits(grade, table);
  return limits.kv100Below === null ? limits.kv100Min * 1.2 : Math.sqrt(limits.kv100Min * limits.kv100Below);
}

/**
 * The fill properties of an oil from what the record says of it. An unknown grade is taken to be the required one, an
 * unknown category the required one or the current one, and that is said. An oil thinner than the engine asks for wears
 * the chain more: factor (required kv100 / filled kv100)^exponent on the chain wear factor.
 * @param gradeText as recorded, e.g. "5w30"; null: not recorded
 * @param categoryText as recorded, e.g. "API SN"; null: not recorded
 * @returns fill, what was inferred, notes in words; "5W-30" with "API SP" → kv100 10.2, base number 8
 * Source: catalog oil-grades and service-categories (typical values from memory), `wear.chain_viscosity`.
 */
export function fillFrom(
  gradeText: string | null,
  categoryText: string | null,
  required: RequiredOil,
  catalog: OilCatalog,
  coefficients: Coefficients,
): KnownFill {
  const notes: string[] = [];
  const inferred: ('grade' | 'category')[] = [];
  const asked = required.grade === null ? [] : gradesIn(required.grade, catalog.grades);
  const named = parseGrade(gradeText, catalog.grades);
  const grade = named ?? asked[0] ?? gradesIn(catalog.grades.assumedGrade, catalog.grades)[0];
  if (named === null) {
    inferred.push('grade');
    const why = gradeText === null ? 'The grade filled is not recorded' : `"${gradeText}" names no grade`;
    notes.push(
      asked.length > 0
        ? `${why}; the required ${gradeName(grade)} is assumed.`
        : `${why} and the engine's required grade is not known; ${gradeName(grade)} is assumed.`,
    );
  }

  const namedCategories = categoriesIn(categoryText, catalog.categories);
  const askedCategories = categoriesIn(required.category, catalog.categories);
  const categories =
    namedCategories.length > 0
      ? namedCategories
      : askedCategories.length > 0
        ? askedCategories
        : categoriesIn(assumedCategory(required.fuelSystem, catalog), catalog.categories);
  if (namedCategories.length === 0) {
    inferred.push('category');
    const why =
      categoryText === null
        ? 'The service category filled is not recorded'
        : `"${categoryText}" names no service category`;
    notes.push(
      askedCategories.length > 0
        ? `${why}; the required ${categories[0].title} is assumed.`
        : `${why}; ${categories[0].title} is assumed.`,
    );
  }

  const best = bestFor(required.fuelSystem, categories);
  const kv100 = typicalKv100(grade, catalog.grades);
  const thin = thinnerBy(grade, asked, catalog.grades);
  const exponent = coefficientValue(coefficients, 'wear.chain_viscosity');
  return {
    fill: {
      kv100,
      baseNumber: best.baseNumber,
      acidNumber: best.acidNumber,
      dispersancyFactor: best.dispersancyFactor,
      chainWearFactor: best.chainWearFactor * Math.pow(thin, exponent),
    },
    grade,
    categories,
    inferred,
    notes,
  };
}

function assumedCategory(fuelSystem: FuelSystem, catalog: OilCatalog): string {
  return fuelSystem === 'diesel' ? catalog.categories.assumedDiesel : catalog.categories.assumedGasoline;
}

/** The category that tells most of an oil in this engine: of its own use first, then the newest. */
function bestFor(fuelSystem: FuelSystem, categories: readonly ServiceCategory[]): ServiceCategory {
  const use = fuelSystem === 'diesel' ? 'diesel' : 'gasoline';
  const fits = categories.filter((entry) => entry.use === use || entry.use === 'both');
  return [...(fits.length > 0 ? fits : categories)].sort((a, b) => b.year - a.year)[0];
}

/** Required viscosity over the filled one where the filled operating grade is below all required ones, else 1. */
export function thinnerBy(
  filled: ViscosityGrade,
  asked: readonly ViscosityGrade[],
  table: GradeTable,
): number {
  const operating = asked.map((grade) => grade.operating).filter((grade) => grade !== null);
  if (filled.operating === null || operating.length === 0 || filled.operating >= Math.min(...operating))
    return 1;
  const nearest = asked.find((grade) => grade.operating === Math.min(...operating)) ?? asked[0];
  return Math.max(1, typicalKv100(nearest, table) / typicalKv100(filled, table));
}
