import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  daysAheadOf,
  evenDeviates,
  monthsInPlace,
  moneyUnitOf,
  unrenewedChance,
} from '../../../models/assessment/moneyUnitOf.ts';
import { callMoneySetting, mightPay, renewalPays } from '../../../models/assessment/renewalPays.ts';
import { recommendUnit } from '../../../models/decisions/unitRecommendation.ts';
import { riskOf } from '../../../models/decisions/risk.ts';
import { dayFromIso } from '../../../models/schema/day.ts';
import { coefficients } from '../decisions/catalog.ts';
import { moneyView, type MoneyViewFields } from './moneyFixture.ts';

const setting = callMoneySetting(365, 2);
const costs = {
  plannedHours: 8,
  plannedPartsCostCents: 60_000,
  plannedDowntimeDays: 2,
  unplannedCostCents: 700_000,
  unplannedDowntimeDays: 10,
  downtimeCostPerDayCents: 15_000,
};
const pays = (over: MoneyViewFields = {}) =>
  renewalPays(moneyView({ engine: costs, ...over }), setting, 'USD', coefficients);
const failing = { probability: 0.6, low: 0.5, high: 0.7 };

describe('a unit as money sees it', () => {
  test('takes costs from engine family and site, and leaves what is not recorded open', () => {
    expect(
      moneyUnitOf(moneyView({ engine: costs, site: { labourRatePerHourCents: 9500 } }), setting),
    ).toMatchObject({
      unitNumber: 'A',
      plannedCents: null,
      plannedPartsCents: 60_000,
      plannedHours: 8,
      labourCentsPerHour: 9500,
      failureCents: 700_000,
      downtimeCentsPerDay: 15_000,
      warranty: null,
      disposalDay: null,
    });
    expect(moneyUnitOf(moneyView({ engine: null, site: null }), setting)).toMatchObject({
      plannedPartsCents: null,
      failureCents: null,
      labourCentsPerHour: null,
    });
  });
  test('use in place counts from the renewal, else from service with what was run before', () => {
    // 2021-03-31 to 2026-03-31 is 1826 days; 15 218.75 km at 50 km a day are 10 months
    expect(monthsInPlace(moneyView())).toBeCloseTo(1826 / 30.4375, 6);
    expect(monthsInPlace(moneyView({ unit: { inServiceOdometerKm: 15_218.75 } }))).toBeCloseTo(
      1826 / 30.4375 + 10,
      6,
    );
    const renewals = [
      { part: 'timing_set' as const, day: dayFromIso('2025-03-31') },
      { part: 'screen' as const, day: dayFromIso('2026-01-31') },
    ];
    expect(monthsInPlace(moneyView({ renewals }))).toBeCloseTo(365 / 30.4375, 6);
  });
  test('the chance is for the horizon, or up to the disposal', () => {
    expect(daysAheadOf(moneyView(), 365)).toBe(365);
    expect(daysAheadOf(moneyView({ unit: { plannedDisposalOn: '2026-04-30' } }), 365)).toBe(30);
    expect(daysAheadOf(moneyView({ unit: { plannedDisposalOn: '2026-01-30' } }), 365)).toBe(365);
  });
  test('renewals as practised are taken out, and what was seen on the part leaves with it', () => {
    const view = moneyView({
      failure: {
        contributions: [
          { cause: 'planned renewals as practised', logHazard: -Math.log(2) },
          { cause: 'correlation code seen', logHazard: 1.5 },
          { cause: 'sludge built up', logHazard: 0.4 },
          { cause: 'an earlier timing failure on this unit', logHazard: 0.7 },
        ],
      },
    });
    const chance = unrenewedChance(view.failure!);
    // twice the cumulative hazard: 1 − .88²
    expect(chance.probability).toBeCloseTo(1 - 0.88 ** 2, 10);
    expect(chance.leavesWithPart).toBeCloseTo(1.5, 12);
    const risk = riskOf(moneyUnitOf(view, setting).risk!);
    const plain = riskOf(
      moneyUnitOf(moneyView({ failure: { contributions: [view.failure!.contributions[0]!] } }), setting)
        .risk!,
    );
    // e^1.5 times less hazard of the new part at any age
    expect(plain.renewedHazard(0, 3, 40) / risk.renewedHazard(0, 3, 40)).toBeCloseTo(Math.exp(1.5), 8);
    expect(plain.hazard(0, 3, 40)).toBeCloseTo(risk.hazard(0, 3, 40), 10);
  });
  test('even draws are symmetric and rising', () => {
    const even = evenDeviates(8);
    expect([...even].sort((a, b) => a - b)).toEqual([...even]);
    expect(even[0]! + even[7]!).toBeCloseTo(0, 10);
  });
});

describe('whether a renewal pays, for the call', () => {
  test('a worn unit pays now and says what is saved and what waiting costs', () => {
    const result = pays({ failure: failing });
    expect(result).toMatchObject({ now: true, within12Months: true });
    expect(result.words).toMatch(
      /^a renewal now is expected to save \d+ to \d+ USD, about \d+ USD, against running to failure; each month's wait costs \d+ to \d+ USD, about \d+ USD$/,
    );
  });
  test('a unit with a small chance, one without, one soon gone and one under cover do not', () => {
    const never = { now: false, within12Months: false, words: null };
    expect(pays({ failure: { probability: 0.01, low: 0.004, high: 0.02 } })).toEqual(never);
    expect(pays({ failure: null })).toEqual(never);
    expect(pays({ failure: failing, unit: { warrantyUntilOn: '2027-01-01' } })).toEqual(never);
    expect(pays({ failure: failing, unit: { plannedDisposalOn: '2026-01-31' } })).toEqual(never);
    expect(
      pays({
        failure: { probability: 0.1, low: 0.05, high: 0.2 },
        unit: { plannedDisposalOn: '2026-05-31' },
      }),
    ).toEqual(never);
  });
  test('a renewal dearer than the failure never pays', () => {
    const dear = { ...costs, plannedPartsCostCents: 2_000_000 };
    expect(pays({ failure: failing, engine: dear }).within12Months).toBe(false);
  });
  test('the cheap test leaves out only units for which the full one says no', () => {
    const share = fc.double({ min: 0.002, max: 0.9, noNaN: true });
    fc.assert(
      fc.property(share, share, fc.integer({ min: 60_000, max: 500_000 }), (a, b, parts) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)];
        const view = moneyView({
          failure: { probability: Math.sqrt(low * high), low, high },
          engine: { ...costs, plannedPartsCostCents: parts },
        });
        fc.pre(!mightPay(view, setting, coefficients));
        const { judged } = recommendUnit(moneyUnitOf(view, setting), view.timeline.asOfDay, 12, coefficients);
        expect(judged!.bestSavingCents).toBeLessThanOrEqual(0);
      }),
      { numRuns: 40 },
    );
  });
});
