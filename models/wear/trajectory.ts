import { arraysOf } from './arrays.ts';
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
  const array = arraysOf(6, count);
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
/** raw sludge at which more or less contrast changes nothing */
const sludgeTurn = 1;

/** Sludge on its scale from the raw sum; contrast turns the sum about a fixed point by a power, 1 leaves it as it is. */
function sludgeOf(raw: number, contrast: number): number {
  if (raw <= 0) return 0;
  const turned = contrast === 1 ? raw : sludgeTurn * Math.exp(contrast * Math.log(raw / sludgeTurn));
  return 10 * (1 - Math.exp(-turned / 10));
}

/**
 * The states along the life for one vector of unknowns.
 * Source: catalog wear.*, see {@link sludgeInto}, {@link chainInto} and {@link phaserInto}.
 * @param unknowns vector in the order of `latent`
 * @param carry share of the sludge at a cleaning that a screen soon meets again
 */
export function trajectoryInto(r: Response, unknowns: Float64Array, carry: number, into: Trajectory): void {
  sludgeInto(r, unknowns, carry, into);
  chainInto(r, unknowns, into);
  phaserInto(r, unknowns, into);
}

/** Share of the other course, in which drains were done that nobody recorded. */
function splitShare(r: Response, k: number, unknowns: Float64Array): number {
  return 1 / (1 + Math.exp(-r.splitLogOdds[k] - unknowns[latent.hiddenDrains]));
}

/** Sludge and what a screen sees of it. Formula: dS = dI (1 − S/10), so S = 10 (1 − e^(−I/10)) with I the raw sum. */
export function sludgeInto(r: Response, unknowns: Float64Array, carry: number, into: Trajectory): void {
  const { run, base, constants, resets, splitLogOdds } = r;
  const precursor = Math.exp(unknowns[latent.precursor] - base[latent.precursor]);
  const fuel = Math.exp(unknowns[latent.fuel] - base[latent.fuel]) - 1;
  const background = constants.background * Math.exp(unknowns[latent.background]);
  const rate = constants.sludgeRate * Math.exp(unknowns[latent.sludge]);
  const drift = unknowns[latent.driftSludge];
  const contrast = Math.exp(unknowns[latent.contrastSludge]);
  const before = Math.exp(unknowns[latent.beforeSludge]);
  const met = carry / (carry + (1 - carry) * Math.exp(-unknowns[latent.screenCarry]));
  let raw = 0;
  let screenFrom = 0;
  for (let k = 0; k < resets.length; k++) {
    const bits = resets[k];
    if (bits & reset.sludge) raw = screenFrom = 0;
    else if (bits & reset.opened) {
      raw *= r.constants.openedLeft;
      screenFrom *= r.constants.openedLeft;
    }
    if (bits & reset.screen && raw > 0) screenFrom = raw * (1 - met);
    const used = precursor * Math.max(leastFactor, 1 + r.usedByFuel[k] * fuel);
    const from = run.usedFrom[k] * used;
    const to = run.usedTo[k] * used;
    let added =
      run.hours[k] * r.sludgeScale[k] * ((background * (from + to)) / 2 + rate * meanAboveOne(from, to));
    if (splitLogOdds[k] !== Number.NEGATIVE_INFINITY) {
      const end = r.splitUsed[k] * used;
      const other = run.hours[k] * ((background * end) / 2 + rate * meanAboveOne(0, end));
      added += splitShare(r, k, unknowns) * (other - added);
    }
    raw += added * Math.max(leastDrift, 1 + drift * r.drift[k]) * (r.before[k] === 1 ? before : 1);
    into.sludge[k] = sludgeOf(raw, contrast);
    into.screen[k] = screenFrom > 0 ? sludgeOf(raw - screenFrom, contrast) : into.sludge[k];
  }
}

/** Chain elongation of both banks, %: running-in and the sum of the charges' wear. */
export function chainInto(r: Response, unknowns: Float64Array, into: Trajectory): void {
  const { run, base, resets, splitLogOdds } = r;
  const rate = Math.exp(unknowns[latent.chain] - base[latent.chain]);
  const oxidation = Math.exp(unknowns[latent.oxidation] - base[latent.oxidation]) - 1;
  const fuel = Math.exp(unknowns[latent.fuel] - base[latent.fuel]) - 1;
  const soot = Math.exp(unknowns[latent.soot] - base[latent.soot]) - 1;
  const drift = unknowns[latent.driftChain];
  const before = Math.exp(unknowns[latent.beforeChain]);
  const bank = Math.exp(unknowns[latent.bankChain]);
  let first = 0;
  let second = 0;
  for (let k = 0; k < resets.length; k++) {
    if (resets[k] & reset.chain1) first = 0;
    if (resets[k] & reset.chain2) second = 0;
    let added = run.chain[k];
    if (splitLogOdds[k] !== Number.NEGATIVE_INFINITY)
      added += splitShare(r, k, unknowns) * (r.splitChain[k] - added);
    added *=
      rate *
      Math.max(leastDrift, 1 + drift * r.drift[k]) *
      Math.max(leastFactor, 1 + r.chainByOxidation[k] * oxidation) *
      Math.max(leastFactor, 1 + r.chainByFuel[k] * fuel) *
      Math.max(leastFactor, 1 + r.chainBySoot[k] * soot) *
      (r.before[k] === 1 ? before : 1);
    first += added * bank;
    second += added / bank;
    into.chain1[k] = first + r.runningIn1[k];
    into.chain2[k] = second + r.runningIn2[k];
  }
}

/** Phaser wear of both banks: that in a clean engine × (1 + s·S), with the sludge S that stands in `into` already. */
export function phaserInto(r: Response, unknowns: Float64Array, into: Trajectory): void {
  const { run, base, resets, splitLogOdds, constants } = r;
  const rate = Math.exp(unknowns[latent.phaser] - base[latent.phaser]);
  const fuel = Math.exp(unknowns[latent.fuel] - base[latent.fuel]) - 1;
  const soot = Math.exp(unknowns[latent.soot] - base[latent.soot]) - 1;
  const drift = unknowns[latent.driftPhaser];
  const before = Math.exp(unknowns[latent.beforePhaser]);
  const bank = Math.exp(unknowns[latent.bankPhaser]);
  let first = 0;
  let second = 0;
  let sludge = 0;
  for (let k = 0; k < resets.length; k++) {
    if (resets[k] & reset.phaser1) first = 0;
    if (resets[k] & reset.phaser2) second = 0;
    if (resets[k] & reset.sludge) sludge = 0;
    let added = run.phaser[k];
    if (splitLogOdds[k] !== Number.NEGATIVE_INFINITY)
      added += splitShare(r, k, unknowns) * (r.splitPhaser[k] - added);
    added *=
      rate *
      Math.max(leastDrift, 1 + drift * r.drift[k]) *
      Math.max(leastFactor, 1 + r.phaserByFuel[k] * fuel) *
      Math.max(leastFactor, 1 + r.phaserBySoot[k] * soot) *
      (r.before[k] === 1 ? before : 1) *
      (1 + (constants.phaserSludge * (sludge + into.sludge[k])) / 2);
    sludge = into.sludge[k];
    first += added * bank;
    second += added / bank;
    into.phaser1[k] = first;
    into.phaser2[k] = second;
  }
}
