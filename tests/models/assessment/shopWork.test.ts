import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dueAsked, type OpenVisit } from '../../../models/assessment/dueWorkAsked.ts';
import { dueSigns } from '../../../models/assessment/dueWorkSigns.ts';
import type { DueSetting } from '../../../models/assessment/dueWorkSetting.ts';
import { jobHours } from '../../../models/assessment/jobHours.ts';
import { learnedHours } from '../../../models/assessment/learnedHours.ts';
import { loansOf } from '../../../models/assessment/loansOf.ts';
import { holidaysOf, outsideShopsOf } from '../../../models/assessment/planResources.ts';
import type { UnitView } from '../../../models/assessment/unitView.ts';
import { weeklyBayHours } from '../../../models/assessment/siteRoom.ts';
import { visitBill } from '../../../models/assessment/visitBill.ts';
import { orderItems } from '../../../models/cards/cardItems.ts';
import { planShop } from '../../../models/decisions/shop/planShop.ts';
import { code } from '../../../models/schema/code.ts';
import { dayFromIso, isoFromDay } from '../../../models/schema/day.ts';
import type { Engine } from '../../../models/schema/engine.ts';
import { site } from '../../../models/schema/site.ts';
import { shopResource } from '../../../models/schema/shopRecordEndpoints.ts';
import { monday, oil, smallShop, unit } from '../decisions/shop/smallShop.ts';
import { asOf, coefficients, labUnit, models, type Lab } from './sampleFixture.ts';

const setting: DueSetting = {
  asOfDay: dayFromIso(asOf),
  endDay: dayFromIso(asOf) + 90,
  oilServiceHours: 1,
  faultCodes: models.faultCodes,
  coefficients,
};
const phasers: Partial<Engine> = { phasers: 2, plannedHours: 11 };

const worked = new Map<string, UnitView>();
/** Units are worked through once. */
function unitOf(lab: Lab): UnitView {
  const key = JSON.stringify(lab);
  const view = worked.get(key) ?? labUnit({ engine: phasers, ...lab });
  worked.set(key, view);
  return view;
}

/** The job that codes and the records of a unit ask for. */
function signsOf(lab: Lab, codes: readonly (readonly [string, string])[]) {
  const view = unitOf(lab);
  const rows = codes.map(([seenOn, text], index) => ({
    ...code.parse({ unitNumber: 'L1', seenOn, code: text }),
    source: { id: index + 1, kind: 'codes' as const, batch: 'b1', file: 'codes.csv', line: index + 2 },
  }));
  return dueSigns({ ...view, history: { ...view.history, codes: rows } }, setting);
}

describe('signs on phasers and solenoids', () => {
  test('the solenoid, the look and the phaser come in the order in which a shop goes about it', () => {
    // order of checks: common practice, no source; groups of codes by SAE J2012 wording
    const look = (value: string) => [
      { foundOn: '2024-05-10', finding: 'screen_blocked_share' as const, value },
    ];
    expect(signsOf({}, [])).toEqual([]);
    expect(signsOf({}, [['2024-05-02', 'P0011']])).toMatchObject([{ job: 'screen_look', skill: null }]);
    expect(signsOf({}, [['2024-05-02', 'P0010']])).toMatchObject([{ job: 'oil_control_solenoid' }]);
    expect(signsOf({ findings: look('0.6') }, [['2024-05-02', 'P0011']])).toMatchObject([
      { job: 'oil_control_solenoid', words: expect.stringContaining('60 % blocked on 2024-05-10') },
    ]);
    expect(signsOf({ findings: look('0.1') }, [['2024-05-02', 'P0011']])).toMatchObject([
      { job: 'phaser', skill: 'timing', medianDay: dayFromIso(asOf), hours: 7 },
    ]);
  });

  test('a renewed solenoid ends its sign; a code that comes back after it asks for the phasers', () => {
    const services: Lab['services'] = [{ servicedOn: '2024-05-12', works: ['oil_control_solenoid'] }];
    expect(signsOf({ services }, [['2024-05-02', 'P0010']])).toEqual([]);
    expect(signsOf({ services }, [['2024-05-02', 'P0011']])).toEqual([]);
    const back = signsOf({ services }, [
      ['2024-05-02', 'P0011'],
      ['2024-05-20', 'P0011'],
    ]);
    expect(back).toMatchObject([{ job: 'phaser', words: expect.stringContaining('again after') }]);
    expect(signsOf({ engine: { phasers: 0 } }, [['2024-05-02', 'P0011']])).toEqual([]);
  });

  test('a phaser job orders phasers, one-time bolts, solenoids and seals by the engine', () => {
    const engine = unitOf({}).history.engine;
    const order = Object.fromEntries(
      orderItems(engine, 'phaser').map(({ item, kind, quantity }) => [item, [kind, quantity]]),
    );
    expect(order).toMatchObject({
      'oil 5W-30': ['oil', 5.5],
      'filter Garth 25': ['filter', 1],
      'phaser Garth 25': ['kit', 2],
      'phaser bolt Garth 25': ['one_time', 2],
      'oil_control_solenoid Garth 25': ['kit', 2],
      'solenoid seal Garth 25': ['one_time', 2],
    });
  });
});

describe('work that people asked for', () => {
  const open = (more: Partial<OpenVisit>): OpenVisit => ({
    ...{ id: 7, unitNumber: 'L1', jobs: ['check'], state: 'asked', on: '2024-06-20', askedBecause: null },
    ...more,
  });
  const asked = (visits: readonly OpenVisit[], due = [oil('L1', setting.asOfDay)]) =>
    dueAsked(
      visits,
      due,
      () => null,
      (unit) => unit === 'L1',
      setting,
    );

  test('is due on its day unless an estimate makes the same work due', () => {
    expect(asked([open({ askedBecause: 'rattle at the start' })])).toMatchObject([
      {
        jobId: 'L1/check/asked-7',
        words: 'check: rattle at the start',
        medianDay: dayFromIso('2024-06-20'),
        hours: jobHours('check', null, 1, coefficients),
      },
    ]);
    expect(asked([open({ jobs: ['oil_change'] })])).toEqual([]);
    // a second visit for the same work is work of its own
    expect(asked([open({ jobs: ['oil_change'] }), open({ id: 8, jobs: ['oil_change'] })])).toHaveLength(1);
    expect(asked([open({ state: 'did_not_come', on: '2024-05-01' })])[0].medianDay).toBe(setting.asOfDay);
    expect(asked([open({ state: 'done' }), open({ unitNumber: 'gone' })])).toEqual([]);
  });
});

describe('hours that the shop takes', () => {
  const oilCard = (actualHours: number) => ({
    jobs: [{ job: 'oil_change' as const, hours: 1 }],
    setUpHours: 0.25,
    actualHours,
  });
  const pull = (coefficients['shop.hours_log_sd'] / coefficients['shop.hours_prior_log_sd']) ** 2;

  test('by hand: four cards of double the hours, drawn towards the catalog', () => {
    const [learned] = learnedHours([2.5, 2.5, 2.5, 2.5].map(oilCard), coefficients);
    expect(learned).toMatchObject({ job: 'oil_change', visits: 4 });
    expect(learned.ratio).toBeCloseTo(2 ** (4 / (4 + pull)), 10);
    // posterior precision 1/τ² + n/σ²: Gelman et al., Bayesian Data Analysis, eq. 2.12
    const [sigma, tau] = [coefficients['shop.hours_log_sd'], coefficients['shop.hours_prior_log_sd']];
    const sd = (1 / tau ** 2 + 4 / sigma ** 2) ** -0.5;
    expect(Math.log(learned.high / learned.low)).toBeCloseTo(2 * 1.2815515655446004 * sd, 10);
  });

  test('a ratio stays between 1 and what the cards say, and more cards narrow it', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 10, noNaN: true }), fc.integer({ min: 1, max: 30 }), (h, n) => {
        const few = learnedHours(Array(n).fill(oilCard(h)), coefficients)[0];
        const more = learnedHours(Array(n + 1).fill(oilCard(h)), coefficients)[0];
        const said = h / 1.25;
        expect(few.ratio).toBeGreaterThanOrEqual(Math.min(1, said) - 1e-9);
        expect(few.ratio).toBeLessThanOrEqual(Math.max(1, said) + 1e-9);
        expect(more.high / more.low).toBeLessThan(few.high / few.low);
      }),
      { numRuns: 50 },
    );
  });

  test('a visit with two jobs speaks of both by their share', () => {
    const both = learnedHours(
      [
        {
          jobs: [
            { job: 'timing_set' as const, hours: 9 },
            { job: 'oil_change' as const, hours: 1 },
          ],
          setUpHours: 0,
          actualHours: 15,
        },
      ],
      coefficients,
    );
    expect(both.map(({ job, visits }) => [job, visits])).toEqual([
      ['oil_change', 0.1],
      ['timing_set', 0.9],
    ]);
    expect(both[1].ratio).toBeCloseTo(1.5 ** (0.9 / (0.9 + pull)), 10);
  });
});

test('the bill of an oil service by hand; an item without a price makes it not known', () => {
  const items = orderItems(unitOf({}).history.engine, 'oil_change');
  const prices: Record<string, number> = { 'oil 5W-30': 520, 'filter Garth 25': 950 };
  const visit = { jobs: [{ job: 'oil_change' as const, items }], hours: 0.75 };
  // 0.75 h at 95.00 + 5.5 l at 5.20 + 9.50
  expect(visitBill(visit, 9500, null, (item) => prices[item] ?? null).cents).toBe(7125 + 2860 + 950);
  const without = visitBill(visit, 9500, null, (item) => (item.startsWith('oil') ? 520 : null));
  expect(without).toEqual({ cents: null, missing: ['filter Garth 25'] });
});

describe('outside shops, holidays and loan units', () => {
  const resources = [
    { kind: 'holiday', name: 'works outing', on: '2026-04-08', through: '2026-04-09', site: 'yard' },
    { kind: 'holiday', name: 'bridge day', on: '2026-04-13' },
    {
      kind: 'outside_shop',
      name: 'Quay Street garage',
      turnaroundDays: 1,
      prices: [{ job: 'oil_change', cents: 9000 }],
    },
    { kind: 'loan_unit', name: 'Spare 1', site: 'Yard', centsPerDay: 1000 },
  ].map((entry) => shopResource.parse(entry));

  test('a site keeps its own holidays and those of every site', () => {
    expect(holidaysOf(resources, 'Yard').map(isoFromDay)).toEqual(['2026-04-08', '2026-04-09', '2026-04-13']);
    expect(holidaysOf(resources, 'Quay').map(isoFromDay)).toEqual(['2026-04-13']);
  });

  test('a plan with no bay sends its work to the outside shop; a loan unit stands in for the dearest', () => {
    const inputs = smallShop({
      units: [unit('U1', { downtimeCentsPerDay: 8000 }), unit('U2', { downtimeCentsPerDay: 5000 })],
      jobs: ['U1', 'U2'].map((name) => oil(name, monday + 2, { latenessCentsPerDay: 9000 })),
      technicians: [],
      outside: outsideShopsOf(resources, (site) => site),
    });
    const plan = planShop(inputs);
    expect(plan.visits.map(({ outsideShop, place }) => [outsideShop, place])).toEqual([
      ['Quay Street garage', 'outside'],
      ['Quay Street garage', 'outside'],
    ]);
    const sameDay = plan.visits.map((visit) => ({
      ...visit,
      on: plan.visits[0].on,
      lastDay: plan.visits[0].lastDay,
    }));
    const loans = loansOf(sameDay, resources);
    expect(loans).toMatchObject([{ loanUnit: 'Spare 1', unitNumber: 'U1' }]);
    // two days away: 2 × (80.00 − 10.00)
    expect(loans[0].savedCents).toBe(14_000);
    expect(loansOf(sameDay, resources.slice(0, 3))).toEqual([]);
  });
});

test('hours of a site: bays or people, whichever are fewer', () => {
  const yard = site.parse({ site: 'Yard', bays: 2, technicians: 1, hoursPerDay: 8, weekdays: 'mon-fri' });
  expect(weeklyBayHours(yard, [])).toBe(40);
  expect(weeklyBayHours(yard, [8, 4])).toBe(60);
  expect(weeklyBayHours(yard, [8, 8, 8])).toBe(80);
});
