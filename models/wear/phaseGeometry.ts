import type { Coefficients } from '../schema/coefficient.ts';
import type { Engine } from '../schema/engine.ts';

/** The timing drive between the crank sprocket and one cam sprocket. */
export interface ChainDrive {
  /** pitch of the chain, mm, above 0 */
  readonly pitchMm: number;
  /** teeth of the cam sprocket, above 2 */
  readonly camTeeth: number;
  /** length of the tight strand from the crank to that cam, mm, above 0 */
  readonly tightStrandMm: number;
}

function requireDrive(drive: ChainDrive): void {
  if (!(drive.pitchMm > 0)) throw new Error(`pitchMm must be above 0, got ${drive.pitchMm}`);
  if (!(drive.camTeeth > 2)) throw new Error(`camTeeth must be above 2, got ${drive.camTeeth}`);
  if (!(drive.tightStrandMm > 0))
    throw new Error(`tightStrandMm must be above 0, got ${drive.tightStrandMm}`);
}

/**
 * Pitch radius of a sprocket.
 * Formula: r = p / (2 sin(π/z)). Source: geometry of the pitch polygon, as in ISO 606.
 * @param pitchMm p, mm, above 0
 * @param teeth z, above 2
 * @returns mm; 8 mm and 36 teeth → 45.895
 * Throws when pitch or teeth are out of range.
 */
export function pitchRadiusMm(pitchMm: number, teeth: number): number {
  requireDrive({ pitchMm, camTeeth: teeth, tightStrandMm: 1 });
  return pitchMm / (2 * Math.sin(Math.PI / teeth));
}

/**
 * Cam degrees that one per cent of elongation turns the cam back by.
 * Formula: Δθ = (180/π)·(ε/100)·L / r with ε = 1. Source: geometry, common practice.
 * @param drive pitch, teeth, tight strand; for the far cam the strand includes {@link farCamDrive}'s cam-to-cam part
 * @returns cam degrees per per cent; 8 mm, 36 teeth, 300 mm → 3.745
 * Throws when a measure is out of range.
 */
export function camDegreesPerPercent(drive: ChainDrive): number {
  requireDrive(drive);
  return (180 / Math.PI) * (drive.tightStrandMm / 100 / pitchRadiusMm(drive.pitchMm, drive.camTeeth));
}

/** Crank degrees per per cent of elongation: twice the cam's; 8 mm, 36 teeth, 300 mm → 7.490. Throws as the cam's. */
export function crankDegreesPerPercent(drive: ChainDrive): number {
  return 2 * camDegreesPerPercent(drive);
}

/** Elongation (%) that a crank deviation (degrees, either sign kept) stands for; 3.745° on the drive above → 0.5. */
export function elongationOfCrankDegrees(drive: ChainDrive, crankDegrees: number): number {
  return crankDegrees / crankDegreesPerPercent(drive);
}

/** The drive of the cam that is reached over the other cam: its tight strand is longer by the cam-to-cam part, mm. */
export function farCamDrive(drive: ChainDrive, camToCamStrandMm: number): ChainDrive {
  if (!(camToCamStrandMm >= 0))
    throw new Error(`camToCamStrandMm must be 0 or above, got ${camToCamStrandMm}`);
  return { ...drive, tightStrandMm: drive.tightStrandMm + camToCamStrandMm };
}

/** Crank degrees of one tooth skipped on the crank sprocket: 360 / z; 18 teeth → 20. Throws unless teeth are above 2. */
export function crankDegreesPerTooth(crankTeeth: number): number {
  if (!(crankTeeth > 2)) throw new Error(`crankTeeth must be above 2, got ${crankTeeth}`);
  return 360 / crankTeeth;
}

/** The drive as the engine's record describes it; null where a measure is missing or there is no chain. */
export function driveOfEngine(engine: Engine | null): ChainDrive | null {
  if (engine === null || (engine.timingDrive !== 'chain' && engine.timingDrive !== 'silent_chain'))
    return null;
  const { chainPitchMm, camSprocketTeeth, tightStrandMm } = engine;
  if (chainPitchMm === null || camSprocketTeeth === null || tightStrandMm === null) return null;
  return { pitchMm: chainPitchMm, camTeeth: camSprocketTeeth, tightStrandMm };
}

/** An elongation limit and where it comes from. */
export interface ChainLimit {
  readonly percent: number;
  readonly basis: 'maker' | 'general' | 'assumed';
  readonly words: string;
}

/**
 * The elongation at which this engine's chain is renewed.
 * The family's own limit comes first; the general limit holds for roller and bush chains. An inverted-tooth chain has no
 * general limit: the general value then stands in as an assumption that is said.
 * @returns limit, %; null when the engine has no chain
 */
export function chainLimitOf(engine: Engine | null, coefficients: Coefficients): ChainLimit | null {
  const general = coefficients['evidence.chain_limit'];
  if (engine === null || engine.timingDrive === null)
    return {
      percent: general,
      basis: 'assumed',
      words: 'timing drive not described; limit of a roller chain assumed',
    };
  if (engine.timingDrive !== 'chain' && engine.timingDrive !== 'silent_chain') return null;
  if (engine.chainLimitPercent !== null)
    return { percent: engine.chainLimitPercent, basis: 'maker', words: "limit of the engine's maker" };
  if (engine.timingDrive === 'silent_chain')
    return {
      percent: general,
      basis: 'assumed',
      words: "inverted-tooth chain without the maker's limit: the roller chain's stands in, ask the maker",
    };
  return { percent: general, basis: 'general', words: 'general limit of roller and bush timing chains' };
}

/**
 * Elongation limits of roller chains outside engines, for comparison.
 * Formula: 3 % in general; 1.5 % with fixed centres or timing duty; at most 200/N % from N = 67 teeth of the large sprocket.
 * Source: chain makers' guides to ANSI B29 drives.
 * @returns %; 36 teeth with fixed centres → 1.5; 100 teeth → 2 (general)
 * Throws unless teeth are above 2.
 */
export function industrialChainLimitPercent(
  largeSprocketTeeth: number,
  fixedCentres: boolean,
  coefficients: Coefficients,
): number {
  if (!(largeSprocketTeeth > 2))
    throw new Error(`largeSprocketTeeth must be above 2, got ${largeSprocketTeeth}`);
  const duty = coefficients[fixedCentres ? 'evidence.timing_limit' : 'evidence.industrial_limit'];
  if (largeSprocketTeeth <= coefficients['evidence.sprocket_limit_teeth']) return duty;
  return Math.min(duty, coefficients['evidence.sprocket_limit'] / largeSprocketTeeth);
}
