import { describe, expect, test } from 'vitest';
import type { Reason } from '../../../models/intake/reasons.ts';
import { rowChecks } from '../../../models/intake/rowChecks.ts';
import { sample, type Sample } from '../../../models/schema/sample.ts';

function codes(values: Partial<Sample>): string[] {
  const faults: Reason[] = [];
  const record = sample.parse({ unitNumber: '7', sampledOn: '2026-03-01', ...values });
  for (const check of rowChecks.samples ?? []) check(record, faults);
  return faults.map(({ code }) => code);
}

describe('chemistry that no engine oil has', () => {
  test('a base number above any new oil is held once, with its reason', () => {
    expect(codes({ baseNumberMgKohG: 25 })).toEqual(['base_above_new_oil']);
    expect(codes({ baseNumberMgKohG: 90 })).toEqual(['base_above_new_oil']);
    expect(codes({ baseNumberMgKohG: 5, baseNumberMethod: 'ASTM D974' })).toEqual(['base_other_method']);
    for (const baseNumberMethod of ['D2896', 'astm d4739-11', 'in-house', null])
      expect(codes({ baseNumberMgKohG: 5, baseNumberMethod })).toEqual([]);
    expect(codes({ baseNumberMgKohG: 12 })).toEqual([]);
  });
  test('amounts and viscosities beyond any oil', () => {
    expect(codes({ acidNumberMgKohG: 60 })).toEqual(['chemistry_impossible']);
    expect(codes({ ironPpm: 50_000 })).toEqual(['chemistry_impossible']);
    expect(codes({ kv100Mm2S: 1.2 })).toEqual(['chemistry_impossible']);
  });
  test('each fault is said once: order of viscosities, sums and distances keep their own reasons', () => {
    expect(codes({ kv100Mm2S: 10.2, kv40Mm2S: 9 })).toEqual(['viscosity_order']);
    expect(codes({ fuelPercent: 60, waterPercent: 60 })).toEqual(['percent_sum']);
    expect(codes({ oilKm: 9000, odometerKm: 100 })).toEqual(['oil_distance_above_odometer']);
  });
  test('a plausible outlier is taken', () => {
    expect(
      codes({ ironPpm: 400, fuelPercent: 9, kv100Mm2S: 6.4, kv40Mm2S: 33, baseNumberMgKohG: 1.1 }),
    ).toEqual([]);
  });
});
