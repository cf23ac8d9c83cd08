import { describe, expect, it } from 'vitest';
import { decayOnce, decayThrice, decayTwice } from '../../../models/oil/decay.ts';
import { risingCrossing } from '../../../models/oil/risingCrossing.ts';

describe('averages over a decay (elementary calculus)', () => {
  it('at 1: 1 − 1/e, 1/e, 1/2 − 1/e', () => {
    expect(decayOnce(1)).toBeCloseTo(1 - Math.exp(-1), 14);
    expect(decayTwice(1)).toBeCloseTo(Math.exp(-1), 14);
    expect(decayThrice(1)).toBeCloseTo(0.5 - Math.exp(-1), 14);
  });
  it('at 0 and near it: 1, 1/2, 1/6, and no step where the series ends', () => {
    expect([decayOnce(0), decayTwice(0), decayThrice(0)]).toEqual([1, 1 / 2, 1 / 6]);
    for (const f of [decayTwice, decayThrice]) expect(f(0.1 - 1e-12) / f(0.1 + 1e-12)).toBeCloseTo(1, 9);
    expect(decayOnce(1e-12)).toBeCloseTo(1 - 5e-13, 14);
  });
  it('agree with a sum over small steps', () => {
    for (const x of [0.03, 0.5, 4, 30]) {
      const n = 20_000;
      let once = 0;
      let twice = 0;
      let thrice = 0;
      for (let i = 0; i < n; i++) {
        const t = (i + 0.5) / n;
        once += Math.exp(-x * t) / n;
        twice += (t * decayOnce(x * t)) / n;
        thrice += (t * t * decayTwice(x * t)) / n;
      }
      expect(decayOnce(x)).toBeCloseTo(once, 7);
      expect(decayTwice(x)).toBeCloseTo(twice, 7);
      expect(decayThrice(x)).toBeCloseTo(thrice, 7);
    }
  });
});

describe('where a rising function passes 0', () => {
  it('finds the root whatever the guess', () => {
    for (const guess of [1e-3, 0.5, 2, 1000])
      expect(risingCrossing((x) => x * x * x - 8, guess)).toBeCloseTo(2, 8);
  });
  it('is 0 when passed already, Infinity when never or beyond the most', () => {
    expect(risingCrossing((x) => x + 1, 1)).toBe(0);
    expect(risingCrossing((x) => -1 / (1 + x), 1)).toBe(Infinity);
    expect(risingCrossing((x) => x - 5, 1, 4)).toBe(Infinity);
    expect(risingCrossing((x) => x - 5, 1, 5)).toBeCloseTo(5, 8);
  });
});
