import { describe, expect, it } from 'vitest';
import { condemningFile } from '../../../models/oil/condemningLimits.ts';
import { conditionCoefficients } from '../../../models/oil/conditionCoefficients.ts';
import { gradeFile } from '../../../models/oil/gradeTable.ts';
import { categoryFile } from '../../../models/oil/serviceCategory.ts';
import { viscosityIndexFile } from '../../../models/oil/viscosityIndex.ts';
import { coefficientFile } from '../../../models/schema/coefficient.ts';
import { catalogJson, coefficients } from './catalog.ts';

const files = ['oil-coefficients.json', 'wear-coefficients.json'].map((name) =>
  coefficientFile.parse(catalogJson(name)),
);
const entries = files.flatMap((file) => file.coefficients);

describe('the oil catalog', () => {
  it('parses, with every value inside its stated range and a source beside it', () => {
    for (const entry of entries) {
      expect(entry.value).toBeGreaterThanOrEqual(entry.low ?? -Infinity);
      expect(entry.value).toBeLessThanOrEqual(entry.high ?? Infinity);
      expect(entry.source.length).toBeGreaterThan(3);
      expect(entry.label.length).toBeGreaterThan(3);
    }
  });

  it('has every value that the condition calculation asks for', () => {
    const values = conditionCoefficients(coefficients);
    expect(values.baseNumberLife).toBe(240);
    expect(values.fuelSystems.TGDI.startFuel).toBe(0.1);
    expect(conditionCoefficients(coefficients)).toBe(values);
  });

  it('marks the learned rates with a spread', () => {
    const learned = entries.filter((entry) => entry.logSd !== undefined).map((entry) => entry.id);
    for (const id of [
      'oil.base_number_life',
      'oil.oxidation_rate',
      'oil.start_fuel.GDI',
      'oil.soot_per_fuel.TGDI',
      'oil.precursor_idle',
      'wear.sludge_rate',
      'wear.chain_rate',
      'wear.phaser_hours',
    ])
      expect(learned).toContain(id);
  });

  it('has grades, categories, limits and index bands in order', () => {
    expect(gradeFile.parse(catalogJson('oil-grades.json')).operating).toHaveLength(8);
    const { categories } = categoryFile.parse(catalogJson('service-categories.json'));
    expect(new Set(categories.map((entry) => entry.id)).size).toBe(categories.length);
    for (const limit of condemningFile.parse(catalogJson('condemning-limits.json')).limits)
      expect(limit.side === 'max' ? limit.caution <= limit.condemn : limit.caution >= limit.condemn).toBe(
        true,
      );
    const { bands } = viscosityIndexFile.parse(catalogJson('viscosity-index.json'));
    bands.slice(1).forEach((band, i) => expect(band.fromKv100).toBe(bands[i].toKv100));
  });

  it('names each source once', () => {
    const { sources } = catalogJson('sources.json') as {
      sources: { id: string; title: string; kind: string }[];
    };
    expect(new Set(sources.map((entry) => entry.id)).size).toBe(sources.length);
    for (const entry of sources) expect(`${entry.title}${entry.kind}`).not.toMatch(/undefined|^$/);
  });
});
