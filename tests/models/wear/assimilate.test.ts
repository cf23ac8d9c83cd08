import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assimilate } from '../../../models/wear/assimilate.ts';
import type { Prior } from '../../../models/wear/assimilate.ts';
import { likelihoodInto } from '../../../models/wear/evidence.ts';
import type { Evidence, Likelihood } from '../../../models/wear/evidence.ts';
import { latent, latentCount } from '../../../models/wear/latents.ts';
import { responseOf } from '../../../models/wear/response.ts';
import { segmentsOf } from '../../../models/wear/segments.ts';
import { wordTrust } from '../../../models/wear/sludgeEvidence.ts';
import { coefficients } from './catalog.ts';
import { engineRecord, fillOfEngine, mixedDuty, timelineOf } from './simulation/records.ts';

const timeline = timelineOf([{ exposure: mixedDuty }]);
const segments = segmentsOf(timeline, fillOfEngine(engineRecord({})), [], [], null);
const response = responseOf(
  segments,
  timeline.charges,
  new Float64Array(latentCount),
  coefficients,
  new Set(),
  timeline.firstDay,
);
const settings = { outlierLimit: 2.5, screenCarry: 0.2 };

function reading(value: number, sd: number, perUnit: number): Evidence {
  return {
    day: timeline.asOfDay,
    segment: 0,
    state: 'chain',
    words: 'reading',
    observed: value,
    recordId: 1,
    bank: null,
    teaches: 'looks',
    likelihood: { kind: 'measured', value, sd },
    expect: (_states, unknowns) => perUnit * unknowns[latent.phaseBias1],
  };
}

function priorOf(mean: number, sd: number): Prior {
  const whole = new Float64Array(latentCount);
  whole[latent.phaseBias1] = mean;
  return { active: [latent.phaseBias1], mean: whole, covariance: Float64Array.of(sd * sd) };
}

describe('one joint update', () => {
  // worked by hand: S = 2.25, gain 0.048, 0.30 + 0.048 (4.5 − 2.25) = 0.408, sd √(0.0144 (1 − 0.36)) = 0.096
  it('gives the scalar update that a calculator gives', () => {
    const posterior = assimilate(response, [reading(4.5, 1.2, 7.5)], priorOf(0.3, 0.12), settings);
    expect(posterior.mode[latent.phaseBias1]).toBeCloseTo(0.408, 6);
    expect(Math.sqrt(posterior.covariance[0])).toBeCloseTo(0.096, 6);
    expect(posterior.weights).toEqual([1]);
  });

  it('leaves the belief as it was without evidence', () => {
    const posterior = assimilate(response, [], priorOf(0.3, 0.12), settings);
    expect(posterior.mode[latent.phaseBias1]).toBe(0.3);
    expect(posterior.covariance[0]).toBeCloseTo(0.0144, 12);
  });

  it('weighs a record down that lies far out, and keeps it', () => {
    const readings = [reading(2.3, 1.2, 7.5), reading(2.2, 1.2, 7.5), reading(40, 1.2, 7.5)];
    const posterior = assimilate(response, readings, priorOf(0.3, 0.12), settings);
    expect(posterior.weights[2]).toBeLessThan(0.2);
    expect(posterior.weights[0]).toBe(1);
    expect(posterior.mode[latent.phaseBias1]).toBeGreaterThan(0.3);
    expect(posterior.mode[latent.phaseBias1]).toBeLessThan(0.6);
  });
});

describe('likelihoods', () => {
  const trust = wordTrust(coefficients);
  const kinds: readonly Likelihood[] = [
    { kind: 'measured', value: 1.3, sd: 0.4 },
    { kind: 'between', from: 0.5, to: 1.5, sd: 0.5, trust },
    { kind: 'between', from: Number.NEGATIVE_INFINITY, to: 1, sd: 0.8, trust },
    { kind: 'between', from: 2, to: Number.POSITIVE_INFINITY, sd: 0.8, trust },
    { kind: 'life', median: 1, shape: 2.5, failed: 0.7 },
    { kind: 'life', median: 0.65, shape: 3, failed: 0 },
    { kind: 'seen', at: 0.9, sd: 0.35, low: 0.15, high: 1, present: true },
    { kind: 'seen', at: 0.9, sd: 0.35, low: 0, high: 0.4, present: false },
  ];
  const term = () => ({ logLikelihood: 0, slope: 0, information: 0, weight: 1 });
  const at = (likelihood: Likelihood, expected: number) => {
    const into = term();
    likelihoodInto(likelihood, expected, 2.5, into);
    return into;
  };

  it('rise as their slopes say, with information of 0 or more', () => {
    const state = fc.double({ min: 0.05, max: 3, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom(...kinds), state, (likelihood, expected) => {
        const step = 1e-3;
        const rise =
          (at(likelihood, expected + step).logLikelihood - at(likelihood, expected - step).logLikelihood) /
          (2 * step);
        const { slope, information } = at(likelihood, expected);
        expect(slope).toBeCloseTo(rise, 2);
        expect(information).toBeGreaterThanOrEqual(0);
        expect(Number.isFinite(information)).toBe(true);
      }),
    );
  });

  it('stay finite far out', () => {
    for (const likelihood of kinds)
      for (const expected of [-50, 0, 50, 1e6]) {
        const { logLikelihood, slope, information } = at(likelihood, expected);
        expect([logLikelihood, slope, information].every(Number.isFinite)).toBe(true);
      }
  });
});
