/**
 * One covariate of the failure model, with what is known of its effect before any failure is seen. `clock` covariates speed up or slow
 * down the wear of the stretch they hold for; `evidence` covariates (codes, rattle, findings) raise the hazard itself while they
 * stand. `direction` says which sign common sense expects (1 harm, −1 good, 0 open): it is never forced, only reported.
 */
export interface CovariateSpec {
  readonly name: string;
  /** effect per unit of the covariate on the log rate (clock) or log hazard (evidence) */
  readonly priorMean: number;
  readonly priorSd: number;
  readonly kind: 'clock' | 'evidence';
  readonly direction: 1 | -1 | 0;
}
