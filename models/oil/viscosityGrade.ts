import type { GradeTable, OperatingRow, WinterRow } from './gradeTable.ts';

/** An SAE J300 grade: 5W-30 is winter 5, operating 30; a single grade has one of the two only. */
export interface ViscosityGrade {
  readonly winter: number | null;
  readonly operating: number | null;
}

const multi = /(?<![0-9.])(\d{1,2})\s*w(?:\s*[-–—/ ]?\s*(\d{1,2}))?(?![0-9])/gi;
const single = /\bsae\s*-?\s*(\d{1,2})(?![0-9]|\s*w\s*[-–—/ ]?\s*\d)/i;
const bare = /^\s*(?:hd\s*-?\s*)?(\d{1,2})\s*(?:wt|weight)?\s*$/i;

/**
 * All SAE J300 grades that a text names, in order. Reads "5W-30", "0w20", "15W40", "SAE 30", "30", "10W" and grades
 * inside other words; numbers that are no grade of the table (5W-35) name none.
 * @returns e.g. "5W-30 or 0W-30" → two grades
 */
export function gradesIn(text: string, table: GradeTable): readonly ViscosityGrade[] {
  const isWinter = (n: number) => table.winter.some((row) => row.grade === n);
  const isOperating = (n: number) => table.operating.some((row) => row.grade === n);
  const found: ViscosityGrade[] = [];
  for (const match of text.matchAll(multi)) {
    const winter = Number(match[1]);
    const operating = match[2] === undefined ? null : Number(match[2]);
    if (isWinter(winter) && (operating === null || isOperating(operating))) found.push({ winter, operating });
    else if (operating === null && !isWinter(winter) && isOperating(winter))
      found.push({ winter: null, operating: winter });
  }
  if (found.length > 0) return found;
  const lone = single.exec(text) ?? bare.exec(text);
  const operating = lone === null ? NaN : Number(lone[1]);
  return isOperating(operating) ? [{ winter: null, operating }] : [];
}

/** The first grade that a text names; null when none. "SAE 5W-30" → winter 5, operating 30. */
export function parseGrade(text: string | null, table: GradeTable): ViscosityGrade | null {
  return text === null ? null : (gradesIn(text, table)[0] ?? null);
}

/** A grade as it is written: "5W-30", "SAE 30", "10W". */
export function gradeName(grade: ViscosityGrade): string {
  if (grade.winter === null) return grade.operating === null ? 'no grade' : `SAE ${grade.operating}`;
  return grade.operating === null ? `${grade.winter}W` : `${grade.winter}W-${grade.operating}`;
}

/** What a grade demands of the fresh oil. */
export interface GradeLimits {
  readonly winter: WinterRow | null;
  readonly operating: OperatingRow | null;
  /** mm²/s at 100 °C: from (including) and below; null: no upper limit */
  readonly kv100Min: number;
  readonly kv100Below: number | null;
  /** mPa·s at 150 °C; null: none */
  readonly hthsMinMpaS: number | null;
}

/**
 * The limits of a grade by SAE J300.
 * @returns 5W-40: 12.5 to below 16.3 mm²/s, 3.5 mPa·s; 15W-40 the same with 3.7 mPa·s
 * Throws when the grade is not in the table.
 */
export function gradeLimits(grade: ViscosityGrade, table: GradeTable): GradeLimits {
  const winter = table.winter.find((row) => row.grade === grade.winter) ?? null;
  const operating = table.operating.find((row) => row.grade === grade.operating) ?? null;
  if (
    (grade.winter !== null && winter === null) ||
    (grade.operating !== null && operating === null) ||
    (winter === null && operating === null)
  )
    throw new Error(`grade must be one of SAE J300, got ${gradeName(grade)}`);
  return {
    winter,
    operating,
    kv100Min: Math.max(winter?.kv100Min ?? 0, operating?.kv100Min ?? 0),
    kv100Below: operating?.kv100Below ?? null,
    hthsMinMpaS: operating === null ? null : hthsMin(operating, grade.winter),
  };
}

function hthsMin(row: OperatingRow, winter: number | null): number {
  const lower = row.hthsMinWithWinterMpaS;
  return lower !== undefined && winter !== null && winter <= lower.winterUpTo
    ? lower.hthsMinMpaS
    : row.hthsMinMpaS;
}

/**
 * Operating grades that a measured oil meets by SAE J300. Grades 8 to 20 overlap in viscosity at 100 °C; high-shear
 * viscosity decides, and the highest grade met comes first.
 * @param kv100 mm²/s
 * @param hthsMpaS high-shear viscosity at 150 °C, mPa·s; null: not measured, all grades that fit by kv100 are listed
 * @param winter winter grade of the oil, which lowers the high-shear minimum of grade 40
 * @returns e.g. 7.0 mm²/s with 2.6 mPa·s → [20, 16, 12]; with 2.2 mPa·s → [12]
 */
export function operatingGrades(
  kv100: number,
  hthsMpaS: number | null,
  winter: number | null,
  table: GradeTable,
): readonly number[] {
  return table.operating
    .filter((row) => kv100 >= row.kv100Min && kv100 < row.kv100Below)
    .filter((row) => hthsMpaS === null || hthsMpaS >= hthsMin(row, winter))
    .map((row) => row.grade)
    .sort((a, b) => b - a);
}

/** Cold tests of an oil at one winter grade's temperatures, mPa·s; null: not measured. */
export interface ColdTest {
  readonly grade: number;
  readonly crankingMpaS: number | null;
  readonly pumpingMpaS: number | null;
  readonly yieldStress: boolean;
}

/**
 * The winter grade to label: the coldest whose cranking and pumping tests both pass and whose least kv100 is met.
 * @param tests by winter grade, each at that grade's temperatures
 * @returns the number before the W; null when none is proven
 */
export function winterGrade(kv100: number, tests: readonly ColdTest[], table: GradeTable): number | null {
  const passed = tests.filter((test) => {
    const row = table.winter.find((entry) => entry.grade === test.grade);
    return (
      row !== undefined &&
      kv100 >= row.kv100Min &&
      test.crankingMpaS !== null &&
      test.crankingMpaS <= row.crankingMaxMpaS &&
      test.pumpingMpaS !== null &&
      test.pumpingMpaS <= row.pumpingMaxMpaS &&
      !test.yieldStress
    );
  });
  return passed.length === 0 ? null : Math.min(...passed.map((test) => test.grade));
}

/**
 * The grade an oil acts as: the operating grade whose range at 100 °C holds this viscosity, the highest where they
 * overlap. For an oil hotter or colder than 100 °C give its viscosity there: the grade that it then resembles at 100 °C.
 * @returns grade; null when thinner than the thinnest or thicker than the thickest; 7.99 → 20
 */
export function actingGrade(viscosity: number, table: GradeTable): number | null {
  return operatingGrades(viscosity, null, null, table)[0] ?? null;
}
