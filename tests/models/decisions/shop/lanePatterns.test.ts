import fc from 'fast-check';
import { expect, test } from 'vitest';
import { lanePatterns } from '../../../../models/decisions/shop/lanePatterns.ts';

const enough = (lengths: readonly number[]) => lengths.map(() => 99);

test('a lane of 8 cells takes 5 + 3 or 4 + 4; 3 + 3 gives way to 4 + 4', () => {
  expect(lanePatterns([5, 4, 3], 8, enough([5, 4, 3]), 100)).toEqual([
    [1, 0, 1],
    [0, 2, 0],
  ]);
});

test('no more slots than visits, and none where nothing fits', () => {
  // one visit of 4 and three in all: 4 + 2 + 2 in 9 cells, and no slot of 4 for the others
  expect(lanePatterns([4, 2], 9, [1, 3], 100)).toEqual([[1, 2]]);
  expect(lanePatterns([5], 3, [2], 100)).toEqual([[0]]);
});

test('more patterns than the limit are no list', () => {
  expect(lanePatterns([5, 4, 3], 8, enough([5, 4, 3]), 1)).toBeNull();
});

/** All numbers of visits by length that a lane holds. */
function* fillings(lengths: readonly number[], cells: number): Generator<readonly number[]> {
  const [length, ...rest] = lengths;
  if (length === undefined) yield [];
  else
    for (let count = 0; count * length <= cells; count++)
      for (const others of fillings(rest, cells - count * length)) yield [count, ...others];
}

/** Whether visits find slots that are long enough, one each. */
const takes = (slots: readonly number[], visits: readonly number[]) => {
  let left = 0;
  return visits.every((count, at) => (left += (slots[at] ?? 0) - count) >= 0);
};

// every way to fill the lane is tried
test('whatever a lane can hold finds its slots in a pattern, and every pattern fits', () => {
  const lane = fc.record({
    lengths: fc
      .uniqueArray(fc.integer({ min: 2, max: 12 }), { minLength: 1, maxLength: 5 })
      .map((lengths) => lengths.sort((a, b) => b - a)),
    cells: fc.integer({ min: 1, max: 20 }),
  });
  fc.assert(
    fc.property(lane, ({ lengths, cells }) => {
      const patterns = lanePatterns(lengths, cells, enough(lengths), 100_000)!;
      for (const slots of patterns)
        expect(slots.reduce((sum, count, at) => sum + count * lengths[at]!, 0)).toBeLessThanOrEqual(cells);
      for (const visits of fillings(lengths, cells))
        expect(patterns.some((slots) => takes(slots, visits))).toBe(true);
      patterns.forEach((slots, at) =>
        expect(patterns.some((other, own) => own !== at && takes(other, slots))).toBe(false),
      );
    }),
    { numRuns: 60, seed: 41 },
  );
});
