import { describe, expect, test } from 'vitest';
import { sparseFleet, trueChance } from './sparse.ts';

const fleet = sparseFleet({ seed: 7 });

describe('sparse fleet', () => {
  test('has 160 units in 8 families with odometers and engine renewals and nothing else', () => {
    expect(fleet.rows.units).toHaveLength(160);
    expect(new Set(fleet.rows.units.map((row) => row.engineFamily)).size).toBe(8);
    expect(fleet.rows.engines).toHaveLength(8);
    for (const row of fleet.rows.service) expect(row.works).toEqual(['engine']);
    for (const row of fleet.rows.readings)
      expect(Object.keys(row).sort()).toEqual(['odometerKm', 'readOn', 'unitNumber']);
    for (const kind of ['fuel', 'samples', 'findings', 'codes', 'sites'] as const)
      expect(fleet.rows[kind]).toHaveLength(0);
    expect(fleet.rows.readings.length).toBeGreaterThan(8000);
    expect(fleet.rows.service.length).toBeGreaterThan(30);
    const written = fleet.rows.service.filter((row) => row.outcome === 'failed').length;
    expect(written).toBeGreaterThan(0);
    expect(written).toBeLessThan(fleet.rows.service.length);
  });

  test('is the same for the same seed and another for another', () => {
    expect(sparseFleet({ seed: 7 }).files).toEqual(fleet.files);
    expect(sparseFleet({ seed: 8 }).files.readings).not.toBe(fleet.files.readings);
  });

  test('fails as often as its own truth says: yearly chances add up to the failures within four standard errors', () => {
    let expected = 0;
    let variance = 0;
    let seen = 0;
    for (let seed = 20; seed < 24; seed++) {
      const { truth } = sparseFleet({ seed });
      for (const unit of truth.units)
        for (let day = Math.max(truth.startDay, unit.inServiceDay); day + 365 <= unit.lastDay; day += 365) {
          const chance = trueChance(unit, day, 365);
          expected += chance;
          variance += chance * (1 - chance);
          if (unit.failures.some((f) => f.day > day && f.day <= day + 365)) seen++;
        }
    }
    expect(expected).toBeGreaterThan(80);
    expect(Math.abs(seen - expected)).toBeLessThan(4 * Math.sqrt(variance));
  });

  test('meters never run back', () => {
    const last = new Map<string, number>();
    for (const row of fleet.rows.readings) {
      expect(row.odometerKm!).toBeGreaterThanOrEqual(last.get(row.unitNumber!) ?? 0);
      last.set(row.unitNumber!, row.odometerKm!);
    }
  });
});
