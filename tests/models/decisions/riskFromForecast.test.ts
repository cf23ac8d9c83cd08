import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../models/numeric/random.ts';
import { sortedQuantile } from '../../../models/decisions/range.ts';
import { riskOf } from '../../../models/decisions/risk.ts';
import { riskFromForecast, shuffledDeviates } from '../../../models/decisions/riskFromForecast.ts';

const forecast = { probability: 0.12, low: 0.05, high: 0.2, horizonMonths: 12, ageMonths: 60, shape: 2 };
const fleet = shuffledDeviates(400, seededRandom(1));
const chances = (over: Partial<typeof forecast>, months = 12, share = 0.5) => {
  const draws = riskFromForecast({ ...forecast, ...over }, fleet, share, seededRandom(2));
  const risk = riskOf(draws!);
  return Float64Array.from({ length: risk.draws }, (_, draw) => -Math.expm1(-risk.hazard(0, draw, months)));
};
const mean = (values: Float64Array) => values.reduce((a, b) => a + b, 0) / values.length;

describe('risk from a forecast', () => {
  it('worked by hand: no spread, shape 2, age 3 and horizon 1', () => {
    const draws = riskFromForecast(
      { probability: 0.5, low: 0.5, high: 0.5, horizonMonths: 1, ageMonths: 3, shape: 2 },
      Float64Array.of(0.3),
      1,
      seededRandom(1),
    );
    // (16 − 9)/scale² = ln 2
    if (draws?.kind !== 'wear') throw new Error('expected wear draws');
    expect(draws.parts[0]!.scale[0]).toBeCloseTo(Math.sqrt(7 / Math.LN2), 6);
  });
  it('gives the chance back as its mean and keeps the width of its range', () => {
    const values = chances({});
    expect(mean(values)).toBeCloseTo(0.12, 8);
    const hazard = (share: number) => Math.log(-Math.log1p(-sortedQuantile(values.toSorted(), share)));
    const width = (Math.log(-Math.log1p(-0.2)) - Math.log(-Math.log1p(-0.05))) / 2;
    expect((hazard(0.9) - hazard(0.1)) / 2 / width).toBeCloseTo(1, 1);
  });
  it('shares what is not known of the fleet', () => {
    const [a, b] = [3, 4].map((seed) => {
      const risk = riskOf(riskFromForecast(forecast, fleet, 1, seededRandom(seed))!);
      return risk.hazard(0, 17, 12);
    });
    expect(a).toBeCloseTo(b!, 12);
  });
  it('carries wear beyond the horizon: the second year is worse than the first', () => {
    const [first, second] = [mean(chances({}, 12)), mean(chances({}, 24))];
    expect(second - first).toBeGreaterThan(first * (1 - first));
  });
  it('refuses nonsense and an unknown age gives no draws', () => {
    expect(riskFromForecast({ ...forecast, ageMonths: null }, fleet, 0.5, seededRandom(1))).toBeNull();
    expect(() => chances({ probability: 0 })).toThrow('probability must lie between 0 and 1, got 0');
    expect(() => chances({ low: 0.4 })).toThrow('low must not be above high, got 0.4 and 0.2');
    expect(() => chances({ shape: -1 })).toThrow('shape must be above 0, got -1');
    expect(() => chances({ ageMonths: -1 })).toThrow('ageMonths must be 0 or above, got -1');
    expect(() => chances({}, 12, 2)).toThrow('fleetShare must lie in 0..1, got 2');
    expect(() => shuffledDeviates(0, seededRandom(1))).toThrow('count must be a whole number from 1, got 0');
  });
  it('gives the chance back for any forecast', () => {
    const share = fc.double({ min: 0.0005, max: 0.95, noNaN: true });
    fc.assert(
      fc.property(share, share, share, fc.double({ min: 0, max: 300, noNaN: true }), (p, a, b, ageMonths) => {
        const values = chances({ probability: p, low: Math.min(a, b), high: Math.max(a, b), ageMonths });
        expect(Math.abs(mean(values) - p)).toBeLessThan(1e-6);
      }),
      { seed: 71, numRuns: 60 },
    );
  });
});
