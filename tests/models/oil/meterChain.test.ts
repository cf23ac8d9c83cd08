import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { heaviestChain } from '../../../models/oil/meterChain.ts';

const kept = (points: readonly (readonly [number, number])[], limit: number, slackDays = 0) =>
  [
    ...heaviestChain(
      points.map(([day]) => day),
      points.map(([, value]) => value),
      points.map(() => 1),
      limit,
      slackDays,
    ),
  ].join('');

describe('heaviest chain of meter points', () => {
  it('leaves out what breaks the order or the speed limit, by hand', () => {
    expect(kept([], 100)).toBe('');
    expect(kept([[0, 5]], 100)).toBe('1');
    expect(
      kept(
        [
          [0, 100],
          [1, 900],
          [2, 120],
        ],
        100,
      ),
    ).toBe('101');
    expect(
      kept(
        [
          [0, 100],
          [5, 90],
          [10, 200],
          [20, 300],
        ],
        100,
      ),
    ).toMatch(/^(10|01)11$/);
    expect(
      kept(
        [
          [0, 0],
          [1, 50],
          [2, 5000],
          [3, 150],
          [4, 200],
        ],
        100,
      ),
    ).toBe('11011');
    // exactly at the limit is believed
    expect(
      kept(
        [
          [0, 0],
          [1, 100],
          [2, 200],
        ],
        100,
      ),
    ).toBe('111');
  });

  it('lets values of one day differ within the slack', () => {
    expect(
      kept(
        [
          [3, 100],
          [3, 180],
        ],
        100,
        0.9,
      ),
    ).toBe('11');
    expect(
      kept(
        [
          [3, 100],
          [3, 200],
        ],
        100,
        0.9,
      ),
    ).not.toBe('11');
  });

  it('weighs points on record twice as two', () => {
    const keep = heaviestChain([0, 1, 2], [100, 50, 60], [5, 1, 1], 100, 0);
    expect([...keep]).toEqual([1, 0, 0]);
  });

  it('is as heavy as the best of all subsets', () => {
    const point = fc.tuple(
      fc.integer({ min: 0, max: 12 }),
      fc.integer({ min: 0, max: 30 }).map((v) => v * 10),
    );
    fc.assert(
      fc.property(fc.array(point, { minLength: 1, maxLength: 9 }), (raw) => {
        const points = [...raw].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
        const limit = 40;
        const fits = (a: readonly number[], b: readonly number[]) =>
          a[1] <= b[1] && b[1] - a[1] <= limit * (b[0] - a[0] + 0.9) && a[0] <= b[0];
        let best = 0;
        for (let mask = 1; mask < 1 << points.length; mask++) {
          const chosen = points.filter((_, i) => mask & (1 << i)).sort((a, b) => a[1] - b[1] || a[0] - b[0]);
          if (chosen.every((one, i) => i === 0 || fits(chosen[i - 1], one)))
            best = Math.max(best, chosen.length);
        }
        const keep = kept(points, limit, 0.9);
        expect([...keep].filter((x) => x === '1').length).toBe(best);
      }),
      { seed: 3, numRuns: 300 },
    );
  });
});
