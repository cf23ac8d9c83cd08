import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  archardCoefficient,
  archardElongationPercent,
  slidingDistanceKm,
  slidingPerCircuitMm,
  slidingPerCrankTurnMm,
} from '../../../models/wear/jointSliding.ts';

const loop = { pinRadiusMm: 1.155, sprocketTeeth: [18, 36, 36], crankTeeth: 18, links: 150 };
const load = { forceN: 300, areaMm2: 11 };

describe('sliding in a chain joint', () => {
  it('adds up the bends of one round', () => {
    // 2 · 1.155 · 2π (1/18 + 2/36) = 1.613 mm
    expect(slidingPerCircuitMm(loop)).toBeCloseTo(1.613, 3);
    expect(slidingPerCrankTurnMm(loop)).toBeCloseTo(0.1935, 4);
    expect(slidingDistanceKm(loop, 6000, 2000)).toBeCloseTo(139, 0);
  });

  // Archard (1953): wear volume = K · force · sliding / hardness
  it('takes Archard’s coefficient both ways', () => {
    expect(archardElongationPercent(1e-7, 7000, load, 139.36, 8)).toBeCloseTo(0.68, 2);
    expect(archardCoefficient(0.3, 7000, load, 139.36, 8)).toBeCloseTo(4.4e-8, 9);
    // 0.30 % of 8 mm is 0.024 mm in each joint; k = K/H = 6.3e-9 mm³/(N·m)
    expect((archardCoefficient(0.3, 7000, load, 139.36, 8) / 7000) * 1000).toBeCloseTo(6.3e-9, 10);
  });

  it('grows in step with force and sliding', () => {
    const positive = fc.double({ min: 0.01, max: 100, noNaN: true });
    fc.assert(
      fc.property(positive, positive, (force, km) => {
        const once = archardElongationPercent(1e-7, 7000, { forceN: force, areaMm2: 11 }, km, 8);
        expect(
          archardElongationPercent(1e-7, 7000, { forceN: 2 * force, areaMm2: 11 }, km, 8) / once,
        ).toBeCloseTo(2, 9);
        expect(
          archardElongationPercent(1e-7, 7000, { forceN: force, areaMm2: 11 }, 3 * km, 8) / once,
        ).toBeCloseTo(3, 9);
      }),
    );
  });

  it('says which value is out of range', () => {
    expect(() => slidingPerCircuitMm({ ...loop, pinRadiusMm: 0 })).toThrow(
      'pinRadiusMm must be above 0, got 0',
    );
    expect(() => slidingPerCrankTurnMm({ ...loop, links: 1 })).toThrow('links must be above 2, got 1');
    expect(() => archardElongationPercent(1e-7, 0, load, 1, 8)).toThrow('hardnessMPa must be above 0, got 0');
    expect(() => archardCoefficient(0.3, 7000, load, 0, 8)).toThrow('slidingKm must be above 0, got 0');
  });
});
