import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  blendViscosity,
  blendingNumber,
  dilutedViscosity,
  viscosityOfBlendingNumber,
} from '../../../models/oil/viscosityBlend.ts';
import {
  indexLimits,
  reportedViscosityIndex,
  viscosityIndex,
  viscosityIndexFile,
} from '../../../models/oil/viscosityIndex.ts';
import {
  temperatureOfViscosity,
  viscosityAt,
  viscosityLine,
  viscosityOfZ,
  zOfViscosity,
} from '../../../models/oil/viscosityTemperature.ts';
import { catalogJson } from './catalog.ts';

const { bands } = viscosityIndexFile.parse(catalogJson('viscosity-index.json'));
const off = (actual: number, expected: number) => Math.abs(actual / expected - 1);

describe('viscosity–temperature line', () => {
  it('ASTM D341, published worked sheet: 32 at 40, 5.4 at 100, T = C + 273 → A 9.5259, B 3.7449, 8.5 at 80', () => {
    const line = viscosityLine(40, 32, 100, 5.4, 273);
    expect(line.a).toBeCloseTo(9.5259, 3);
    expect(line.b).toBeCloseTo(3.7449, 3);
    expect(viscosityAt(line, 80)).toBeCloseTo(8.5, 1);
  });

  it('ASTM D341, computed with 273.15: A 9.53082, B 3.74658, 8.533 at 80', () => {
    const line = viscosityLine(40, 32, 100, 5.4);
    expect(line.a).toBeCloseTo(9.53082, 5);
    expect(line.b).toBeCloseTo(3.74658, 5);
    expect(viscosityAt(line, 80)).toBeCloseTo(8.533, 3);
  });

  it('ASTM D341, computed: 61.7 / 10.2 at 20, 50, 80, 130 and 150 °C', () => {
    const line = viscosityLine(40, 61.7, 100, 10.2);
    expect(line.a).toBeCloseTo(8.06128, 5);
    expect(line.b).toBeCloseTo(3.12818, 5);
    expect(viscosityAt(line, 20)).toBeCloseTo(160.3, 1);
    expect(viscosityAt(line, 50)).toBeCloseTo(41.67, 2);
    expect(viscosityAt(line, 80)).toBeCloseTo(16.38, 2);
    expect(viscosityAt(line, 130)).toBeCloseTo(5.824, 3);
    expect(viscosityAt(line, 150)).toBeCloseTo(4.312, 3);
  });

  it('gives back the points it was laid through, and the temperature of a viscosity', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 60, noNaN: true }),
        fc.double({ min: 3, max: 15, noNaN: true }),
        (kv100, ratio) => {
          const line = viscosityLine(40, kv100 * ratio, 100, kv100);
          expect(off(viscosityAt(line, 100), kv100)).toBeLessThan(2e-4);
          expect(off(viscosityAt(line, 40), kv100 * ratio)).toBeLessThan(2e-4);
          expect(temperatureOfViscosity(line, viscosityAt(line, 77))).toBeCloseTo(77, 1);
        },
      ),
      { numRuns: 200, seed: 1 },
    );
  });

  it('Z and viscosity are inverse within 0.2 % from 0.3 mm²/s on (the method’s own approximation)', () => {
    for (const v of [0.3, 0.5, 1, 1.5, 2, 5, 20, 100, 500])
      expect(off(viscosityOfZ(zOfViscosity(v)), v)).toBeLessThan(2e-3);
  });

  it('refuses points that no oil has', () => {
    expect(() => viscosityLine(40, 10, 100, 32)).toThrow(
      'viscosity must fall with temperature, got 10 at 40 °C and 32 at 100 °C',
    );
    expect(() => viscosityLine(40, 32, 40, 30)).toThrow('secondC must differ from firstC, got 40');
    expect(() => zOfViscosity(0)).toThrow('viscosity must be above 0.2 mm²/s, got 0');
  });
});

describe('viscosity index', () => {
  const index = (kv40: number, kv100: number) => viscosityIndex(kv40, kv100, bands);

  it('ASTM D2270, published examples: 92, 156, 111 and appendix X2: 92', () => {
    for (const [kv40, kv100, published] of [
      [73.3, 8.86, 92],
      [22.83, 5.05, 156],
      [53.47, 7.8, 111],
      [73.5, 8.86, 92],
    ] as const)
      expect(reportedViscosityIndex(index(kv40, kv100))).toBe(published);
  });

  it('ASTM D2270 by the quadratics, computed: 92.43, 156.46, 111.30, 92.03', () => {
    expect(index(73.3, 8.86)).toBeCloseTo(92.43, 2);
    expect(index(22.83, 5.05)).toBeCloseTo(156.46, 2);
    expect(index(53.47, 7.8)).toBeCloseTo(111.3, 2);
    expect(index(73.5, 8.86)).toBeCloseTo(92.03, 2);
  });

  it('more values over the whole range, computed', () => {
    for (const [kv40, kv100, computed] of [
      [32, 5.4, 102],
      [61.7, 10.2, 153],
      [100, 14, 142],
      [100, 11.1, 96],
      [68, 8.7, 99],
      [1000, 100, 193],
    ] as const)
      expect(reportedViscosityIndex(index(kv40, kv100))).toBe(computed);
  });

  it('L and H: ASTM D2270 table 1 at 4, 10 and 70 mm²/s within 0.1 %, appendix X2 at 8.86', () => {
    for (const [kv100, low, high] of [
      [4, 25.32, 19.56],
      [10, 147.7, 82.87],
      [70, 4905, 1558],
    ] as const) {
      expect(off(indexLimits(kv100, bands).low, low)).toBeLessThan(1e-3);
      expect(off(indexLimits(kv100, bands).high, high)).toBeLessThan(1e-3);
    }
    expect(indexLimits(8.86, bands).low).toBeCloseTo(119.9588, 3);
    expect(indexLimits(8.86, bands).high).toBeCloseTo(69.4765, 3);
  });

  it('joins without a step where the ranges meet, at 70 mm²/s too (each side is within 0.1 % of table 1, so 0.2 %)', () => {
    for (const edge of [3.8, 4.4, 5, 6.4, 7, 7.7, 9, 12, 15, 18, 22, 28, 40, 55, 70]) {
      const below = indexLimits(edge - 1e-9, bands);
      const above = indexLimits(edge + 1e-9, bands);
      expect(off(below.low, above.low)).toBeLessThan(2e-3);
      expect(off(below.high, above.high)).toBeLessThan(2e-3);
    }
  });

  it('is 100 where U is H, both procedures meeting, and falls as the oil thickens at 40 °C', () => {
    fc.assert(
      fc.property(fc.double({ min: 2, max: 200, noNaN: true }), (kv100) => {
        const { high } = indexLimits(kv100, bands);
        expect(index(high, kv100)).toBeCloseTo(100, 9);
        expect(index(high * 0.999, kv100)).toBeGreaterThan(100);
        expect(index(high * 1.05, kv100)).toBeLessThan(100);
      }),
      { numRuns: 200, seed: 2 },
    );
  });

  it('rounds halves to even (value from memory)', () => {
    expect([92.5, 93.5, 92.51, 92.49].map(reportedViscosityIndex)).toEqual([92, 94, 93, 92]);
  });

  it('refuses what the method does not cover', () => {
    expect(() => index(5, 1.9)).toThrow('kv100 must be 2 mm²/s or above, got 1.9');
    expect(() => index(9, 10)).toThrow('kv40 must be above kv100 10, got 9');
  });
});

describe('blending', () => {
  it('Refutas (Maples 2000): 5 and 20 mm²/s at 60:40 → 8.109', () => {
    const parts = [
      { viscosity: 5, share: 60 },
      { viscosity: 20, share: 40 },
    ];
    expect(blendViscosity(parts)).toBeCloseTo(8.109, 3);
  });

  it('10.2 mm²/s with aged petrol of 0.6: 1, 3 and 5 % → 9.70, 8.79, 7.99; diesel fuel of 1.1: 5 % → 8.64 (computed)', () => {
    expect(dilutedViscosity(10.2, 0.6, 1)).toBeCloseTo(9.7, 2);
    expect(dilutedViscosity(10.2, 0.6, 3)).toBeCloseTo(8.79, 2);
    expect(dilutedViscosity(10.2, 0.6, 5)).toBeCloseTo(7.99, 2);
    expect(dilutedViscosity(10.2, 1.1, 5)).toBeCloseTo(8.64, 2);
  });

  it('5 % of fuel takes an SAE 30 to about an SAE 20 (laboratory note)', () => {
    expect(dilutedViscosity(10.2, 0.6, 5)).toBeLessThan(9.3);
    expect(dilutedViscosity(10.2, 0.6, 5)).toBeGreaterThan(6.9);
  });

  it('lies between its parts, and one part alone is itself', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 50, noNaN: true }),
        fc.double({ min: 0.5, max: 50, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (first, second, share) => {
          const blend = blendViscosity([
            { viscosity: first, share },
            { viscosity: second, share: 1 - share },
          ]);
          expect(blend).toBeGreaterThanOrEqual(Math.min(first, second) * (1 - 1e-9));
          expect(blend).toBeLessThanOrEqual(Math.max(first, second) * (1 + 1e-9));
          expect(off(viscosityOfBlendingNumber(blendingNumber(first)), first)).toBeLessThan(1e-9);
        },
      ),
      { numRuns: 200, seed: 3 },
    );
  });

  it('refuses an empty blend', () => {
    expect(() => blendViscosity([])).toThrow('shares must sum to above 0, got 0');
  });
});
