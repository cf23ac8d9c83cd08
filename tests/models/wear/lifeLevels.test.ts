import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lifeChance, likelihoodInto } from '../../../models/wear/evidence.ts';
import { lifeLevels } from '../../../models/wear/lifeLevels.ts';
import type { UnitLives } from '../../../models/wear/lifeLevels.ts';

const lived = (unitId: number, family: string, wear: number, failed: number): UnitLives => ({
  unitId,
  family,
  scatterLogSd: 0.4,
  stays: [
    { logWear: Math.log(wear), likelihood: { kind: 'life', median: 1, shape: 2.5, failed, recorded: 0.9 } },
  ],
});
const many = (family: string, count: number, wear: number, failed: number): UnitLives[] =>
  Array.from({ length: count }, (_, i) => lived(i, family, wear, failed));

describe('levels from lives', () => {
  it('are the catalog’s without lives: mean 0, variance 0.5² + 0.5² by hand', () => {
    const { otherFamily } = lifeLevels([], 0.5, 0.5, 0.3);
    expect(otherFamily.mean).toBeCloseTo(0, 6);
    expect(otherFamily.variance).toBeCloseTo(0.5, 2);
  });

  it('go down with long lives without failure, further with more of them, and up with early failures', () => {
    const few = lifeLevels(many('F', 5, 1, 0), 0.5, 0.5, 0.3).byFamily.get('F')!;
    const more = lifeLevels(many('F', 40, 1, 0), 0.5, 0.5, 0.3).byFamily.get('F')!;
    const failed = lifeLevels(many('F', 20, 0.4, 1), 0.5, 0.5, 0.3).byFamily.get('F')!;
    expect(few.mean).toBeLessThan(0);
    expect(more.mean).toBeLessThan(few.mean);
    expect(failed.mean).toBeGreaterThan(0.3);
  });

  it('say little where lives were short, and reach other families through the fleet', () => {
    const short = lifeLevels(many('F', 20, 0.1, 0), 0.5, 0.5, 0.3).byFamily.get('F')!;
    const long = lifeLevels(many('F', 20, 1, 0), 0.5, 0.5, 0.3).byFamily.get('F')!;
    expect(short.mean).toBeGreaterThan(0.25 * long.mean);
    const { byFamily, otherFamily } = lifeLevels(many('F', 40, 1.5, 0), 0.5, 0.5, 0.3);
    expect(otherFamily.mean).toBeLessThan(0);
    expect(otherFamily.mean).toBeGreaterThan(byFamily.get('F')!.mean);
  });

  it('leave a unit out of what its family tells it', () => {
    const { byUnit, otherFamily } = lifeLevels([lived(1, 'F', 2, 0)], 0.5, 0.5, 0.3);
    // alone in the fleet, it is told the catalog’s level and not its own
    expect(byUnit.get(1)!.mean).toBeCloseTo(0, 6);
    expect(otherFamily.mean).toBeLessThan(0);
  });
});

describe('the chance of a stay', () => {
  it('is what the evidence of the unit itself says of it, and by hand one half at the median', () => {
    const term = { logLikelihood: 0, slope: 0, information: 0, weight: 1 };
    fc.assert(
      fc.property(
        fc.double({ min: -12, max: 5, noNaN: true }),
        fc.constantFrom(0, 0.3, 1),
        fc.constantFrom(0.5, 0.9, 1),
        (logWear, failed, recorded) => {
          const likelihood = { kind: 'life', median: 1.3, shape: 2.5, failed, recorded } as const;
          likelihoodInto(likelihood, Math.exp(logWear), 4, term);
          const chance = lifeChance(likelihood, logWear);
          expect(Math.abs(chance - Math.exp(term.logLikelihood))).toBeLessThan(1e-12);
        },
      ),
      { numRuns: 300, seed: 31 },
    );
    const survived = { kind: 'life', median: 2, shape: 3, failed: 0, recorded: 1 } as const;
    expect(lifeChance(survived, Math.log(2))).toBeCloseTo(0.5, 12);
  });
});
