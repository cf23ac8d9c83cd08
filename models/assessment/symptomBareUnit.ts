import type { Coefficients } from '../schema/coefficient.ts';
import type { DeskUnit } from '../schema/deskEndpoints.ts';
import { chainLimitOf } from '../wear/phaseGeometry.ts';

/** What stands in for a unit that is not chosen: an engine with a chain of which nothing is known. */
export function bareUnit(asOf: string, coefficients: Coefficients): DeskUnit {
  return {
    unitNumber: '',
    engineFamily: null,
    site: null,
    call: 'clear',
    asOf,
    inServiceOn: null,
    odometerKm: null,
    interference: null,
    drive: null,
    chainLimit: chainLimitOf(null, coefficients),
    now: { day: 0, sludge: null, chainPercent: null, phaserShare: null },
    stops: [],
    renewals: [],
  };
}
