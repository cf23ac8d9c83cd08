import { expect, test } from 'vitest';
import { modelDescriptions } from '../../../models/assessment/modelDescriptions.ts';
import { coefficientFile, coefficientValues } from '../../../models/schema/coefficient.ts';
import { catalogFiles } from '../../../server/catalog.ts';

const ids = Object.keys(coefficientValues(catalogFiles.map((file) => coefficientFile.parse(file))));

test.each(modelDescriptions)('$id says what it assumes and where its coefficients stand', (model) => {
  expect(model.assumes.length).toBeGreaterThan(0);
  expect(model.limits.length).toBeGreaterThan(0);
  for (const start of model.coefficients)
    expect(
      ids.some((id) => id.startsWith(start)),
      start,
    ).toBe(true);
});
