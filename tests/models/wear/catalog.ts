import { readFileSync } from 'node:fs';
import { coefficientFile, coefficientValues } from '../../../models/schema/coefficient.ts';
import { faultCodeFile, faultCodeTable } from '../../../models/wear/faultCode.ts';

const read = (name: string): unknown =>
  JSON.parse(readFileSync(new URL(`../../../data/catalog/${name}`, import.meta.url), 'utf8'));

/** The catalog's values as the product loads them. */
export const coefficients = coefficientValues(
  ['oil-coefficients.json', 'wear-coefficients.json', 'evidence-coefficients.json'].map((name) =>
    coefficientFile.parse(read(name)),
  ),
);
export const faultCodes = faultCodeTable(faultCodeFile.parse(read('fault-codes.json')));
