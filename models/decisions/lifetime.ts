import { gammaln } from 'simple-statistics';

/** How long a part lasts; ages in any one unit (km, months, points of wear), the same throughout a calculation. */
export interface Lifetime {
  /** probability of lasting beyond the age, 0..1 */
  readonly survival: (age: number) => number;
  /** failures per unit of age among those that have lasted until then; may be Infinity at an end of the range */
  readonly hazard: (age: number) => number;
  /** age by which the given share (0 up to but without 1) has failed */
  readonly quantile: (share: number) => number;
  /** mean life */
  readonly mean: number;
  /** true when the hazard grows with age, the condition for planned renewal to pay at some age */
  readonly wearsOut: boolean;
}

/**
 * Weibull life: survival = exp(−(age/scale)^shape).
 * @param shape above 0; above 1 wears out
 * @param scale age by which 63.2 % have failed, above 0
 * @returns the life; weibullLife(2.5, 1000).mean → 887.26
 * @throws RangeError when shape or scale is not above 0
 * Source: NIST/SEMATECH e-Handbook 8.1.6.2 (shape γ, scale α there).
 */
export function weibullLife(shape: number, scale: number): Lifetime {
  if (!(shape > 0 && Number.isFinite(shape))) throw new RangeError(`shape must be above 0, got ${shape}`);
  if (!(scale > 0 && Number.isFinite(scale))) throw new RangeError(`scale must be above 0, got ${scale}`);
  return {
    survival: (age) => (age <= 0 ? 1 : Math.exp(-((age / scale) ** shape))),
    hazard: (age) => (shape / scale) * (Math.max(0, age) / scale) ** (shape - 1),
    quantile: (share) => scale * (-Math.log1p(-share)) ** (1 / shape),
    mean: scale * Math.exp(gammaln(1 + 1 / shape)),
    wearsOut: shape > 1,
  };
}

/**
 * Life spread evenly between 0 and the longest age: survival = 1 − age/longest.
 * @param longest above 0
 * @returns the life; uniformLife(40000).mean → 20000
 * @throws RangeError when longest is not above 0
 * Source: A. K. S. Jardine & A. H. C. Tsang, Maintenance, Replacement, and Reliability (exercise with an even life).
 */
export function uniformLife(longest: number): Lifetime {
  if (!(longest > 0 && Number.isFinite(longest)))
    throw new RangeError(`longest must be above 0, got ${longest}`);
  return {
    survival: (age) => Math.min(1, Math.max(0, 1 - age / longest)),
    hazard: (age) => (age >= longest ? Infinity : 1 / (longest - Math.max(0, age))),
    quantile: (share) => share * longest,
    mean: longest / 2,
    wearsOut: true,
  };
}
