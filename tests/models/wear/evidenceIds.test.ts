import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { evidenceIds, requireEvidence } from '../../../models/wear/evidenceIds.ts';
import { coefficients } from './catalog.ts';

describe('coefficients of evidence', () => {
  it('are all in the catalog, and all that the models name are checked', () => {
    expect(() => requireEvidence(coefficients)).not.toThrow();
    const folder = new URL('../../../models/wear/', import.meta.url);
    const text = readdirSync(folder)
      .map((name) => readFileSync(new URL(name, folder), 'utf8'))
      .join('\n');
    const named = [...text.matchAll(/'evidence\.([a-zA-Z_0-9.]+)'/g)].map(([, id]) => id);
    expect(named.length).toBeGreaterThan(50);
    expect(named.filter((id) => !(evidenceIds as readonly string[]).includes(id))).toEqual([]);
  });

  it('are missed by name', () => {
    const without = Object.fromEntries(
      Object.entries(coefficients).filter(([id]) => id !== 'evidence.cover_sd'),
    );
    expect(() => requireEvidence(without)).toThrow('coefficients must hold evidence.cover_sd, got nothing');
  });
});
