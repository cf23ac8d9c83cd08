import { latent } from './latents.ts';
import { meanAboveOne } from './response.ts';
import type { Response } from './response.ts';
import { reset } from './segments.ts';

/** States at the end of every segment, by bank where banks differ; filled by {@link trajectoryInto}. */
export interface Trajectory {
  /** sludge, 0..10 */
  readonly sludge: Float64Array;
  /** sludge that a screen has met since it was cleaned, 0..10 */
  readonly screen: Float64Array;
  /** chain elongation, %, and phaser wear of bank 1 and bank 2 */
  readonly chain1: Float64Array;
  readonly chain2: Float64Array;
  readonly phaser1: Float64Array;
  readonly phaser2: Float64Array;
}

/** Arrays for a trajectory of `count` segments. */
export function emptyTrajectory(count: number): Trajectory {
  const array = (): Float64Array => new Float64Array(count);
  return {
    sludge: array(),
    screen: array(),
    chain1: array(),
    chain2: array(),
    phaser1: array(),
    phaser2: array(),
  };
}

const leastDrift = 0.1;

/**
 * The states along the life for one vector of unknowns.
 * Formulas: sludge dS = dI (1 − S/10), so S = 10 (1 − e^(−I/10)) with I the raw sum; chain = running-in + Σ wear; phaser
 * wear in a clean engine × (1 + s·S). Source: catalog wear.*.
 * @param unknowns vector in the order of `latent`
 * @param carry share of the sludge at a cleaning that a screen soon meets again
 */
export function trajectoryInto(r: Response, unknowns: Float64Array, carry: number, into: Trajectory): void {
  const { run, base, segments, constants } = r;
  const precursor = Math.exp(unknowns[latent.precursor] - base[latent.precursor]);
  const fuel = Math.expm1(unknowns[latent.fuel] - base[latent.fuel]);
  const soot = Math.expm1(unknowns[latent.soot] - base[latent.soot]);
  const oxidation = Math.expm1(unknowns[latent.oxidation] - base[latent.oxidation]);
  const chainRate = Math.exp(unknowns[latent.chain] - base[latent.chain]);
  const phaserRate = Math.exp(unknowns[latent.phaser] - base[latent.phaser]);
  const background = constants.background * Math.exp(unknowns[latent.background]);
  const sludgeRate = constants.sludgeRate * Math.exp(unknowns[latent.sludge]);
  const beforeSludge = Math.exp(unknowns[latent.beforeSludge]);
  const beforeChain = Math.exp(unknowns[latent.beforeChain]);
  const beforePhaser = Math.exp(unknowns[latent.beforePhaser]);
  const bankChain = Math.exp(unknowns[latent.bankChain]);
  const bankPhaser = Math.exp(unknowns[latent.bankPhaser]);
  const splitShift = unknowns[latent.hiddenDrains];

  let raw = 0;
  let sludge = 0;
  let screenFrom = 0;
  let chain1 = 0;
  let chain2 = 0;
  let hours1 = 0;
  let hours2 = 0;
  let phaser1 = 0;
  let phaser2 = 0;
  for (let k = 0; k < segments.length; k++) {
    const bits = segments[k].resets;
    if (bits !== 0) {
      if (bits & reset.sludge) raw = sludge = screenFrom = 0;
      else if (bits & reset.screen) screenFrom = raw * (1 - carry);
      if (bits & reset.chain1) chain1 = hours1 = 0;
      if (bits & reset.chain2) chain2 = hours2 = 0;
      if (bits & reset.phaser1) phaser1 = 0;
      if (bits & reset.phaser2) phaser2 = 0;
    }
    const place = r.drift[k];
    const before = segments[k].chargeIndex < 0;
    const used = precursor * Math.max(0.05, 1 + r.usedByFuel[k] * fuel);
    const from = run.usedFrom[k] * used;
    const to = run.usedTo[k] * used;
    let rawAdded =
      run.hours[k] *
      r.sludgeScale[k] *
      ((background * (from + to)) / 2 + sludgeRate * meanAboveOne(from, to));
    let chainAdded = run.chain[k];
    let phaserAdded = run.phaser[k];
    if (r.splitLogOdds[k] !== Number.NEGATIVE_INFINITY) {
      const split = 1 / (1 + Math.exp(-r.splitLogOdds[k] - splitShift));
      const end = r.splitUsed[k] * used;
      const splitRaw = run.hours[k] * ((background * end) / 2 + sludgeRate * meanAboveOne(0, end));
      rawAdded += split * (splitRaw - rawAdded);
      chainAdded += split * (r.splitChain[k] - chainAdded);
      phaserAdded += split * (r.splitPhaser[k] - phaserAdded);
    }
    rawAdded *= Math.max(leastDrift, 1 + unknowns[latent.driftSludge] * place);
    chainAdded *=
      chainRate *
      Math.max(leastDrift, 1 + unknowns[latent.driftChain] * place) *
      Math.max(0.05, 1 + r.chainByOxidation[k] * oxidation) *
      Math.max(0.05, 1 + r.chainByFuel[k] * fuel) *
      Math.max(0.05, 1 + r.chainBySoot[k] * soot);
    phaserAdded *=
      phaserRate *
      Math.max(leastDrift, 1 + unknowns[latent.driftPhaser] * place) *
      Math.max(0.05, 1 + r.phaserByFuel[k] * fuel) *
      Math.max(0.05, 1 + r.phaserBySoot[k] * soot);
    if (before) {
      rawAdded *= beforeSludge;
      chainAdded *= beforeChain;
      phaserAdded *= beforePhaser;
    }
    raw += rawAdded;
    const sludgeBefore = sludge;
    sludge = 10 * -Math.expm1(-raw / 10);
    phaserAdded *= 1 + (constants.phaserSludge * (sludgeBefore + sludge)) / 2;
    hours1 += run.hours[k];
    hours2 += run.hours[k];
    chain1 += chainAdded * bankChain;
    chain2 += chainAdded / bankChain;
    phaser1 += phaserAdded * bankPhaser;
    phaser2 += phaserAdded / bankPhaser;
    into.sludge[k] = sludge;
    into.screen[k] = 10 * -Math.expm1(-(raw - screenFrom) / 10);
    into.chain1[k] = chain1 + constants.runningIn * -Math.expm1(-hours1 / constants.runningInHours);
    into.chain2[k] = chain2 + constants.runningIn * -Math.expm1(-hours2 / constants.runningInHours);
    into.phaser1[k] = phaser1;
    into.phaser2[k] = phaser2;
  }
}
