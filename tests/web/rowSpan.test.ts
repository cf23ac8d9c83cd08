import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fewRows, rowSpan } from '../../web/parts/rowSpan.ts';

test('rows of one height, by hand', () => {
  // 100 rows of 50 px: the window from 2000 to 3000 shows rows 40 to 59, ten more are drawn at either end
  const even = { count: 100, heightOf: () => 50 };
  expect(rowSpan({ ...even, from: 2000, to: 3000 })).toEqual({
    first: 30,
    end: 70,
    above: 1500,
    below: 1500,
  });
  expect(rowSpan({ ...even, from: -400, to: 600 })).toEqual({ first: 0, end: 36, above: 0, below: 3200 });
  expect(rowSpan({ ...even, from: 4500, to: 5500 })).toEqual({ first: 64, end: 100, above: 3200, below: 0 });
  expect(rowSpan({ count: 20, heightOf: () => 50, from: 900, to: 1900 })).toMatchObject({
    first: 0,
    end: 20,
  });
  expect(rowSpan({ count: 0, heightOf: () => 50, from: 0, to: 900 })).toMatchObject({ first: 0, end: 0 });
});

test('rows of their own height: what the window shows is drawn, and the room of all rows is the same wherever it stands', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 20, max: 400 }), { minLength: 1, maxLength: 200 }),
      fc.double({ min: -0.2, max: 1.1, noNaN: true }),
      (heights, place) => {
        const whole = heights.reduce((sum, height) => sum + height, 0);
        const from = place * whole;
        const span = rowSpan({
          count: heights.length,
          heightOf: (row) => heights[row]!,
          from,
          to: from + 700,
        });
        const drawn = heights.slice(span.first, span.end).reduce((sum, height) => sum + height, 0);
        expect(span.above + drawn + span.below).toBe(whole);
        expect(span.end - span.first).toBeGreaterThanOrEqual(Math.min(fewRows, heights.length));
        expect(span.above).toBeLessThanOrEqual(Math.max(0, from));
        expect(span.above + drawn).toBeGreaterThanOrEqual(Math.min(whole, from + 700));
      },
    ),
  );
});
