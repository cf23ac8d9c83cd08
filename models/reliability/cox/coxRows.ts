/** Lifetimes with covariates for Cox's regression. */
export interface CoxRows {
  readonly time: ArrayLike<number>;
  readonly failed: ArrayLike<boolean | number>;
  readonly entry?: ArrayLike<number>;
  /** row-major */
  readonly covariates: Float64Array;
  readonly covariateCount: number;
}
