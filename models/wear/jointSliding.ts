/** A chain over its sprockets, for the sliding in its joints. */
export interface ChainLoop {
  /** radius of the pin that slides in the bush, mm, above 0 */
  readonly pinRadiusMm: number;
  /** teeth of every sprocket the chain bends around, each above 2 */
  readonly sprocketTeeth: readonly number[];
  /** teeth of the crank sprocket, above 2 */
  readonly crankTeeth: number;
  readonly links: number;
}

/** What one joint carries. */
export interface JointLoad {
  /** force on the joint, N */
  readonly forceN: number;
  /** bearing area of pin and bush, mm² */
  readonly areaMm2: number;
}

function requireAbove(name: string, value: number, least: number): void {
  if (!(value > least)) throw new Error(`${name} must be above ${least}, got ${value}`);
}

/**
 * Sliding of one joint in one round of the chain.
 * Formula: 2 r Σ 2π/zᵢ: the joint bends by one pitch angle onto each sprocket and back off it. Source: geometry.
 * @returns mm; pin radius 1.155 mm, sprockets 18/36/36 → 1.613
 * Throws when the radius or a tooth count is out of range.
 */
export function slidingPerCircuitMm(loop: ChainLoop): number {
  requireAbove('pinRadiusMm', loop.pinRadiusMm, 0);
  let angle = 0;
  for (const teeth of loop.sprocketTeeth) {
    requireAbove('sprocketTeeth', teeth, 2);
    angle += (2 * Math.PI) / teeth;
  }
  return loop.pinRadiusMm * 2 * angle;
}

/** Sliding of one joint per turn of the crank, mm: per circuit × crank teeth / links; the loop above, 150 links → 0.1935. */
export function slidingPerCrankTurnMm(loop: ChainLoop): number {
  requireAbove('crankTeeth', loop.crankTeeth, 2);
  requireAbove('links', loop.links, 2);
  return (slidingPerCircuitMm(loop) * loop.crankTeeth) / loop.links;
}

/** Sliding distance of one joint, km, over engine hours at a mean speed (1/min); 6000 h at 2000 → 139. */
export function slidingDistanceKm(loop: ChainLoop, engineHours: number, engineRpm: number): number {
  return (slidingPerCrankTurnMm(loop) * engineHours * 60 * engineRpm) / 1e6;
}

/**
 * Elongation by joint wear.
 * Formula: Archard, depth = K/H · pressure · sliding; elongation = depth / pitch. Source: Archard (1953), J. Appl. Phys. 24.
 * @param wearCoefficient K, 1; boundary lubrication with antiwear film 1e-8..1e-7
 * @param hardnessMPa H, N/mm²; 7000 for a case-hardened pin
 * @param slidingKm s, km
 * @returns %; K 1e-7, 300 N on 11 mm², 139 km, pitch 8 mm → 0.68
 * Throws when hardness, area or pitch is not above 0.
 */
export function archardElongationPercent(
  wearCoefficient: number,
  hardnessMPa: number,
  load: JointLoad,
  slidingKm: number,
  pitchMm: number,
): number {
  requireAbove('hardnessMPa', hardnessMPa, 0);
  requireAbove('areaMm2', load.areaMm2, 0);
  requireAbove('pitchMm', pitchMm, 0);
  const depthMm = (wearCoefficient / hardnessMPa) * (load.forceN / load.areaMm2) * slidingKm * 1e6;
  return (100 * depthMm) / pitchMm;
}

/** The wear coefficient K that an elongation (%) stands for; 0.30 % in the example above → 4.4e-8. Throws as above. */
export function archardCoefficient(
  elongationPercent: number,
  hardnessMPa: number,
  load: JointLoad,
  slidingKm: number,
  pitchMm: number,
): number {
  requireAbove('slidingKm', slidingKm, 0);
  return elongationPercent / archardElongationPercent(1, hardnessMPa, load, slidingKm, pitchMm);
}
