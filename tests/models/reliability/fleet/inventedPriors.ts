import { fleetPriorIds, fleetPriorsFrom } from '../../../../models/reliability/fleet/fleetPriors.ts';

/** Priors for tests: common practice's guess of a timing set's life, and spreads as assumptions. */
export const inventedCoefficients: Record<string, number> = {
  [fleetPriorIds.shapeEstimatedMedian]: 2,
  [fleetPriorIds.shapeEstimatedLogSd]: 0.4,
  [fleetPriorIds.shapeMeasuredMedian]: 2.5,
  [fleetPriorIds.shapeMeasuredLogSd]: 0.3,
  [fleetPriorIds.lifeKm]: 350_000,
  [fleetPriorIds.lifeHours]: 9_000,
  [fleetPriorIds.lifeLogSd]: 0.7,
  [fleetPriorIds.idleWeight]: 0.5,
  [fleetPriorIds.idleWeightLogSd]: 0.5,
  [fleetPriorIds.familySpread]: 0.2,
  [fleetPriorIds.familySpreadLogSd]: 1,
  [fleetPriorIds.typicalSpeedKmH]: 40,
  [fleetPriorIds.baseRatePull]: 0.15,
  [fleetPriorIds.baseRatePullSd]: 0.12,
  [fleetPriorIds.yearSpread]: 0.08,
  [fleetPriorIds.yearSpreadLogSd]: 0.8,
  [fleetPriorIds.levelTrustFailures]: 5,
  [fleetPriorIds.levelYears]: 3,
  [fleetPriorIds.rangeWidening]: 1.15,
};
export const invented = fleetPriorsFrom(inventedCoefficients);
