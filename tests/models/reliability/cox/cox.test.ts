import { expect, test } from 'vitest';
import { coxRegression } from '../../../../models/reliability/cox/coxRegression.ts';
import { FitRefused } from '../../../../models/reliability/fit/fitRefused.ts';
import { censoredBrier } from '../../../../models/reliability/scoring/censoredBrier.ts';
import { harrellConcordance, unoConcordance } from '../../../../models/reliability/scoring/concordance.ts';
import { kaplanMeier, survivalAt } from '../../../../models/reliability/nonparametric/kaplanMeier.ts';
import { interleave, reference, relativeMiss } from '../reference.ts';

const { lung, cox, accuracy } = reference;
const lungFit = coxRegression({
  time: lung.time,
  failed: lung.status,
  covariates: interleave(lung.age, lung.sex, lung.ecog),
  covariateCount: 3,
});
const covariatesOf = (i: number) => [lung.age[i], lung.sex[i], lung.ecog[i]];

test('lung (R coxph, Efron): 0.0110667646, −0.5526123955, 0.4637284751; log likelihood −729.230121', () => {
  expect(relativeMiss(lungFit.coefficients, cox.lung.coefficients)).toBeLessThan(1e-7);
  expect(relativeMiss(lungFit.covariance, cox.lung.covariance.flat())).toBeLessThan(1e-6);
  expect(lungFit.logLikelihood).toBeCloseTo(-729.230121, 6);
  expect(lungFit.logLikelihoodAtZero).toBeCloseTo(cox.lung.logLikelihoodAtZero, 8);
});

test('six units worked by hand in Therneau and Grambsch, appendix E (Efron, tied failures at 6)', () => {
  const { data } = cox.toy;
  const fit = coxRegression({
    time: data.time,
    failed: data.status,
    covariates: Float64Array.from(data.x),
    covariateCount: 1,
  });
  expect(fit.coefficients[0]).toBeCloseTo(1.676857, 6);
  expect(fit.logLikelihood).toBeCloseTo(cox.toy.logLikelihood, 8);
});

test('heart transplants (R survival::heart): delayed entry, four covariates', () => {
  const { data } = cox.heart;
  const fit = coxRegression({
    time: data.time,
    failed: data.status,
    entry: data.entry,
    covariates: interleave(data.age, data.year, data.surgery, data.transplant),
    covariateCount: 4,
  });
  expect(relativeMiss(fit.coefficients, cox.heart.coefficients)).toBeLessThan(1e-6);
  expect(relativeMiss(fit.covariance, cox.heart.covariance.flat())).toBeLessThan(1e-5);
  expect(fit.logLikelihood).toBeCloseTo(cox.heart.logLikelihood, 7);
});

test('survival at 180, 365, 545, 730 d for every unit against R survfit', () => {
  const { tau, probability } = accuracy.brier;
  const columns = [probability.p180, probability.p365, probability.p545, probability.p730];
  tau.forEach((days, k) => {
    const failed = lung.time.map((_, i) => 1 - lungFit.survival(days, covariatesOf(i)));
    expect(relativeMiss(failed, columns[k])).toBeLessThan(1e-6);
  });
});

test('Brier score at four times: .178674785 .225443369 .180220904 .099469671, and the Kaplan–Meier null', () => {
  const { tau, model, null: flat } = accuracy.brier;
  const scores = tau.map((days) =>
    censoredBrier(
      days,
      lung.time,
      lung.status,
      lung.time.map((_, i) => lungFit.survival(days, covariatesOf(i))),
    ),
  );
  expect(relativeMiss(scores, model)).toBeLessThan(1e-7);
  const curve = kaplanMeier(lung.time.map((time, i) => ({ time, failed: lung.status[i] === 1 })));
  const nulls = tau.map((days) =>
    censoredBrier(
      days,
      lung.time,
      lung.status,
      lung.time.map(() => survivalAt(curve, days)),
    ),
  );
  expect(relativeMiss(nulls, flat)).toBeLessThan(1e-10);
});

test('Harrell .6371354930 with its standard error and pairs; Uno .62614829521, .62736554634 up to 730 d', () => {
  const score = lung.time.map((_, i) => {
    const x = covariatesOf(i);
    return lungFit.coefficients.reduce((sum, b, j) => sum + b * x[j], 0);
  });
  const harrell = harrellConcordance(lung.time, lung.status, score);
  expect(harrell.concordance).toBeCloseTo(0.637135493, 9);
  expect(harrell.se).toBeCloseTo(accuracy.harrell.se, 8);
  expect([harrell.concordant, harrell.discordant, harrell.tiedScore]).toEqual([
    accuracy.harrell.concordant,
    accuracy.harrell.discordant,
    accuracy.harrell.tiedScore,
  ]);
  expect(unoConcordance(lung.time, lung.status, score).concordance).toBeCloseTo(0.62614829521427, 9);
  expect(unoConcordance(lung.time, lung.status, score, 730).concordance).toBeCloseTo(0.627365546335852, 9);
});

test('eight units: Harrell 18 of 19 pairs, Uno with weights that can be counted by hand', () => {
  const { data } = accuracy.toy;
  expect(harrellConcordance(data.time, data.status, data.score).concordance).toBeCloseTo(18 / 19, 14);
  expect(unoConcordance(data.time, data.status, data.score).concordance).toBeCloseTo(accuracy.toy.uno, 12);
});

test('no failure, a constant covariate, separation: refused by code', () => {
  const fit = (failed: number[], x: number[]) =>
    coxRegression({ time: [1, 2, 3, 4], failed, covariates: Float64Array.from(x), covariateCount: 1 });
  const code = (run: () => unknown) => {
    try {
      run();
    } catch (error) {
      return error instanceof FitRefused ? error.code : error;
    }
    return 'fitted';
  };
  expect(code(() => fit([0, 0, 0, 0], [1, 2, 3, 4]))).toBe('no_failures');
  expect(code(() => fit([1, 0, 1, 0], [2, 2, 2, 2]))).toBe('not_identified');
  expect(code(() => fit([1, 1, 0, 0], [1, 1, 0, 0]))).toBe('separation');
});
