import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hiddenDrains } from '../../../models/oil/chargeHidden.ts';
import { intervalSpread } from '../../../models/oil/dutyEvidence.ts';
import { dutyRules } from '../../../models/oil/dutyRules.ts';
import { dutyCoefficients } from './dutyHistories.ts';

const rules = dutyRules(dutyCoefficients);
const gap = (intervals: number, over: object = {}) =>
  hiddenDrains({ intervals, running: false, logSd: 0.25, unrecordedChance: 0.1, ...over }, rules);

describe('hidden drains', () => {
  it('a usual interval hides nothing, three of them hide two', () => {
    expect(gap(1).chance).toBeLessThan(0.01);
    expect(gap(1).count).toBe(0);
    expect(gap(3).chance).toBeGreaterThan(0.6);
    expect(gap(3).count).toBe(2);
    expect(gap(5, { logSd: 0.15 }).count).toBe(4);
  });

  it('two intervals by hand', () => {
    // n = 0: 0.9 [0.92 φ(ln 2/0.25)/0.25 + 0.08 φ((ln 2 − 0.35)/0.7)/0.7]
    const phi = (z: number) => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
    const none =
      0.9 * (0.92 * (phi(Math.log(2) / 0.25) / 0.25) + 0.08 * (phi((Math.log(2) - 0.35) / 0.7) / 0.7));
    const spread = (n: number) => Math.sqrt(Math.log(1 + (Math.exp(0.0625) - 1) / n));
    const density = (n: number) =>
      phi((Math.log(2 / n) + spread(n) ** 2 / 2 - 0.0625 / 2) / spread(n)) / spread(n);
    let some = 0;
    for (let n = 1; n <= 9; n++) some += 0.1 * 0.35 * 0.65 ** (n - 1) * density(n + 1);
    expect(gap(2).chance).toBeCloseTo(some / (some + none), 10);
    expect(gap(2).count).toBe(1);
  });

  it('irregular units and long runs leave doubt; silence in the gap raises the chance', () => {
    expect(gap(2, { logSd: 0.6 }).chance).toBeLessThan(gap(2, { logSd: 0.2 }).chance);
    expect(gap(2, { unrecordedChance: 0.4 }).chance).toBeGreaterThan(gap(2).chance);
  });

  it('a running span is only overdue until it is far past', () => {
    expect(gap(0.5, { running: true, unrecordedChance: 0.95 }).chance).toBeLessThan(0.1);
    expect(gap(1.2, { running: true }).chance).toBeLessThan(0.35);
    expect(gap(3, { running: true }).chance).toBeGreaterThan(0.5);
    expect(gap(8, { running: true, unrecordedChance: 0.95 }).count).toBeGreaterThanOrEqual(6);
  });

  it('chances are chances and rise with the span', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 80, noNaN: true }),
        fc.double({ min: 0, max: 2, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.boolean(),
        (intervals, logSd, unrecordedChance, running) => {
          const { chance, count } = gap(intervals, { logSd, unrecordedChance, running });
          expect(chance).toBeGreaterThanOrEqual(0);
          expect(chance).toBeLessThanOrEqual(1);
          expect(Number.isInteger(count)).toBe(true);
          expect(count).toBeLessThanOrEqual(3 * intervals + 4);
        },
      ),
      { seed: 11 },
    );
    let last = 0;
    for (let intervals = 1; intervals < 6; intervals += 0.25) {
      const { chance } = gap(intervals, { running: true });
      expect(chance).toBeGreaterThanOrEqual(last - 0.02);
      last = chance;
    }
  });

  it('spread of intervals ignores gaps', () => {
    const regular = intervalSpread([10, 10.5, 9.5, 10, 10.2, 9.8, 10, 10], rules);
    const withGap = intervalSpread([10, 10.5, 9.5, 10, 10.2, 9.8, 10, 40], rules);
    expect(regular).toBeLessThan(rules.intervalLogSd);
    expect(withGap).toBeCloseTo(regular, 1);
    expect(intervalSpread([10, 20], rules)).toBe(rules.intervalLogSd);
  });
});
