import { describe, expect, it } from 'vitest';
import { toldLifeOf } from '../../../models/wear/toldLife.ts';
import { unitStates } from '../../../models/wear/unitStates.ts';
import { unrecordedLifeOf } from '../../../models/wear/unrecordedLife.ts';
import { coefficients, faultCodes } from './catalog.ts';
import {
  engineRecord,
  fillOfEngine,
  historyOf,
  mixedDuty,
  serviceRecord,
  timelineOf,
} from './simulation/records.ts';
import type { ChargePlan } from './simulation/records.ts';

const context = { coefficients, faultCodes, fillOf: fillOfEngine(engineRecord({})) };
/** Eleven changes that nobody wrote down, then eight on record. */
const { distanceKm, idleHours, days } = mixedDuty;
const untold: ChargePlan = {
  exposure: { ...mixedDuty, distanceKm: 12 * distanceKm, idleHours: 12 * idleHours, days: 12 * days },
  hiddenDrains: 11,
  hiddenDrainChance: 0.6,
};
const timeline = timelineOf([untold, ...new Array<ChargePlan>(8).fill({ exposure: mixedDuty })]);
const firstDrain = timeline.charges[1].startDay;

describe('life before the records', () => {
  it('is as many charges as the unit’s own drains make of it, by hand: 11 of 12 shares, 1 left', () => {
    const told = toldLifeOf(timeline, firstDrain - days)!;
    expect(told.unrecorded.charges).toBe(11);
    expect(told.unrecorded.exposure.distanceKm).toBeCloseTo(distanceKm, -1);
    expect(told.timeline.charges).toHaveLength(timeline.charges.length);
    const [first] = told.timeline.charges;
    expect(first.exposure.distanceKm).toBeCloseTo(distanceKm, -1);
    expect(first.hiddenDrains).toBe(0);
  });

  it('keeps the whole exposure: nothing is lost and nothing counts twice', () => {
    for (const before of [1.4, 3, 7.7]) {
      const { unrecorded, timeline: rest } = toldLifeOf(timeline, firstDrain - Math.round(before * days))!;
      const whole = unrecorded.charges * unrecorded.exposure.distanceKm + rest.charges[0].exposure.distanceKm;
      expect(whole).toBeCloseTo(12 * distanceKm, 3);
    }
  });

  it('is not cut where records begin with the unit or after its first drain', () => {
    expect(toldLifeOf(timeline, timeline.firstDay)).toBeNull();
    expect(toldLifeOf(timeline, firstDrain + 1)).toBeNull();
  });

  it('the sample of a first change is of the oil of that change: one interval without a line is no gap', () => {
    const young = timelineOf(new Array<ChargePlan>(3).fill({ exposure: mixedDuty }));
    expect(toldLifeOf(young, young.charges[0].endDay)).toBeNull();
  });

  it('of a hybrid bought used loads the engine as its charges on record do: mean pace by driving hours', () => {
    const slow = { exposure: { ...mixedDuty, speedKmh: 90, enginePaceKmh: 30 } };
    const fast = { exposure: { ...mixedDuty, speedKmh: 45, enginePaceKmh: 42 } };
    const { exposure } = unrecordedLifeOf(
      timelineOf([slow, fast, slow], 18_000, 40_000),
      false,
      coefficients,
    )!;
    // by hand: 20 000 km in 111.1 + 222.2 h; (30 × 111.1 + 42 × 222.2) / 333.3
    expect(exposure.speedKmh).toBeCloseTo(60, 6);
    expect(exposure.enginePaceKmh).toBeCloseTo(38, 6);
    const plain = timelineOf(new Array<ChargePlan>(3).fill({ exposure: mixedDuty }), 18_000, 40_000);
    expect(unrecordedLifeOf(plain, false, coefficients)!.exposure.enginePaceKmh).toBeUndefined();
  });

  it('wears like changes on record, less surely', () => {
    const services = timeline.charges.slice(1).map(({ startDay }) => serviceRecord(startDay, ['oil_change']));
    const { now } = unitStates(timeline, historyOf({ services }), context);
    const known = timelineOf(new Array<ChargePlan>(20).fill({ exposure: mixedDuty }));
    const all = unitStates(known, historyOf(), context).now;
    expect(now.sludge!.value / all.sludge!.value).toBeGreaterThan(0.6);
    expect(now.sludge!.value / all.sludge!.value).toBeLessThan(1.6);
    expect(now.chainPercent!.value / all.chainPercent!.value).toBeGreaterThan(0.75);
    expect(now.chainPercent!.value / all.chainPercent!.value).toBeLessThan(1.3);
    const width = (range: { low: number; high: number }) => range.high - range.low;
    expect(width(now.chainPercent!)).toBeGreaterThan(width(all.chainPercent!));
  });
});
