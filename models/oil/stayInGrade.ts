import type { Coefficients } from '../schema/coefficient.ts';
import { coefficientValue } from './conditionCoefficients.ts';
import type { GradeTable } from './gradeTable.ts';
import type { ViscosityGrade } from './viscosityGrade.ts';
import { actingGrade, gradeLimits, gradeName } from './viscosityGrade.ts';

/** Whether a used oil is still the grade it was filled as. */
export interface InGrade {
  readonly verdict: 'in_grade' | 'caution' | 'condemn';
  readonly side: 'thin' | 'thick' | null;
  /** change against fresh oil as a share, below 0 thinner; null: fresh viscosity not known */
  readonly change: number | null;
  /** the operating grade it acts as now; null: thinner or thicker than any */
  readonly actsAs: number | null;
  readonly words: string;
}

/**
 * Stay-in-grade test of a used oil. Slightly out of grade by shear alone is routine and only a caution; a change beyond
 * −20 % or +30 % against fresh oil condemns.
 * @param kv100 measured, mm²/s
 * @param grade as filled
 * @param freshKv100 of the fresh oil, mm²/s; null: judged by the grade alone, one whole grade off condemns
 * @returns verdict and words; 8.9 from a 5W-30 of 10.2 → caution, thin
 * Source: SAE J300 ranges; −20/+30 % laboratory table; shear by common practice, no source.
 */
export function stayInGrade(
  kv100: number,
  grade: ViscosityGrade,
  freshKv100: number | null,
  table: GradeTable,
  coefficients: Coefficients,
): InGrade {
  const limits = gradeLimits(grade, table);
  const side =
    kv100 < limits.kv100Min
      ? 'thin'
      : limits.kv100Below !== null && kv100 >= limits.kv100Below
        ? 'thick'
        : null;
  const change = freshKv100 === null ? null : kv100 / freshKv100 - 1;
  const actsAs = actingGrade(kv100, table);
  const least = coefficientValue(coefficients, 'oil.limit_thinning') - 1;
  const most = coefficientValue(coefficients, 'oil.limit_thickening') - 1;
  const beyond =
    change === null
      ? side !== null && wholeGradeOff(kv100, grade, side, table)
      : change <= least || change >= most;
  const verdict = beyond ? 'condemn' : side === null ? 'in_grade' : 'caution';
  const share =
    change === null
      ? ''
      : `, ${Math.abs(Math.round(100 * change))} % ${change < 0 ? 'thinner' : 'thicker'} than fresh`;
  const name = gradeName(grade);
  const acts = actsAs === null || actsAs === grade.operating ? '' : `, like a ${actsAs} when hot`;
  const words =
    verdict === 'in_grade'
      ? `${kv100.toFixed(1)} mm²/s is within ${name}${share}.`
      : verdict === 'caution'
        ? `${kv100.toFixed(1)} mm²/s is ${side === 'thin' ? 'below' : 'above'} ${name}${share}${acts}; ${side === 'thin' ? 'a little out of grade by shear is routine, check fuel' : 'check soot, oxidation and what was topped up'}.`
        : `${kv100.toFixed(1)} mm²/s is far ${(change ?? (side === 'thin' ? -1 : 1)) < 0 ? 'below' : 'above'} ${name}${share}${acts}: find out why.`;
  return { verdict, side, change, actsAs, words };
}

/** True when the oil acts as a grade beyond the next one to its own. */
function wholeGradeOff(
  kv100: number,
  grade: ViscosityGrade,
  side: 'thin' | 'thick',
  table: GradeTable,
): boolean {
  const rows = [...table.operating].sort((a, b) => a.grade - b.grade);
  const own = rows.findIndex((row) => row.grade === grade.operating);
  if (own < 0) return false;
  const next = rows[own + (side === 'thin' ? -1 : 1)];
  if (next === undefined) return true;
  return side === 'thin' ? kv100 < next.kv100Min : kv100 >= next.kv100Below;
}
