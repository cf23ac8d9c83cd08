import type { Coefficients } from '../schema/coefficient.ts';
import type { FaultCodes } from '../wear/faultCode.ts';

/** What the due work of a unit is judged by. */
export interface DueSetting {
  readonly asOfDay: number;
  /** last day of the plan */
  readonly endDay: number;
  /** bay hours of an oil service without the set-up, h */
  readonly oilServiceHours: number;
  /** the catalog's codes with their groups */
  readonly faultCodes: FaultCodes;
  readonly coefficients: Coefficients;
}
