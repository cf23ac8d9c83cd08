import type { CondemningLimits } from '../oil/condemningLimits.ts';
import type { OilCatalog } from '../oil/oilFill.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { FaultCodes } from '../wear/faultCode.ts';

/** The catalogs that the models work with. */
export interface Models {
  readonly coefficients: Coefficients;
  readonly faultCodes: FaultCodes;
  readonly oilCatalog: OilCatalog;
  readonly condemningLimits: CondemningLimits;
}
