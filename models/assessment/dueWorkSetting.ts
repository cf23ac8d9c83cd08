import type { Coefficients } from '../schema/coefficient.ts';

/** What the due work of a unit is judged by. */
export interface DueSetting {
  readonly asOfDay: number;
  /** last day of the plan */
  readonly endDay: number;
  /** bay hours of an oil service without the set-up, h */
  readonly oilServiceHours: number;
  readonly coefficients: Coefficients;
}
