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
const leastFactor = 0.05;
/** raw sludge and elongation (%) at which more or less contrast changes nothing */
const sludgeTurn = 1;
const chainTurn = 0.2;

/** value^contrast, turned about a fixed point; contrast 1 leaves it as it is. */
function contrasted(value: number, contrast: number, turn: number): number {
  return contrast === 1 || value <= 0 ? value : turn * Math.pow(value / turn, contrast);
}

function sludgeOf(raw: number, contrast: number): number {
  return 10 * (1 - Math.exp(-contrasted(raw, contrast, sludgeTurn) / 10));
}

/**
 * The states along the life for one vector of unknowns.
 * Formulas: sludge dS = dI (1 − S/10), so S = 10 (1 − e^(−I/10)) with I the raw sum; chain = running-in + Σ wear; phaser
 * wear in a clean engine × (1 + s·S). Contrast turns raw sludge and chain wear about a fixed point by a power. Source: catalog wear.*.
 * @param unknowns vector in the order of `latent`
 * @param carry share of the sludge at a cleaning that a screen soon meets again
 */
export function trajectoryInto(r: Response, unknowns: Float64Array, carry: number, into: Trajectory): void {
  const { run, base, constants, resets, before, drift, splitLogOdds } = r;
  const precursor = Math.exp(unknowns[latent.precursor] - base[latent.precursor]);
  const fuel = Math.exp(unknowns[latent.fuel] - base[latent.fuel]) - 1;
  const soot = Math.exp(unknowns[latent.soot] - base[latent.soot]) - 1;
  const oxidation = Math.exp(unknowns[latent.oxidation] - base[latent.oxidation]) - 1;
  const chainRate = Math.exp(unknowns[latent.chain] - base[latent.chain]);
  const phaserRate = Math.exp(unknowns[latent.phaser] - base[latent.phaser]);
  const background = constants.background * Math.exp(unknowns[latent.background]);
  const sludgeRate = constants.sludgeRate * Math.exp(unknowns[latent.sludge]);
  const driftSludge = unknowns[latent.driftSludge];
  const driftChain = unknowns[latent.driftChain];
  const driftPhaser = unknowns[latent.driftPhaser];
  const bankChain = Math.exp(unknowns[latent.bankChain]);
  const bankPhaser = Math.exp(unknowns[latent.bankPhaser]);

  const contrastSludge = Math.exp(unknowns[latent.contrastSludge]);
  const contrastChain = Math.exp(unknowns[latent.contrastChain]);

  let raw = 0;
  let sludge = 0;
  let screenFrom = 0;
  let chain1 = 0;
  let chain2 = 0;
  let phaser1 = 0;
  let phaser2 = 0;
  for (let k = 0; k < resets.length; k++) {
    const bits = resets[k];
    if (bits !== 0) {
      if (bits & reset.sludge) raw = sludge = screenFrom = 0;
      else if (bits & reset.screen) screenFrom = raw * (1 - carry);
      if (bits & reset.chain1) chain1 = 0;
      if (bits & reset.chain2) chain2 = 0;
      if (bits & reset.phaser1) phaser1 = 0;
      if (bits & reset.phaser2) phaser2 = 0;
    }
    const place = drift[k];
    const used = precursor * Math.max(leastFactor, 1 + r.usedByFuel[k] * fuel);
    const from = run.usedFrom[k] * used;
    const to = run.usedTo[k] * used;
    let rawAdded =
      run.hours[k] *
      r.sludgeScale[k] *
      ((background * (from + to)) / 2 + sludgeRate * meanAboveOne(from, to));
    let chainAdded = run.chain[k];
    let phaserAdded = run.phaser[k];
    if (splitLogOdds[k] !== Number.NEGATIVE_INFINITY) {
      const split = 1 / (1 + Math.exp(-splitLogOdds[k] - unknowns[latent.hiddenDrains]));
      const end = r.splitUsed[k] * used;
      const splitRaw = run.hours[k] * ((background * end) / 2 + sludgeRate * meanAboveOne(0, end));
      rawAdded += split * (splitRaw - rawAdded);
      chainAdded += split * (r.splitChain[k] - chainAdded);
      phaserAdded += split * (r.splitPhaser[k] - phaserAdded);
    }
    rawAdded *= Math.max(leastDrift, 1 + driftSludge * place);
    chainAdded *=
      chainRate *
      Math.max(leastDrift, 1 + driftChain * place) *
      Math.max(leastFactor, 1 + r.chainByOxidation[k] * oxidation) *
      Math.max(leastFactor, 1 + r.chainByFuel[k] * fuel) *
      Math.max(leastFactor, 1 + r.chainBySoot[k] * soot);
    phaserAdded *=
      phaserRate *
      Math.max(leastDrift, 1 + driftPhaser * place) *
      Math.max(leastFactor, 1 + r.phaserByFuel[k] * fuel) *
      Math.max(leastFactor, 1 + r.phaserBySoot[k] * soot);
    if (before[k] === 1) {
      rawAdded *= Math.exp(unknowns[latent.beforeSludge]);
      chainAdded *= Math.exp(unknowns[latent.beforeChain]);
      phaserAdded *= Math.exp(unknowns[latent.beforePhaser]);
    }
    raw += rawAdded;
    const sludgeBefore = sludge;
    sludge = sludgeOf(raw, contrastSludge);
    phaserAdded *= 1 + (constants.phaserSludge * (sludgeBefore + sludge)) / 2;
    chain1 += chainAdded * bankChain;
    chain2 += chainAdded / bankChain;
    phaser1 += phaserAdded * bankPhaser;
    phaser2 += phaserAdded / bankPhaser;
    into.sludge[k] = sludge;
    into.screen[k] = screenFrom > 0 ? sludgeOf(raw - screenFrom, contrastSludge) : sludge;
    into.chain1[k] = contrasted(chain1, contrastChain, chainTurn) + r.runningIn1[k];
    into.chain2[k] = contrasted(chain2, contrastChain, chainTurn) + r.runningIn2[k];
    into.phaser1[k] = phaser1;
    into.phaser2[k] = phaser2;
  }
}
