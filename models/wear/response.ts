import type { OilCharge } from '../oil/charge.ts';
import { conditionCoefficients } from '../oil/conditionCoefficients.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { OilState } from '../oil/exposure.ts';
import { arraysOf } from './arrays.ts';
import { latent, ratesOf } from './latents.ts';
import { runSegments, splitCharge } from './responses.ts';
import type { SegmentRun } from './responses.ts';
import { reset } from './segments.ts';
import type { Segment } from './segments.ts';

/** Step in a log-rate for the slope of wear and oil against it. */
export const oilStep = 0.2;

/**
 * How the wear of each segment answers to the unknowns, worked out once around `base`. Wear factors are linear in the
 * multipliers of fuel and soot (chain and phaser), so slope shares in the multiplier keep the form away from `base`.
 */
export interface Response {
  readonly segments: readonly Segment[];
  /** log-rates the run was made with */
  readonly base: Float64Array;
  readonly run: SegmentRun;
  /** sludge of background and of used-up dispersancy at base rates are rebuilt from the ends; this makes them exact */
  readonly sludgeScale: Float64Array;
  readonly usedByFuel: Float64Array;
  readonly chainByOxidation: Float64Array;
  readonly chainByFuel: Float64Array;
  readonly chainBySoot: Float64Array;
  readonly phaserByFuel: Float64Array;
  readonly phaserBySoot: Float64Array;
  /** the other course of charges with hidden drains: log-odds of it (−Infinity: none), and its wear */
  readonly splitLogOdds: Float64Array;
  readonly splitUsed: Float64Array;
  readonly splitChain: Float64Array;
  readonly splitPhaser: Float64Array;
  /** bits of what is renewed before each segment, and whether it is life before the records (1) or not (0) */
  readonly resets: Uint8Array;
  readonly before: Uint8Array;
  /** running-in of the chain at the end of each segment, % by bank; it does not depend on the unknowns */
  readonly runningIn1: Float64Array;
  readonly runningIn2: Float64Array;
  /** place in the unit's life for slow drifts: −√3 .. √3, mean 0 and spread 1 over the hours */
  readonly drift: Float64Array;
  readonly constants: TrajectoryConstants;
  /** oil at the segments asked for, at base and with one rate a step up */
  readonly oilRuns: Readonly<Record<OilRun, readonly (OilState | null)[] | null>>;
}

/** The runs that samples are compared with. */
export type OilRun = 'base' | 'baseNumberLife' | 'oxidation' | 'fuel' | 'soot';

/** Coefficients that the trajectory needs at every step. */
export interface TrajectoryConstants {
  readonly background: number;
  readonly sludgeRate: number;
  readonly phaserSludge: number;
  /** share of the sludge that stays when covers come off for timing work */
  readonly openedLeft: number;
}

function slopeOf(up: number, at: number): number {
  return at > 0 ? (up / at - 1) / Math.expm1(oilStep) : 0;
}

/** Sludge of a segment over which the dispersancy used goes straight from `from` to `to`, per hour: mean, and mean above 1. */
export function meanAboveOne(from: number, to: number): number {
  if (to <= 1) return 0;
  if (from >= 1) return (from + to) / 2 - 1;
  return ((to - 1) * (to - 1)) / (2 * (to - from));
}

/**
 * Runs the model around `base` and its neighbours.
 * @param sampled segments at whose end the oil is wanted
 * @param recordsFromDay day on which the unit's records begin; what lies before is unrecorded life
 */
export function responseOf(
  segments: readonly Segment[],
  charges: readonly OilCharge[],
  base: Float64Array,
  coefficients: Coefficients,
  sampled: ReadonlySet<number>,
  recordsFromDay: number,
): Response {
  const c = conditionCoefficients(coefficients);
  const chargeOf = (segment: Segment): OilCharge | null =>
    segment.chargeIndex < 0 ? null : charges[segment.chargeIndex];
  const wantOil = (_segment: Segment, index: number): boolean => sampled.has(index);
  const runAt = (index: number, laysWear = true): SegmentRun => {
    const moved = base.slice();
    moved[index] += oilStep;
    return runSegments(segments, chargeOf, ratesOf(moved), coefficients, wantOil, laysWear);
  };
  const rates = ratesOf(base);
  const run = runSegments(segments, chargeOf, rates, coefficients, wantOil);
  const oxidation = runAt(latent.oxidation);
  const fuel = runAt(latent.fuel);
  const soot = runAt(latent.soot);
  const life = sampled.size > 0 ? runAt(latent.baseNumberLife, false) : null;
  const count = segments.length;
  const array = arraysOf(11, count);
  const response = {
    segments,
    base: base.slice(0, 8),
    run,
    sludgeScale: array(),
    usedByFuel: array(),
    chainByOxidation: array(),
    chainByFuel: array(),
    chainBySoot: array(),
    phaserByFuel: array(),
    phaserBySoot: array(),
    splitLogOdds: array().fill(Number.NEGATIVE_INFINITY),
    splitUsed: array(),
    splitChain: array(),
    splitPhaser: array(),
    resets: Uint8Array.from(segments, (segment) => segment.resets),
    before: Uint8Array.from(segments, (segment) =>
      segment.chargeIndex < 0 || segment.toDay <= recordsFromDay ? 1 : 0,
    ),
    runningIn1: runningIn(segments, run.hours, reset.chain1, coefficients),
    runningIn2: runningIn(segments, run.hours, reset.chain2, coefficients),
    drift: driftPlaces(run.hours),
    oilRuns: {
      base: run.oil,
      baseNumberLife: life?.oil ?? null,
      oxidation: oxidation.oil,
      fuel: fuel.oil,
      soot: soot.oil,
    },
    constants: {
      background: c.sludgeBackground,
      sludgeRate: c.sludgeRate,
      phaserSludge: c.phaserSludge,
      openedLeft: coefficients['evidence.opened_left'],
    },
  };
  for (let k = 0; k < count; k++) {
    const straight =
      run.hours[k] *
      ((c.sludgeBackground * (run.usedFrom[k] + run.usedTo[k])) / 2 +
        c.sludgeRate * rates.sludge * meanAboveOne(run.usedFrom[k], run.usedTo[k]));
    response.sludgeScale[k] = straight > 0 ? run.sludge[k] / straight : 1;
    response.usedByFuel[k] = slopeOf(fuel.usedTo[k], run.usedTo[k]);
    response.chainByOxidation[k] = slopeOf(oxidation.chain[k], run.chain[k]);
    response.chainByFuel[k] = slopeOf(fuel.chain[k], run.chain[k]);
    response.chainBySoot[k] = slopeOf(soot.chain[k], run.chain[k]);
    response.phaserByFuel[k] = slopeOf(fuel.phaser[k], run.phaser[k]);
    response.phaserBySoot[k] = slopeOf(soot.phaser[k], run.phaser[k]);
    const charge = chargeOf(segments[k]);
    if (charge !== null && charge.hiddenDrains >= 1 && charge.hiddenDrainChance > 0.01) {
      const split = splitCharge(charge, segments[k].fillAndEngine, rates, coefficients);
      const chance = Math.min(0.99, charge.hiddenDrainChance);
      response.splitLogOdds[k] = Math.log(chance / (1 - chance));
      response.splitUsed[k] = split.usedTo;
      response.splitChain[k] = split.chain * segments[k].share;
      response.splitPhaser[k] = split.phaser * segments[k].share;
    }
  }
  return response;
}

function runningIn(
  segments: readonly Segment[],
  hours: Float64Array,
  renewed: number,
  coefficients: Coefficients,
): Float64Array {
  const whole = coefficients['wear.chain_running_in'];
  const over = coefficients['wear.chain_running_in_hours'];
  const values = new Float64Array(hours.length);
  let run = 0;
  for (let k = 0; k < hours.length; k++) {
    run = (segments[k].resets & renewed ? 0 : run) + hours[k];
    values[k] = whole * -Math.expm1(-run / over);
  }
  return values;
}

function driftPlaces(hours: Float64Array): Float64Array {
  let total = 0;
  for (const value of hours) total += value;
  const places = new Float64Array(hours.length);
  let before = 0;
  for (let k = 0; k < hours.length; k++) {
    places[k] = total > 0 ? Math.sqrt(3) * ((2 * before + hours[k]) / total - 1) : 0;
    before += hours[k];
  }
  return places;
}
