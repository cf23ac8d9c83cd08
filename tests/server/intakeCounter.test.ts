import fc from 'fast-check';
import { expect, test } from 'vitest';
import { rowCounter } from '../../server/services/intake/rowCounter.ts';
import { fingerprintOf } from '../../server/store/records.ts';

test('counts rows as a plain map does, over several files and beyond its first size', () => {
  fc.assert(
    fc.property(
      fc.array(fc.array(fc.integer({ min: 0, max: 60 }), { maxLength: 40 }), { maxLength: 4 }),
      (files) => {
        const counter = rowCounter();
        const known = new Map<number, number>();
        for (const file of files) {
          const inFile = new Map<number, number>();
          for (const row of file) {
            const fingerprint = fingerprintOf([row]);
            counter.meet(fingerprint);
            expect([counter.before, counter.seen]).toEqual([known.get(row) ?? 0, inFile.get(row) ?? 0]);
            inFile.set(row, (inFile.get(row) ?? 0) + 1);
          }
          counter.endFile();
          for (const [row, count] of inFile) known.set(row, Math.max(known.get(row) ?? 0, count));
        }
        for (let row = 0; row <= 60; row += 1) expect(counter.has(fingerprintOf([row]))).toBe(known.has(row));
      },
    ),
    { numRuns: 200, seed: 3 },
  );
  const many = rowCounter();
  for (let row = 0; row < 20_000; row += 1) many.addKnown(fingerprintOf([row]));
  for (let row = 0; row < 20_000; row += 1) expect(many.has(fingerprintOf([row]))).toBe(true);
  expect(many.has(fingerprintOf([20_001]))).toBe(false);
});
