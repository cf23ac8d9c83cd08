/** Covariates shifted and scaled to mean 0 and sd 1, so that Newton steps and limits mean the same for each. */
export interface StandardColumns {
  readonly values: Float64Array;
  readonly means: Float64Array;
  /** 1 where a column is constant */
  readonly sds: Float64Array;
  readonly constant: readonly boolean[];
}

/** Weighted standardisation of row-major covariates; columns that are `kept` stay as they are (mean 0, sd 1 noted). */
export function standardise(
  covariates: Float64Array,
  count: number,
  weight: Float64Array | undefined,
  kept: (column: number) => boolean,
): StandardColumns {
  const rows = count === 0 ? 0 : covariates.length / count;
  const means = new Float64Array(count);
  const sds = new Float64Array(count);
  let total = 0;
  for (let i = 0; i < rows; i++) {
    const w = weight ? weight[i] : 1;
    total += w;
    for (let j = 0; j < count; j++) means[j] += w * covariates[i * count + j];
  }
  for (let j = 0; j < count; j++) means[j] = total > 0 ? means[j] / total : 0;
  for (let i = 0; i < rows; i++)
    for (let j = 0; j < count; j++)
      sds[j] += (weight ? weight[i] : 1) * (covariates[i * count + j] - means[j]) ** 2;
  const constant: boolean[] = [];
  for (let j = 0; j < count; j++) {
    const sd = total > 0 ? Math.sqrt(sds[j] / total) : 0;
    constant.push(!(sd > 1e-9 * Math.max(1, Math.abs(means[j]))));
    sds[j] = constant[j] || kept(j) ? 1 : sd;
    if (kept(j)) means[j] = 0;
  }
  const values = new Float64Array(covariates.length);
  for (let i = 0; i < rows; i++)
    for (let j = 0; j < count; j++) values[i * count + j] = (covariates[i * count + j] - means[j]) / sds[j];
  return { values, means, sds, constant };
}
