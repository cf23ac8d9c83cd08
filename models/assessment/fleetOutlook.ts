import { fleetPriorsFrom } from '../reliability/fleet/fleetPriors.ts';
import { fitFleet } from '../reliability/fleet/fitFleet.ts';
import type { FleetFit } from '../reliability/fleet/fleetFit.ts';
import type { Episode } from '../reliability/fleet/episode.ts';
import { seededRandom } from '../numeric/random.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { FleetHistory } from '../schema/history.ts';
import { inService } from './assembleFleet.ts';
import { failureCovariateSpecs } from './failureCovariates.ts';
import { failureEpisodes } from './failureEpisodes.ts';
import { forecastUnits, type FleetChances } from './forecastUnits.ts';
import type { Models } from './models.ts';
import { modelVersion } from './modelVersion.ts';
import type { WorkedUnit } from './workedUnit.ts';

const seed = 20_260_331;

/** The failure model learned from a fleet, and the chances of its units in service, in their order. */
export interface FleetOutlook {
  readonly fit: FleetFit;
  /** every timing set known on the day, those of units that left included */
  readonly episodes: readonly Episode[];
  readonly forecast: FleetChances;
}

/** Text that changes when the records known or the coefficients change, in any order of records. */
function versionText(fleet: FleetHistory, coefficients: Coefficients): string {
  const values = Object.keys(coefficients)
    .sort()
    .map((id) => `${id}=${coefficients[id]}`);
  return [modelVersion, fleet.asOf, fleet.units.length, ...values].join(' ');
}

/**
 * Learns from the lives of all timing sets, those of units that left the fleet included, and tells the chances ahead.
 * @param worked every unit of the fleet
 * @param horizonDays d
 */
export function fleetOutlook(
  fleet: FleetHistory,
  worked: readonly WorkedUnit[],
  { coefficients, faultCodes }: Models,
  horizonDays: number,
): FleetOutlook {
  const hoursKnown = fleet.units.some(
    ({ readings, services }) =>
      readings.some((reading) => reading.engineHoursH !== null) ||
      services.some((service) => service.engineHoursH !== null),
  );
  const lived = worked.map((unit) => ({
    ...unit,
    episodes: failureEpisodes({ ...unit, faultCodes, coefficients, hoursKnown }),
  }));
  const random = seededRandom(seed);
  const episodes = lived.flatMap((unit) => unit.episodes);
  const fit = fitFleet({
    episodes,
    covariates: failureCovariateSpecs(coefficients),
    priors: fleetPriorsFrom(coefficients),
    random,
    versionText: versionText(fleet, coefficients),
  });
  const active = lived.filter(({ history }) => inService(history, fleet.asOf));
  return { fit, episodes, forecast: forecastUnits(fit, active, horizonDays, random) };
}
