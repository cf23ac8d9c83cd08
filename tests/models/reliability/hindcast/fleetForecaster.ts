import type { CovariateSpec } from '../../../../models/reliability/fleet/covariateSpec.ts';
import { fitFleet } from '../../../../models/reliability/fleet/fitFleet.ts';
import type { FleetPriors } from '../../../../models/reliability/fleet/fleetPriors.ts';
import { forecastFleet } from '../../../../models/reliability/fleet/forecastFleet.ts';
import type { Forecaster } from '../../../../models/reliability/hindcast/hindcastTypes.ts';

/** The fleet's failure model as a forecaster: fitted to what was known at the origin, asked about the use foreseen then. */
export function fleetForecaster(covariates: readonly CovariateSpec[], priors: FleetPriors): Forecaster {
  return ({ episodes, atRisk }, random) => {
    const fit = fitFleet({ episodes, covariates, priors, random, versionText: 'hindcast' });
    const { units, count } = forecastFleet(fit, atRisk, random);
    return {
      chances: units.map(({ probability }) => probability),
      countLow: count.low,
      countHigh: count.high,
    };
  };
}
