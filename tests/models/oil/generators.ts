import fc from 'fast-check';
import type { FuelSystem } from '../../../models/oil/exposure.ts';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Any charge that a road vehicle could see, with rates off by up to a factor of 2. */
export const anyCharge = fc.record({
  exposure: fc.record({
    distanceKm: between(200, 40_000),
    speedKmh: between(12, 110),
    tripKm: between(1, 200),
    idleHours: between(0, 900),
    ptoHours: fc.oneof(fc.constant(0), between(0, 200)),
    days: between(5, 700),
    ambientC: between(-25, 40),
    towingShare: fc.oneof(fc.constant(0), between(0, 1)),
    dustShare: fc.oneof(fc.constant(0), between(0, 1)),
    soakedStartsPerDay: between(0.5, 6),
    fuelLiters: fc.constant(null),
    litersPer100Km: fc.oneof(fc.constant(null), between(5, 30)),
  }),
  engine: fc.record({
    fuelSystem: fc.constantFrom<FuelSystem>('PFI', 'GDI', 'TGDI', 'diesel', 'gas'),
    displacementL: between(1, 7),
    sumpLiters: between(3.5, 14),
    fuelSulfurPpm: fc.constantFrom(0, 10, 50),
  }),
  fill: fc.record({
    kv100: between(6, 20),
    baseNumber: between(6, 12),
    acidNumber: between(1, 3),
    dispersancyFactor: fc.constantFrom(0.75, 1, 1.3),
    chainWearFactor: fc.constantFrom(1, 1.4),
  }),
  rates: fc.record({
    baseNumberLife: between(0.5, 2),
    oxidation: between(0.5, 2),
    fuel: between(0.5, 2),
    soot: between(0.5, 2),
    precursor: between(0.5, 2),
    sludge: between(0.5, 2),
    chain: between(0.5, 2),
    phaser: between(0.5, 2),
  }),
});
