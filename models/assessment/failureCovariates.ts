import type { CovariateSpec } from '../reliability/fleet/covariateSpec.ts';
import type { Coefficients } from '../schema/coefficient.ts';

/** The covariates of the failure model in their fixed order, each with the words that people read. */
export const failureCovariates = [
  {
    name: 'oil_stress',
    words: 'oil stress: soot, fuel, lost additive and viscosity',
    kind: 'clock',
    direction: 1,
  },
  { name: 'sludge', words: 'sludge built up', kind: 'clock', direction: 1 },
  { name: 'overrun', words: 'drains past the dispersancy of the oil', kind: 'clock', direction: 1 },
  { name: 'starts', words: 'cold starts per engine hour', kind: 'clock', direction: 1 },
  { name: 'correlation_code', words: 'correlation code seen', kind: 'evidence', direction: 1 },
  { name: 'phaser_code', words: 'phaser or oil control code seen', kind: 'evidence', direction: 1 },
  { name: 'rattle', words: 'start rattle heard', kind: 'evidence', direction: 1 },
  { name: 'screen_blocked', words: 'oil control screen found blocked', kind: 'evidence', direction: 1 },
  { name: 'phase_off', words: 'phase deviation measured', kind: 'evidence', direction: 1 },
  { name: 'heavy_cover', words: 'heavy deposits seen under the cover', kind: 'evidence', direction: 1 },
  { name: 'failed_before', words: 'an earlier timing failure on this unit', kind: 'evidence', direction: 1 },
] as const;

export type FailureCovariate = (typeof failureCovariates)[number]['name'];

/** Place of a covariate in the vector. */
export const covariateIndex = Object.fromEntries(
  failureCovariates.map((covariate, index) => [covariate.name, index]),
) as Readonly<Record<FailureCovariate, number>>;

/**
 * Table of covariates with their priors from the catalog (`failure.effect.*`, `failure.effect_sd.*`).
 * @throws Error when the catalog lacks one
 */
export function failureCovariateSpecs(coefficients: Coefficients): readonly CovariateSpec[] {
  const value = (id: string): number => {
    const found = coefficients[id];
    if (found === undefined || !Number.isFinite(found)) throw new Error(`coefficient ${id} is missing`);
    return found;
  };
  return failureCovariates.map(({ name, kind, direction }) => ({
    name,
    kind,
    direction,
    priorMean: value(`failure.effect.${name}`),
    priorSd: value(`failure.effect_sd.${name}`),
  }));
}
