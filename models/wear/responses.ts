import { conditionCoefficients } from '../oil/conditionCoefficients.ts';
import { emptyAgingRates, scaleRatesInto } from '../oil/agingRates.ts';
import { partOfExposure, stateOf } from '../oil/condition.ts';
import { advanceCharge, ageCharge, slot, slotCount, startCharge } from '../oil/conditionKernel.ts';
import { drainCharge, topUpCharge } from '../oil/conditionThrough.ts';
import type { OilCharge } from '../oil/charge.ts';
import type { OilState, RateMultipliers } from '../oil/exposure.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { arraysOf } from './arrays.ts';
import { segmentRates } from './segmentRates.ts';
import type { Segment } from './segments.ts';

/** What one run of the condition model over all segments leaves, one value per segment. */
export interface SegmentRun {
  readonly hours: Float64Array;
  /** dispersancy used at the start and the end of the segment */
  readonly usedFrom: Float64Array;
  readonly usedTo: Float64Array;
  /** wear of the segment: raw sludge, chain %, phaser in a clean engine */
  readonly sludge: Float64Array;
  readonly chain: Float64Array;
  readonly phaser: Float64Array;
  /** oil at the end of the segments asked for, by segment; null elsewhere */
  readonly oil: readonly (OilState | null)[];
}

const slots = new Float64Array(slotCount);
const part = new Float64Array(slotCount);
const aging = emptyAgingRates();

/** Rates while faults stand that spoil oil: catalog effects on dispersancy use, fuel and chain wear. */
export function ratesUnderFaults(
  rates: RateMultipliers,
  charge: Pick<OilCharge, 'faults' | 'levelLowLiters'> | null,
  coefficients: Coefficients,
): RateMultipliers {
  if (charge === null || charge.faults.length === 0) return rates;
  let { precursor, fuel, chain } = rates;
  if (charge.faults.includes('ventilation_fault'))
    precursor *= coefficients['evidence.ventilation_fault_effect'];
  if (charge.faults.includes('thermostat_open')) {
    precursor *= coefficients['evidence.thermostat_effect'];
    fuel *= coefficients['evidence.thermostat_effect'];
  }
  if (charge.faults.includes('filter_wrong')) chain *= coefficients['evidence.filter_effect'];
  // a known amount makes the sump smaller already
  if (charge.faults.includes('oil_level_low') && charge.levelLowLiters <= 0)
    precursor *= coefficients['evidence.level_low_effect'];
  return { ...rates, precursor, fuel, chain };
}

/**
 * Runs the condition model over the segments, drain by drain, with what each drain leaves behind.
 * @param chargeOf the charge of a segment, for the faults that stood; null for unrecorded life
 * @param rates multipliers on the catalog
 * @param wantOil whether the oil at the end of a segment is wanted
 * @param laysWear false: only the oil is wanted, all wear is left at 0
 */
export function runSegments(
  segments: readonly Segment[],
  chargeOf: (segment: Segment) => OilCharge | null,
  rates: RateMultipliers,
  coefficients: Coefficients,
  wantOil: (segment: Segment, index: number) => boolean,
  laysWear = true,
): SegmentRun {
  const c = conditionCoefficients(coefficients);
  const plain = segmentRates(segments, coefficients);
  const count = segments.length;
  const array = arraysOf(6, count);
  const hours = array();
  const usedFrom = array();
  const usedTo = array();
  const sludge = array();
  const chain = array();
  const phaser = array();
  const oil: (OilState | null)[] = new Array<OilState | null>(count).fill(null);
  slots.fill(0);
  for (let k = 0; k < count; k++) {
    const segment = segments[k];
    const { fill, engine } = segment.fillAndEngine;
    if (segment.startsCharge) {
      if (k === 0) startCharge(slots, fill);
      else drainCharge(slots, fill, c);
    }
    slots[slot.sludge] = 0;
    slots[slot.chainPercent] = 0;
    slots[slot.phaserClean] = 0;
    const hoursBefore = slots[slot.engineHours];
    usedFrom[k] = slots[slot.dispersancyUsed];
    const own = ratesUnderFaults(rates, chargeOf(segment), coefficients);
    scaleRatesInto(plain[k], own, aging);
    ageCharge(slots, aging, segment.exposure, engine, fill, own, c, laysWear);
    hours[k] = (slots[slot.engineHours] - hoursBefore) * segment.repeat;
    usedTo[k] = slots[slot.dispersancyUsed];
    sludge[k] = slots[slot.sludge] * segment.repeat;
    chain[k] = slots[slot.chainPercent] * segment.repeat;
    phaser[k] = slots[slot.phaserClean] * segment.repeat;
    if (wantOil(segment, k)) oil[k] = stateOf(slots, engine, fill, c);
    if (segment.topUpLiters > 0) topUpCharge(slots, segment.topUpLiters / engine.sumpLiters, fill);
  }
  return { hours, usedFrom, usedTo, sludge, chain, phaser, oil };
}

/** One charge as if it had been drained `drains` times more in equal parts: dispersancy used at its ends and wear in all. */
export interface SplitCharge {
  readonly usedTo: number;
  readonly sludge: number;
  readonly chain: number;
  readonly phaser: number;
}

/** Wear of a charge with drains that nobody recorded; the condition model over equal parts. */
export function splitCharge(
  charge: OilCharge,
  fillAndEngine: Segment['fillAndEngine'],
  rates: RateMultipliers,
  coefficients: Coefficients,
): SplitCharge {
  const c = conditionCoefficients(coefficients);
  const parts = charge.hiddenDrains + 1;
  const { fill, engine } = fillAndEngine;
  startCharge(part, fill);
  advanceCharge(
    part,
    partOfExposure(charge.exposure, 1 / parts),
    engine,
    fill,
    ratesUnderFaults(rates, charge, coefficients),
    c,
  );
  return {
    usedTo: part[slot.dispersancyUsed],
    sludge: part[slot.sludge] * parts,
    chain: part[slot.chainPercent] * parts,
    phaser: part[slot.phaserClean] * parts,
  };
}
