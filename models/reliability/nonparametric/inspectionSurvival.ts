import { poolAdjacentViolators } from './poolAdjacentViolators.ts';

/** Looks at one age: how many were looked at and how many had failed by then. */
export interface InspectionRow {
  readonly age: number;
  readonly inspected: number;
  readonly failed: number;
}

/**
 * Survival from current-status data (each part looked at once): the maximum likelihood estimate, by pooling adjacent violators on
 * the failed shares (Nelson, Applied Life Data Analysis, chapter 9; Ayer et al. 1955).
 * @param rows in any order, one per age
 * @returns survival just after each age, ascending; the turbine wheels at 38 (100 h) → 0.4189
 * @throws RangeError when failed exceeds inspected or nothing was inspected
 */
export function inspectionSurvival(rows: readonly InspectionRow[]): { age: number; survival: number }[] {
  const sorted = [...rows].sort((a, b) => a.age - b.age);
  sorted.forEach(({ age, inspected, failed }) => {
    if (!(failed >= 0 && failed <= inspected))
      throw new RangeError(`age ${age}: failed must lie from 0 to inspected ${inspected}, got ${failed}`);
  });
  const fitted = poolAdjacentViolators(
    sorted.map(({ inspected, failed }) => failed / inspected),
    sorted.map(({ inspected }) => inspected),
  );
  return sorted.map(({ age }, i) => ({ age, survival: 1 - fitted[i] }));
}
