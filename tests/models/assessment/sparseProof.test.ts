import { describe, expect, test } from 'vitest';
import { assessFleet } from '../../../models/assessment/assessFleet.ts';
import { freezeOrigin, hindcastFleet } from '../../../models/assessment/hindcastFleet.ts';
import { coefficientFile, coefficientValues } from '../../../models/schema/coefficient.ts';
import { isoFromDay } from '../../../models/schema/day.ts';
import { catalogFiles } from '../../../server/catalog.ts';
import { fleetModels } from '../../../server/fleetModels.ts';
import { fleetHistoryOf } from '../../simulation/history.ts';
import { sparseFleet } from '../../simulation/sparse.ts';

const models = fleetModels(coefficientValues(catalogFiles.map((file) => coefficientFile.parse(file))));
const soak = process.env.SOAK === '1';

/** One fleet that kept odometers and renewals and nothing else, on three origins of its own past. */
function proofOf(seed: number) {
  const { rows, truth } = sparseFleet({ seed });
  const lastOn = isoFromDay(truth.endDay);
  const later = fleetHistoryOf(rows, lastOn);
  const frozen = [1095, 730, 365].map((back) => {
    const view = assessFleet(fleetHistoryOf(rows, isoFromDay(truth.endDay - back)), models, 365);
    return freezeOrigin(view, later, lastOn, models);
  });
  return hindcastFleet(frozen, { asOf: lastOn, horizonDays: 365, modelVersion: 'test' }, lastOn).overall;
}

describe.runIf(soak)('sixteen sparse fleets whose lives follow a law that is not the model’s', () => {
  const proofs = Array.from({ length: 16 }, (_, i) => proofOf(i + 1));
  const mean = (value: (proof: (typeof proofs)[number]) => number) =>
    proofs.reduce((sum, proof) => sum + value(proof), 0) / proofs.length;

  test('chances are better than one rate for all and than the odometer alone', () => {
    expect(mean(({ sumpwise }) => sumpwise.brier!)).toBeLessThan(mean(({ baseRate }) => baseRate.brier!));
    expect(mean(({ sumpwise }) => sumpwise.brier!)).toBeLessThan(
      mean(({ odometerOnly }) => odometerOnly.brier!),
    );
    expect(mean(({ sumpwise }) => sumpwise.logScore!)).toBeLessThan(
      mean(({ odometerOnly }) => odometerOnly.logScore!),
    );
    expect(mean(({ sumpwise }) => sumpwise.auc!)).toBeGreaterThan(
      mean(({ odometerOnly }) => odometerOnly.auc!),
    );
  });

  test('80 % ranges of the count hold 70 to 90 % of 48 years, the level holds', () => {
    const covered = mean(({ sumpwise }) => sumpwise.countCoverage!);
    expect(covered).toBeGreaterThanOrEqual(0.7);
    expect(covered).toBeLessThanOrEqual(0.9);
    const ratio = mean(({ sumpwise }) => sumpwise.events) / mean(({ sumpwise }) => sumpwise.expectedOnRun);
    expect(ratio).toBeGreaterThan(0.85);
    expect(ratio).toBeLessThan(1.15);
  });
});
