import { readFileSync } from 'node:fs';
import { coefficientFile, coefficientValues } from '../../../models/schema/coefficient.ts';

/** A JSON file of data/catalog, as it stands. */
export function catalogJson(name: string): unknown {
  return JSON.parse(readFileSync(new URL(`../../../data/catalog/${name}`, import.meta.url), 'utf8'));
}

/** The oil, wear and evidence coefficients of the catalog. */
export const coefficients = coefficientValues(
  ['oil-coefficients.json', 'wear-coefficients.json', 'evidence-coefficients.json'].map((name) =>
    coefficientFile.parse(catalogJson(name)),
  ),
);
