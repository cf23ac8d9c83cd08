import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  camDegreesPerPercent,
  chainLimitOf,
  crankDegreesPerPercent,
  crankDegreesPerTooth,
  driveOfEngine,
  elongationOfCrankDegrees,
  farCamDrive,
  industrialChainLimitPercent,
  pitchRadiusMm,
} from '../../../models/wear/phaseGeometry.ts';
import { coefficients } from './catalog.ts';
import { engineRecord } from './simulation/records.ts';

/** Geometry of the pitch polygon worked out by calculator: r = p / (2 sin(π/z)), degrees = 360/2π · L/100 / r. */
const worked = [
  { drive: { pitchMm: 8, camTeeth: 36, tightStrandMm: 300 }, cam: 3.745, crank: 7.49 },
  { drive: { pitchMm: 9.525, camTeeth: 40, tightStrandMm: 330 }, cam: 3.115, crank: 6.23 },
  { drive: { pitchMm: 6.35, camTeeth: 42, tightStrandMm: 280 }, cam: 3.776, crank: 7.552 },
  { drive: { pitchMm: 8, camTeeth: 38, tightStrandMm: 520 }, cam: 6.151, crank: 12.3 },
];

describe('phase geometry', () => {
  it('gives the degrees per per cent that a calculator gives', () => {
    expect(pitchRadiusMm(8, 36)).toBeCloseTo(45.895, 3);
    for (const { drive, cam, crank } of worked) {
      expect(camDegreesPerPercent(drive)).toBeCloseTo(cam, 3);
      expect(crankDegreesPerPercent(drive)).toBeCloseTo(crank, 2);
    }
    const { drive } = worked[0];
    expect(0.5 * camDegreesPerPercent(drive)).toBeCloseTo(1.873, 3);
    expect(elongationOfCrankDegrees(drive, 3.745)).toBeCloseTo(0.5, 4);
    expect(crankDegreesPerTooth(18)).toBe(20);
  });

  it('turns the far cam further: a longer tight strand gives more degrees', () => {
    const pitch = fc.double({ min: 4, max: 20, noNaN: true });
    const teeth = fc.integer({ min: 14, max: 80 });
    const strand = fc.double({ min: 50, max: 1500, noNaN: true });
    fc.assert(
      fc.property(pitch, teeth, strand, strand, (pitchMm, camTeeth, tightStrandMm, camToCam) => {
        const near = { pitchMm, camTeeth, tightStrandMm };
        const far = farCamDrive(near, camToCam);
        expect(crankDegreesPerPercent(far)).toBeGreaterThan(crankDegreesPerPercent(near));
        // by approximation r ≈ p z / 2π: 360 n/z cam degrees per unit of elongation
        const links = tightStrandMm / pitchMm;
        expect(camDegreesPerPercent(near) / ((3.6 * links) / camTeeth)).toBeCloseTo(1, 1);
      }),
    );
  });

  it('says which value is out of range', () => {
    expect(() => pitchRadiusMm(0, 36)).toThrow('pitchMm must be above 0, got 0');
    expect(() => pitchRadiusMm(8, 2)).toThrow('camTeeth must be above 2, got 2');
    expect(() => camDegreesPerPercent({ pitchMm: 8, camTeeth: 36, tightStrandMm: -1 })).toThrow('got -1');
    expect(() => crankDegreesPerTooth(1)).toThrow('crankTeeth must be above 2, got 1');
    expect(() => farCamDrive(worked[0].drive, -5)).toThrow('got -5');
  });
});

describe('limits of elongation', () => {
  it('puts the limit of the family first', () => {
    expect(chainLimitOf(engineRecord({ chainLimitPercent: 0.4 }), coefficients)).toMatchObject({
      percent: 0.4,
      basis: 'maker',
    });
    expect(chainLimitOf(engineRecord({}), coefficients)).toMatchObject({ percent: 0.5, basis: 'general' });
  });

  it('says that the general limit is only assumed for inverted-tooth chains, and that a belt has none', () => {
    const silent = chainLimitOf(engineRecord({ timingDrive: 'silent_chain' }), coefficients);
    expect(silent?.basis).toBe('assumed');
    expect(silent?.words).toContain('ask the maker');
    expect(chainLimitOf(engineRecord({ timingDrive: 'wet_belt' }), coefficients)).toBeNull();
    expect(driveOfEngine(engineRecord({ timingDrive: 'silent_chain' }))).not.toBeNull();
    expect(driveOfEngine(engineRecord({ timingDrive: 'gear' }))).toBeNull();
    expect(driveOfEngine(engineRecord({ tightStrandMm: null }))).toBeNull();
  });

  // chain makers' guides to ANSI B29 drives: 3 %, 1.5 % with fixed centres, 200/N % above 67 teeth
  it('knows the limits of roller chains in general use', () => {
    expect(industrialChainLimitPercent(36, false, coefficients)).toBe(3);
    expect(industrialChainLimitPercent(36, true, coefficients)).toBe(1.5);
    expect(industrialChainLimitPercent(100, false, coefficients)).toBe(2);
    expect(industrialChainLimitPercent(160, true, coefficients)).toBe(1.25);
    expect(() => industrialChainLimitPercent(2, true, coefficients)).toThrow('got 2');
  });
});
