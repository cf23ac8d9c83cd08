import type { Coefficients } from '../schema/coefficient.ts';
import type { OilCondition } from './condition.ts';
import { setState, stateOf, wearOf } from './condition.ts';
import type { ConditionCoefficients } from './conditionCoefficients.ts';
import { conditionCoefficients } from './conditionCoefficients.ts';
import { advanceCharge, slot, slotCount, startCharge } from './conditionKernel.ts';
import type { Exposure, OilEngine, OilFill, OilState, RateMultipliers } from './exposure.ts';
import { mixedFill } from './mixedFill.ts';

/** A stretch of a charge between two events: a top-up, a sample, a change of duty or season. */
export interface ChargeSegment {
  readonly exposure: Exposure;
  /** oil added at the end of the stretch, L; 0 or left out: none */
  readonly topUpLitersAfter?: number;
  /** the oil added; left out: the same as in the sump when fresh */
  readonly topUpFill?: OilFill;
}

/** A charge taken through its stretches. */
export interface ChargeCourse extends OilCondition {
  /** the oil at the end of each stretch, before its top-up; same order */
  readonly states: readonly OilState[];
  /** the fill after top-ups with another oil */
  readonly fill: OilFill;
}

/**
 * Adds oil to a running charge, in place: what was there is thinned by the share of new oil.
 * Formula: value = (1 − x)·old + x·fresh, x = litres added / sump litres (the level is made up to full).
 * @param share litres added over sump litres, 0..1
 */
export function topUpCharge(slots: Float64Array, share: number, added: OilFill): void {
  const kept = 1 - Math.min(1, Math.max(0, share));
  slots[slot.baseNumber] = kept * slots[slot.baseNumber] + (1 - kept) * added.baseNumber;
  slots[slot.additiveShare] = kept * slots[slot.additiveShare] + (1 - kept);
  for (const place of [slot.oxidation, slot.fuelPercent, slot.sootPercent, slot.dispersancyUsed])
    slots[place] *= kept;
}

/**
 * Oil condition and wear of a charge with events inside it.
 * Each stretch is `oilCondition` from the state before; each top-up mixes fresh oil in.
 * @param segments in order of time; may be empty
 * @param from state at the start, e.g. from {@link carriedOver}; left out: fresh oil
 * @returns state after the last top-up, wear of all stretches, the state at the end of each
 * Throws as `oilCondition`, and when a top-up is below 0.
 */
export function conditionThrough(
  segments: readonly ChargeSegment[],
  engine: OilEngine,
  fill: OilFill,
  rates: RateMultipliers,
  coefficients: Coefficients,
  from?: OilState,
): ChargeCourse {
  const c = conditionCoefficients(coefficients);
  const slots = new Float64Array(slotCount);
  startCharge(slots, fill);
  if (from !== undefined) setState(slots, from);
  const hoursBefore = slots[slot.engineHours];
  const states: OilState[] = [];
  let inSump = fill;
  for (const segment of segments) {
    advanceCharge(slots, segment.exposure, engine, inSump, rates, c);
    states.push(stateOf(slots, engine, inSump, c));
    const liters = segment.topUpLitersAfter ?? 0;
    if (!(liters >= 0)) throw new Error(`topUpLitersAfter must be 0 or above, got ${liters}`);
    if (liters === 0) continue;
    const share = Math.min(1, liters / engine.sumpLiters);
    const added = segment.topUpFill ?? inSump;
    topUpCharge(slots, share, added);
    inSump = mixedFill([
      { fill: inSump, liters: 1 - share },
      { fill: added, liters: share },
    ]);
  }
  return {
    state: stateOf(slots, engine, inSump, c),
    wear: wearOf(slots, hoursBefore, c),
    states,
    fill: inSump,
  };
}

/**
 * The state a new charge starts from: fresh oil with the share of the old charge that stays in galleries and cooler.
 * @param old state at the drain
 * @param fill the oil put in
 * @param share of the old charge that stays, 0..1; left out: the catalog's `oil.carry_over_share` (0.05..0.10)
 * @returns state with engine hours and fuel burned at 0; base number 4 under fresh 8 at 7 % → 7.72
 */
export function carriedOver(
  old: OilState,
  engine: OilEngine,
  fill: OilFill,
  coefficients: Coefficients,
  share?: number,
): OilState {
  const c = conditionCoefficients(coefficients);
  const stays = share ?? c.carryOverShare;
  if (!(stays >= 0 && stays <= 1)) throw new Error(`share must be within 0..1, got ${stays}`);
  const slots = new Float64Array(slotCount);
  setState(slots, old);
  drainCharge(slots, fill, { ...c, carryOverShare: stays });
  return stateOf(slots, engine, fill, c);
}

/** Drains a running charge in place: fresh oil with the catalog's share of the old; wear laid down is kept. */
export function drainCharge(slots: Float64Array, fill: OilFill, c: ConditionCoefficients): void {
  topUpCharge(slots, 1 - c.carryOverShare, fill);
  slots[slot.engineHours] = 0;
  slots[slot.fuelLiters] = 0;
}
