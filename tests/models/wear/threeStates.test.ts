import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Ranged, UnitStates } from '../../../models/wear/states.ts';
import { chanceAbove, threeStates } from '../../../models/wear/threeStates.ts';
import { coefficients } from './catalog.ts';

const limit = { percent: 0.5, basis: 'general', words: '' } as const;
const states = (sludge: Ranged | null, chainPercent: Ranged | null, phaserShare: Ranged | null) =>
  ({ now: { day: 0, sludge, chainPercent, phaserShare } }) as UnitStates;

describe('what a look would find', () => {
  it('takes a tenth above the end of the range and half above its middle', () => {
    const range = { value: 2, low: 1, high: 4 };
    expect(chanceAbove(range, 4)).toBeCloseTo(0.1, 6);
    expect(chanceAbove(range, 1)).toBeCloseTo(0.9, 6);
    expect(chanceAbove(range, 2)).toBeCloseTo(0.5, 6);
  });

  it('works a case by hand', () => {
    // sludge at its level in the middle: half; chain 0.35 % at its level in the middle: half, so worn 0.5, restricted 0.25
    const found = threeStates(
      states({ value: 4, low: 3, high: 5 }, { value: 0.35, low: 0.3, high: 0.4 }, null),
      limit,
      coefficients,
    )!;
    expect(found.worn).toBeCloseTo(0.5, 6);
    expect(found.restricted).toBeCloseTo(0.25, 6);
    expect(found.neither).toBeCloseTo(0.25, 6);
    expect(threeStates(states(null, null, null), limit, coefficients)).toBeNull();
  });

  it('adds up to 1 and rises with each state', () => {
    const positive = fc.double({ min: 0.01, max: 9, noNaN: true });
    fc.assert(
      fc.property(positive, positive, positive, (s, c, p) => {
        const around = (value: number) => ({ value, low: 0.7 * value, high: 1.4 * value });
        const at = (chain: number) =>
          threeStates(states(around(s), around(chain), around(p)), limit, coefficients)!;
        const { restricted, worn, neither } = at(c);
        expect(restricted + worn + neither).toBeCloseTo(1, 12);
        expect(Math.min(restricted, worn, neither)).toBeGreaterThanOrEqual(0);
        expect(at(c * 1.2).worn).toBeGreaterThanOrEqual(worn);
      }),
    );
  });
});
