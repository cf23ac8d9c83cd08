import { readFileSync } from 'node:fs';
import { coefficientFile, coefficientValues } from '../../../models/schema/coefficient.ts';

/** The decision coefficients as the product ships them. */
export const decisionCatalog = coefficientFile.parse(
  JSON.parse(
    readFileSync(new URL('../../../data/catalog/decision-coefficients.json', import.meta.url), 'utf8'),
  ),
);
export const coefficients = coefficientValues([decisionCatalog]);
