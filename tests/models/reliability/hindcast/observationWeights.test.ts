import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { observationWeights } from '../../../../models/reliability/hindcast/observationWeights.ts';
import { weightedArea } from '../../../../models/reliability/hindcast/weightedArea.ts';
import { censoringWeights } from '../../../../models/reliability/scoring/censoredBrier.ts';
import { areaUnderCurve } from '../../../../models/reliability/scoring/areaUnderCurve.ts';

const ran = { days: 365, failed: 0, ranThrough: true };

describe('weights of units whose end is known', () => {
  test('worked by hand: sold on day 100, failed on day 200, two run through', () => {
    const weights = observationWeights([
      { days: 100, failed: 0, ranThrough: false },
      { days: 200, failed: 1, ranThrough: false },
      ran,
      ran,
    ]);
    // one of four left on day 100: the others stand for 4/3 units each
    expect(weights.map((one) => one.asFailed)).toEqual([0, expect.closeTo(4 / 3, 12), 0, 0]);
    expect(weights.map((one) => one.asSurvived)).toEqual([
      0,
      0,
      expect.closeTo(4 / 3, 12),
      expect.closeTo(4 / 3, 12),
    ]);
  });

  test('a renewal that was a failure with chance 0.4 counts 0.4 as one', () => {
    const [doubtful, other] = observationWeights([{ days: 10, failed: 0.4, ranThrough: false }, ran]);
    expect(doubtful).toEqual({ asFailed: 0.4, asSurvived: 0 });
    // 0.6 of 2 were censored on day 10
    expect(other.asSurvived).toBeCloseTo(2 / 1.4, 12);
  });

  test('against the weights of the censored Brier score, which is checked against survival of R', () => {
    const arbitrary = fc.array(
      fc.record({ days: fc.integer({ min: 1, max: 30 }), end: fc.constantFrom('failed', 'left') }),
      { minLength: 1, maxLength: 40 },
    );
    fc.assert(
      fc.property(arbitrary, (early) => {
        const units = [
          ...early.map(({ days, end }) => ({ days, failed: end === 'failed' ? 1 : 0, ranThrough: false })),
          { ...ran, days: 31 },
          { ...ran, days: 31 },
        ];
        const expected = censoringWeights(
          30,
          units.map(({ days }) => days),
          units.map(({ failed }) => failed === 1),
        );
        observationWeights(units).forEach((one, i) =>
          expect(one.asFailed + one.asSurvived).toBeCloseTo(expected[i], 9),
        );
      }),
    );
  });

  test('weights add up to about the number of units, whatever left early', () => {
    const units = [
      ...Array.from({ length: 40 }, (_, i) => ({ days: 5 * i + 3, failed: 0, ranThrough: false })),
      ...Array.from({ length: 160 }, () => ran),
    ];
    const sum = observationWeights(units).reduce((all, one) => all + one.asFailed + one.asSurvived, 0);
    expect(sum).toBeCloseTo(200, 9);
  });

  test('nobody runs through: finite weights', () => {
    const weights = observationWeights([
      { days: 5, failed: 0, ranThrough: false },
      { days: 5, failed: 0, ranThrough: false },
    ]);
    expect(weights).toEqual([
      { asFailed: 0, asSurvived: 0 },
      { asFailed: 0, asSurvived: 0 },
    ]);
  });
});

describe('area with weights', () => {
  const unit = (chance: number, failedWeight: number, survivedWeight: number) => ({
    unitNumber: '',
    chance,
    failed: failedWeight > 0 ? 1 : 0,
    runShare: 1,
    sinceRenewalKm: 0,
    failedWeight,
    survivedWeight,
  });

  test('equal weights: the plain area with midranks; null without both outcomes', () => {
    const chances = [0.1, 0.2, 0.2, 0.3, 0.4, 0.4, 0.6];
    const failed = [0, 0, 1, 0, 1, 0, 1];
    const area = weightedArea(chances.map((chance, i) => unit(chance, failed[i], 1 - failed[i])));
    expect(area!.auc).toBeCloseTo(areaUnderCurve(chances, failed)!.auc, 12);
    expect(weightedArea([unit(0.1, 0, 1)])).toBeNull();
  });

  test('worked by hand: the failure that counts twice was ranked worst', () => {
    const area = weightedArea([unit(0.1, 2, 0), unit(0.2, 0, 1), unit(0.3, 1, 0)]);
    expect(area!.auc).toBeCloseTo(1 / 3, 12);
  });
});
