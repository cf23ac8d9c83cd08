import { describe, expect, it } from 'vitest';
import { unitRates } from '../../../models/oil/exposure.ts';
import { fleetStates } from '../../../models/wear/fleetStates.ts';
import { oilRange } from '../../../models/wear/oilRange.ts';
import { coefficients } from './catalog.ts';
import { expectedNext, simulateSampledFleet } from './simulation/oilFleet.ts';
import { engineRecord, fillOfEngine, mixedDuty } from './simulation/records.ts';
import { coverage } from './simulation/scores.ts';

const soak = process.env.SOAK === '1';
const seeds = Array.from({ length: soak ? 20 : 3 }, (_, i) => i + 1);
const unsure = { ...unitRates, baseNumberLife: 0.5, oxidation: 0.5, fuel: 0.5, soot: 0.5 };

function rms(values: readonly number[], truths: readonly number[]): number {
  return Math.sqrt(truths.reduce((sum, truth, i) => sum + (values[i] - truth) ** 2, 0) / truths.length);
}

// true rates differ from the catalog by log-sd 0.4; samples at a tenth of the changes, the last one held back
describe.each(seeds)('oil at the next sample, seed %i', (seed) => {
  const fleet = simulateSampledFleet(seed, 200, 0.1);
  const states = fleetStates(fleet.map(({ known }) => known));
  const before = fleet.map((unit) => expectedNext(unit, { rates: unitRates, ratesLogSd: unsure }));
  const after = fleet.map((unit, i) => expectedNext(unit, states[i]));

  it.each([
    ['baseNumber', 0.35],
    ['fuelPercent', 0.15],
  ] as const)('samples cut the error of %s', (value, least) => {
    const truths = fleet.map(({ next }) => next.truth[value]);
    const error = (ranges: typeof after) =>
      rms(
        ranges.map((range) => range[value].value),
        truths,
      );
    expect(1 - error(after) / error(before)).toBeGreaterThanOrEqual(least);
    const ranges = after.map((range) => range[value]);
    expect(coverage(ranges, truths)).toBeGreaterThanOrEqual(0.7);
    expect(coverage(ranges, truths)).toBeLessThanOrEqual(0.9);
  });
});

describe('range of the oil', () => {
  const fillAndEngine = fillOfEngine(engineRecord({}))();
  const sure = { ...unitRates, baseNumberLife: 0, oxidation: 0, fuel: 0, soot: 0 };

  it('stands around the condition model and widens with the doubt about the rates', () => {
    const narrow = oilRange(mixedDuty, fillAndEngine, { rates: unitRates, ratesLogSd: sure }, coefficients);
    const wide = oilRange(mixedDuty, fillAndEngine, { rates: unitRates, ratesLogSd: unsure }, coefficients);
    // the worked duty of the check table: base number 4.03, fuel 0.74 %
    expect(narrow.baseNumber.value).toBeCloseTo(4.03, 1);
    expect(narrow.fuelPercent.value).toBeCloseTo(0.74, 1);
    for (const value of [
      'baseNumber',
      'acidNumber',
      'oxidation',
      'fuelPercent',
      'sootPercent',
      'kv100',
    ] as const) {
      expect(narrow[value].low).toBeLessThan(narrow[value].value);
      expect(narrow[value].high).toBeGreaterThan(narrow[value].value);
      expect(wide[value].high - wide[value].low).toBeGreaterThan(narrow[value].high - narrow[value].low);
    }
  });

  it('is the fresh oil when nothing was driven', () => {
    const nothing = { ...mixedDuty, distanceKm: 0, idleHours: 0, days: 0 };
    const fresh = oilRange(nothing, fillAndEngine, { rates: unitRates, ratesLogSd: unsure }, coefficients);
    expect(fresh.baseNumber.value).toBe(8);
    expect(fresh.baseNumber.low).toBeCloseTo(8, 6);
    expect(Object.values(fresh).every(({ low, high }) => Number.isFinite(low) && Number.isFinite(high))).toBe(
      true,
    );
  });
});
