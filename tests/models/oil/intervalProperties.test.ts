import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chemicalLimit } from '../../../models/oil/chemicalLimit.ts';
import { oilCondition, partOfExposure } from '../../../models/oil/condition.ts';
import type { Exposure, OilEngine, OilFill, RateMultipliers } from '../../../models/oil/exposure.ts';
import { unitRates } from '../../../models/oil/exposure.ts';
import { recommendedInterval } from '../../../models/oil/recommendedInterval.ts';
import type { Coefficients } from '../../../models/schema/coefficient.ts';
import { coefficients } from './catalog.ts';
import { checkCase } from './checkCases.ts';
import { anyCharge } from './generators.ts';

interface Charge {
  readonly exposure: Exposure;
  readonly engine: OilEngine;
  readonly fill: OilFill;
  readonly rates: RateMultipliers;
}
const book = {
  intervalKm: 15_000,
  intervalMonths: 12,
  severeIntervalKm: 7500,
  severeIntervalMonths: 6,
  hoursLimitH: null,
};
const interval = ({ exposure, engine, fill, rates }: Charge, c: Coefficients = coefficients) =>
  recommendedInterval({ coming: [exposure], engine, fill, rates, book, severe: false }, c);

/** The catalog with each coefficient within its stated range, so that what must hold does not hang on one value. */
const anyCoefficients = fc.array(fc.double({ min: -0.5, max: 0.5, noNaN: true }), {
  minLength: 12,
  maxLength: 12,
});
const moved = (shifts: readonly number[]): Coefficients => {
  const ids = [
    'oil.base_number_life',
    'oil.oxidation_rate',
    'oil.additive_rate',
    'oil.precursor_driving',
    'oil.precursor_idle',
    'oil.precursor_cold',
    'oil.precursor_fuel',
    'wear.sludge_rate',
    'wear.chain_rate',
    'wear.chain_soot',
    'wear.chain_fuel',
    'wear.phaser_viscosity',
  ];
  const values = { ...coefficients };
  ids.forEach((id, i) => (values[id] *= Math.exp(shifts[i])));
  return values;
};

describe('what must hold whatever the coefficients', () => {
  it('halving the interval never raises sludge, chain wear or phaser wear', () => {
    fc.assert(
      fc.property(anyCharge, anyCoefficients, ({ exposure, engine, fill, rates }, shifts) => {
        const c = moved(shifts);
        const once = oilCondition(exposure, engine, fill, rates, c).wear;
        const half = oilCondition(partOfExposure(exposure, 0.5), engine, fill, rates, c).wear;
        expect(2 * half.sludge).toBeLessThanOrEqual(once.sludge * (1 + 1e-9));
        expect(2 * half.chainPercent).toBeLessThanOrEqual(once.chainPercent * (1 + 1e-3));
        expect(2 * half.phaserClean).toBeLessThanOrEqual(once.phaserClean * (1 + 1e-3));
      }),
      { numRuns: 300, seed: 61, endOnFailure: true },
    );
  });

  it('more idle hours never lengthen the recommended interval, in km or in days', () => {
    fc.assert(
      fc.property(
        anyCharge,
        anyCoefficients,
        fc.double({ min: 0.01, max: 600, noNaN: true }),
        (charge, shifts, more) => {
          const c = moved(shifts);
          const { exposure } = charge;
          const before = interval(charge, c).interval;
          const after = interval(
            { ...charge, exposure: { ...exposure, idleHours: exposure.idleHours + more } },
            c,
          ).interval;
          expect(after.distanceKm).toBeLessThanOrEqual(before.distanceKm * (1 + 1e-6));
          expect(after.days).toBeLessThanOrEqual(before.days * (1 + 1e-6));
        },
      ),
      { numRuns: 400, seed: 62, endOnFailure: true },
    );
  });

  it('the same distance with a larger sump uses less dispersancy and never shortens the interval', () => {
    fc.assert(
      fc.property(anyCharge, fc.double({ min: 1.1, max: 3, noNaN: true }), (charge, larger) => {
        const engine = { ...charge.engine, sumpLiters: charge.engine.sumpLiters * larger };
        const small = oilCondition(charge.exposure, charge.engine, charge.fill, charge.rates, coefficients);
        const large = oilCondition(charge.exposure, engine, charge.fill, charge.rates, coefficients);
        expect(large.state.dispersancyUsed).toBeLessThan(small.state.dispersancyUsed);
        expect(interval({ ...charge, engine }).interval.days).toBeGreaterThanOrEqual(
          interval(charge).interval.days * (1 - 1e-6),
        );
      }),
      { numRuns: 200, seed: 63, endOnFailure: true },
    );
  });

  it('colder shortens the chemical limit of short trips and hardly moves that of the highway', () => {
    fc.assert(
      fc.property(anyCharge, fc.double({ min: 5, max: 20, noNaN: true }), (charge, colder) => {
        const { engine, fill, rates } = charge;
        fc.pre(engine.fuelSystem !== 'gas');
        const limit = (exposure: Exposure) =>
          chemicalLimit(exposure, engine, fill, rates, coefficients).times.dispersancy!;
        const short: Exposure = {
          ...charge.exposure,
          tripKm: 5,
          speedKmh: 28,
          idleHours: 0,
          ptoHours: 0,
          ambientC: 10,
          soakedStartsPerDay: 3,
          days: charge.exposure.distanceKm / 15,
        };
        expect(limit({ ...short, ambientC: 10 - colder })).toBeLessThan(limit(short));
        const highway = { ...short, tripKm: 150, speedKmh: 90 };
        const shift = (e: Exposure) => Math.log(limit(e) / limit({ ...e, ambientC: 10 - colder }));
        expect(shift(highway)).toBeLessThan(shift(short));
        // base number governs the highway of the check table, and cold does not move base number
        const a = checkCase('A');
        const whole = (ambientC: number) =>
          chemicalLimit({ ...a.exposure, ambientC }, a.engine, a.fill, unitRates, coefficients);
        expect(whole(10 - colder).distanceKm! / whole(10).distanceKm!).toBeCloseTo(1, 9);
      }),
      { numRuns: 150, seed: 64, endOnFailure: true },
    );
  });

  it('an interval is a finite number above 0 with one governing limit, and no limit lies before it', () => {
    fc.assert(
      fc.property(anyCharge, (charge) => {
        const advice = interval(charge);
        expect(Number.isFinite(advice.interval.days)).toBe(true);
        expect(advice.interval.days).toBeGreaterThan(0);
        expect(advice.limits[0].limit).toBe(advice.governing);
        for (const line of advice.limits) expect(line.at.days).toBeGreaterThanOrEqual(advice.interval.days);
        expect(JSON.stringify(advice)).not.toMatch(/NaN|null|Infinity/);
      }),
      { numRuns: 300, seed: 65, endOnFailure: true },
    );
  });

  it('stop-start vans and taxis are held by the hours cap, not by chemistry alone', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 18, max: 30, noNaN: true }),
        fc.double({ min: 0.27, max: 0.5, noNaN: true }),
        (speedKmh, idleShare) => {
          const drivingHours = 8000 / speedKmh;
          const advice = interval({
            exposure: {
              distanceKm: 8000,
              speedKmh,
              tripKm: 3,
              idleHours: (drivingHours * idleShare) / (1 - idleShare),
              ptoHours: 0,
              days: 80,
              ambientC: 12,
              towingShare: 0,
              dustShare: 0,
              soakedStartsPerDay: 2,
              fuelLiters: null,
              litersPer100Km: 13,
            },
            engine: { fuelSystem: 'GDI', displacementL: 3.5, sumpLiters: 5.7, fuelSulfurPpm: 10 },
            fill: { kv100: 10.2, baseNumber: 8, acidNumber: 2, dispersancyFactor: 1, chainWearFactor: 1 },
            rates: unitRates,
          });
          expect(advice.interval.engineHours).toBeLessThanOrEqual(200 + 1e-6);
        },
      ),
      { numRuns: 60, seed: 66, endOnFailure: true },
    );
  });
});
