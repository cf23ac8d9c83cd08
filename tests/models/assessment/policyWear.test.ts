import { describe, expect, test } from 'vitest';
import { meanTable, readLifeTable } from '../../../models/assessment/policyWear.ts';
import { samplingWorth } from '../../../models/decisions/samplingWorth.ts';

const table = { intervalsKm: [1000, 10_000], sharePerKm: [[1e-6, 3e-6]] };

describe('life used by interval', () => {
  test('is read along the logarithm of the interval and flat beyond its ends', () => {
    // halfway between 1 000 and 10 000 on a log scale
    expect(readLifeTable(table, Math.sqrt(1000 * 10_000), 0)).toBeCloseTo(2e-6, 12);
    expect(readLifeTable(table, 500, 0)).toBe(1e-6);
    expect(readLifeTable(table, 20_000, 0)).toBe(3e-6);
  });
  test('is averaged draw by draw', () => {
    const other = { intervalsKm: [1000, 10_000], sharePerKm: [[3e-6, 5e-6]] };
    const [row] = meanTable([table, other]).sharePerKm;
    expect(row[0]).toBeCloseTo(2e-6, 15);
    expect(row[1]).toBeCloseTo(4e-6, 15);
  });
});

describe('worth of a sampling programme, by hand', () => {
  // change 10 000 cents, renewal 100 000 cents; one draw uses no life, the other 1e-5 of it per km at 20 000 km
  const costs = {
    oilCents: 10_000,
    labourCents: 0,
    downtimeCents: 0,
    renewalCents: 100_000,
    draws: 2,
    lifeSharePerKm: (km: number, draw: number) => (draw === 0 || km < 20_000 ? 0 : 1e-5),
  };
  test('knowing saves what the common interval costs too much', () => {
    // common 10 000 km: 1 000 cents per 1 000 km; draw 0 could run 20 000 km at 500, draw 1 at 500 + 1 000
    const worth = samplingWorth(costs, 10_000, [10_000, 20_000], 3000, 3, 0.4);
    expect(worth.perfectCentsPer1000Km).toBeCloseTo(250, 10);
    expect(worth.worthCentsPer1000Km).toBeCloseTo(100, 10);
    expect(worth.costCentsPer1000Km).toBeCloseTo(100, 10);
    expect(worth.pays).toBe(false);
    expect(samplingWorth(costs, 10_000, [10_000, 20_000], 2000, 3, 0.4).pays).toBe(true);
  });
  test('is nothing where all draws agree, and refuses nonsense', () => {
    expect(
      samplingWorth({ ...costs, draws: 1 }, 20_000, [10_000, 20_000], 3000, 3, 1).perfectCentsPer1000Km,
    ).toBe(0);
    expect(() => samplingWorth(costs, 1e4, [1e4], 1, 1, 2)).toThrow('knowledgeShare must lie in 0..1, got 2');
    expect(() => samplingWorth(costs, 1e4, [1e4], 1, 0, 1)).toThrow('eachChanges must be above 0, got 0');
  });
});
