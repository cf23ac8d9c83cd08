import type { Models } from '../models/assessment/assessFleet.ts';
import type { Coefficients } from '../models/schema/coefficient.ts';
import { faultCodeFile, faultCodeTable } from '../models/wear/faultCode.ts';
import codes from '../data/catalog/fault-codes.json';

export function fleetModels(coefficients: Coefficients): Models {
  return {
    coefficients,
    faultCodes: faultCodeTable(faultCodeFile.parse(codes)),
    fillsToTry: () => [],
    fillOf: (h) => () => ({
      fill: { kv100: 10.2, baseNumber: 8, acidNumber: 1.5, dispersancyFactor: 1, chainWearFactor: 1 },
      engine: {
        fuelSystem: h.engine?.fuelSystem ?? 'PFI',
        displacementL: h.engine?.displacementL ?? 2.5,
        sumpLiters: h.engine?.sumpL ?? 5,
        fuelSulfurPpm: 10,
      },
    }),
  };
}
