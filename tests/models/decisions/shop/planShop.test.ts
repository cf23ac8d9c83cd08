import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { costOfMove } from '../../../../models/decisions/shop/costOfMove.ts';
import { dueCostCents } from '../../../../models/decisions/shop/dueCost.ts';
import { placeOf } from '../../../../models/decisions/shop/formerPlace.ts';
import { planShop } from '../../../../models/decisions/shop/planShop.ts';
import { replan } from '../../../../models/decisions/shop/replan.ts';
import type { DueJob, ShopInputs } from '../../../../models/decisions/shop/shopInputs.ts';
import { canBeSpared, isOpen, spanHolds } from '../../../../models/decisions/shop/weekCalendar.ts';
import { dayFromIso, isoFromDay } from '../../../../models/schema/day.ts';
import { shopPlan, type ShopPlan } from '../../../../models/schema/shopPlan.ts';
import { highs } from '../highs.ts';
import { monday, oil, rules, smallShop, unit } from './smallShop.ts';

describe('worked by hand', () => {
  test('due cost: 100 late, 10 early, due 10/20/30 on day 20 is .3·1000 + .3·100 = 330', () => {
    const job = {
      earliestDay: 10,
      medianDay: 20,
      latestDay: 30,
      latenessCentsPerDay: 100,
      earlinessCentsPerDay: 10,
    };
    expect(dueCostCents(job, 20, { dueWeights: [0.3, 0.4, 0.3] })).toBe(330);
  });

  test('one job goes to its due day: set-up 25.00 and a quarter of a day at 100.00', () => {
    const plan = planShop(smallShop({}));
    expect(plan.visits.map(({ on, startsAt, costCents }) => [on, startsAt, costCents])).toEqual([
      ['2026-04-08', '2026-04-08T08:00:00+00:00', 2500 + 2500],
    ]);
    expect([plan.objectiveCents, plan.boundCents, plan.idealCents, plan.gap]).toEqual([5000, 5000, 5000, 0]);
  });

  test('an oil service and a sample of one unit share a visit', () => {
    const sample = oil('1', monday + 3, { jobId: '1/sample/1', job: 'sample', hours: 0.25 });
    const plan = planShop(smallShop({ jobs: [oil('1', monday + 2), sample] }));
    expect(plan.visits.map(({ jobs }) => [...jobs].sort())).toEqual([['oil_change', 'sample']]);
  });

  test('a renewal of 14 h takes two days in a row of one bay and one person', () => {
    const plan = planShop(smallShop({ jobs: [oil('1', monday + 2, { job: 'timing_set', hours: 14 })] }));
    const [visit] = plan.visits;
    expect(dayFromIso(visit.lastDay) - dayFromIso(visit.on)).toBe(1);
    expect(visit.endMinute).toBe(480 + 6.25 * 60);
  });
});

describe('bad input gives a plan with reasons', () => {
  const [site] = smallShop({}).sites;
  const cases: [string, Partial<ShopInputs>, string][] = [
    ['no bays', { sites: [{ ...site, bays: [] }] }, 'no_capacity'],
    ['no people', { technicians: [] }, 'no_capacity'],
    ['longer than any stay', { jobs: [oil('1', monday, { hours: 200 })] }, 'too_long'],
    [
      'unit never spared',
      { units: [unit('1', { blackouts: [{ fromDay: 0, toDay: 99_999 }] })] },
      'unit_not_spared',
    ],
    [
      'nobody with the skill',
      {
        jobs: [oil('1', monday, { skill: 'timing' })],
        technicians: [{ technician: 'Ada', site: 'Yard', skills: ['oil'], hoursPerDay: 8, away: [] }],
      },
      'no_skill',
    ],
    [
      'part that never comes',
      {
        jobs: [
          oil('1', monday, { items: [{ item: 'filter', kind: 'filter', quantity: 1, measure: 'pieces' }] }),
        ],
        shelf: [{ item: 'filter', site: 'Yard', onHand: 0, leadTimeDays: null }],
      },
      'parts_never',
    ],
    ['a unit that nobody knows', { jobs: [oil('9', monday)] }, 'no_site'],
  ];
  for (const [name, more, code] of cases)
    test(name, () => {
      const plan = planShop(smallShop(more));
      expect(shopPlan.parse(plan)).toEqual(plan);
      expect(plan.visits).toEqual([]);
      expect(plan.notPlaced.map((job) => job.code)).toEqual([code]);
      expect(plan.notPlaced[0].costCents).toBeGreaterThan(0);
    });

  test('more work than hours: what stays out is priced, the dearest to leave goes in', () => {
    const units = Array.from({ length: 12 }, (_, i) => unit(String(i)));
    const jobs = units.map(({ unitNumber }, i) =>
      oil(unitNumber, monday, { hours: 7.75, latenessCentsPerDay: 100 * (i + 1) }),
    );
    const plan = planShop(smallShop({ units, jobs }));
    expect(plan.visits).toHaveLength(10);
    expect(plan.notPlaced.map(({ unitNumber }) => unitNumber).sort()).toEqual(['0', '1']);
  });

  test('hours that are none are refused', () => {
    expect(() => planShop(smallShop({ jobs: [oil('1', monday, { hours: 0 })] }))).toThrow('must be above 0');
  });
});

/** Fleets of a few units with all that can stand in the way. */
const shops = fc
  .record({
    units: fc.array(
      fc.record({
        away: fc.option(fc.integer({ min: 0, max: 13 }), { nil: null }),
        weekday: fc.integer({ min: -1, max: 4 }),
        jobs: fc.array(
          fc.record({
            kind: fc.constantFrom('oil_change', 'sample', 'timing_set', 'check'),
            due: fc.integer({ min: -10, max: 16 }),
            width: fc.integer({ min: 0, max: 6 }),
            quarters: fc.integer({ min: 1, max: 40 }),
            late: fc.integer({ min: 0, max: 2000 }),
            notBefore: fc.option(fc.integer({ min: 0, max: 16 }), { nil: null }),
          }),
          { minLength: 1, maxLength: 3 },
        ),
      }),
      { minLength: 1, maxLength: 12 },
    ),
    bays: fc.integer({ min: 0, max: 2 }),
    people: fc.array(
      fc.record({
        skilled: fc.boolean(),
        hours: fc.integer({ min: 0, max: 9 }),
        away: fc.integer({ min: -3, max: 12 }),
      }),
      { maxLength: 3 },
    ),
    outside: fc.boolean(),
  })
  .map(({ units, bays, people, outside }): ShopInputs => {
    const base = smallShop({});
    const everyDay = [true, true, true, true, true, false, false];
    return smallShop({
      sites: [
        {
          ...base.sites[0],
          bays: Array.from({ length: bays }, (_, i) => `Bay ${i + 1}`),
          holidays: [monday + 3],
        },
      ],
      technicians: people.map(({ skilled, hours, away }, i) => ({
        technician: `T${i}`,
        site: 'Yard',
        skills: skilled ? ['timing'] : [],
        hoursPerDay: hours,
        away: [{ fromDay: monday + away, toDay: monday + away + 2 }],
      })),
      units: units.map(({ away, weekday }, i) =>
        unit(`U${i}`, {
          blackouts: away === null ? [] : [{ fromDay: monday + away, toDay: monday + away + 2 }],
          blackoutWeekdays: everyDay.map((_, day) => day === weekday),
        }),
      ),
      jobs: units.flatMap(({ jobs }, i) =>
        jobs.map(({ kind, due, width, quarters, late, notBefore }, k): DueJob => ({
          ...oil(`U${i}`, monday + due),
          jobId: `U${i}/${kind}/${k}`,
          job: kind as DueJob['job'],
          hours: quarters / 4,
          skill: kind === 'timing_set' ? 'timing' : null,
          earliestDay: monday + due - width,
          latestDay: monday + due + width,
          latenessCentsPerDay: late,
          notBeforeDay: notBefore === null ? null : monday + notBefore,
        })),
      ),
      outside: outside
        ? [
            {
              name: 'Away shop',
              mobile: false,
              sites: null,
              priceCents: { oil_change: 9000 },
              turnaroundDays: 1,
              weekdays: everyDay,
            },
          ]
        : [],
    });
  });

const isSoak = process.env.SOAK === '1';
const effort = {
  priceSteps: 40,
  packingSteps: 20,
  diveSteps: 6,
  dives: 1,
  firstStepShare: 0.2,
  lastStepShare: 0.00133,
  roundsPerGroup: 10,
  leastRounds: 0,
  mostRounds: 200,
  kicks: 0,
  windowSteps: 0,
};

function expectSound(inputs: ShopInputs, plan: ShopPlan, locked: ReadonlySet<string> = new Set()): void {
  expect(shopPlan.parse(plan)).toEqual(plan);
  const told = [...plan.visits.flatMap(({ jobDetails }) => jobDetails), ...plan.notPlaced].map(
    ({ jobId }) => jobId,
  );
  expect(told.sort()).toEqual(inputs.jobs.map(({ jobId }) => jobId).sort());
  expect(plan.idealCents).toBeLessThanOrEqual(plan.boundCents);
  expect(plan.boundCents).toBeLessThanOrEqual(plan.objectiveCents);
  const [site] = inputs.sites;
  const places = plan.visits.map((visit) => ({ visit, place: placeOf(visit) }));
  for (const { visit, place } of places) {
    if (locked.has(visit.id)) continue;
    const own = inputs.units.find(({ unitNumber }) => unitNumber === visit.unitNumber);
    for (let day = place.day; day <= place.lastDay; day++)
      if (visit.place === 'outside' || isOpen(site, day))
        expect(own !== undefined && canBeSpared(own, day)).toBe(true);
    for (const { jobId } of visit.jobDetails)
      expect(place.day).toBeGreaterThanOrEqual(
        inputs.jobs.find((job) => job.jobId === jobId)?.notBeforeDay ?? 0,
      );
    if (visit.place !== 'bay') continue;
    const person = inputs.technicians.find(({ technician }) => technician === visit.technician);
    expect(isOpen(site, place.day) && isOpen(site, place.lastDay)).toBe(true);
    expect(visit.startMinute).toBeGreaterThanOrEqual(site.opensAtMinute);
    expect(visit.endMinute).toBeLessThanOrEqual(site.closesAtMinute);
    expect(person !== undefined && !spanHolds(person.away, place.day)).toBe(true);
    for (const { skill } of visit.jobDetails) if (skill !== null) expect(person?.skills).toContain(skill);
  }
  for (const { on, technician, usedHours, capacityHours } of plan.loads)
    expect(usedHours, `${on} ${technician}`).toBeLessThanOrEqual(capacityHours + 1e-9);
  const minutes = (day: number, minute: number) => day * 1440 + minute;
  for (const { place: a, visit } of places)
    for (const { place: b } of places) {
      if (a.visitId >= b.visitId || locked.has(visit.id)) continue;
      const together =
        minutes(a.day, a.startMinute) < minutes(b.lastDay, b.endMinute) &&
        minutes(b.day, b.startMinute) < minutes(a.lastDay, a.endMinute);
      const shared =
        a.unitNumber === b.unitNumber ||
        (a.bay !== null && (a.bay === b.bay || a.technician === b.technician));
      expect(together && shared).toBe(false);
    }
}

describe('whatever the fleet', () => {
  test('no visit breaks a constraint, every due job is planned or listed, the bound is below the objective', () => {
    fc.assert(
      fc.property(shops, (inputs) => expectSound(inputs, planShop(inputs, effort))),
      { numRuns: isSoak ? 800 : 40, seed: 11 },
    );
  });

  test('nor does one in a plan that is made anew by windows of days', () => {
    const { windows } = rules.search;
    const roll = { ...windows.roll, mostLanes: Infinity, mostLaneCents: Infinity, mostPlaces: 20 };
    const anew = { ...rules, search: { ...rules.search, windows: { ...windows, mostLaneCents: -1, roll } } };
    const quick = { ...effort, roundsPerGroup: 0, windowSteps: 300 };
    fc.assert(
      fc.property(shops, (inputs) => expectSound(inputs, planShop({ ...inputs, rules: anew }, quick, highs))),
      { numRuns: isSoak ? 400 : 50, seed: 13 },
    );
  });

  test('locked visits stay where they are, and a plan made again without a change moves nothing', () => {
    fc.assert(
      fc.property(shops, fc.nat(), (inputs, pick) => {
        const plan = planShop(inputs, effort);
        if (plan.visits.length === 0) return;
        const chosen = plan.visits[pick % plan.visits.length];
        const locked = replan(inputs, plan, { kind: 'lock', visitId: chosen.id }, effort);
        const again = locked.visits.find(({ id }) => id === chosen.id);
        expect([again?.startsAt, again?.bay, again?.technician, again?.locked]).toEqual([
          chosen.startsAt,
          chosen.bay,
          chosen.technician,
          true,
        ]);
        expectSound(inputs, locked);
        expect(locked.differences.filter(({ kind }) => kind === 'moved').length).toBeLessThanOrEqual(
          plan.visits.length,
        );
      }),
      { numRuns: isSoak ? 400 : 20, seed: 12 },
    );
  });
});

describe('a change', () => {
  const units = Array.from({ length: 20 }, (_, i) => unit(String(i)));
  const jobs = units.map(({ unitNumber }, i) => oil(unitNumber, monday + (i % 5)));
  const inputs = smallShop({ units, jobs });
  const plan = planShop(inputs);

  test('without effect moves nothing', () => {
    expect(replan(inputs, plan, { kind: 'records' }).differences).toEqual([]);
  });

  test('a day away moves that day only as far as needed, and says what moved', () => {
    const away = {
      ...inputs,
      technicians: [{ ...inputs.technicians[0], away: [{ fromDay: monday + 1, toDay: monday + 1 }] }],
    };
    const after = replan(away, plan, { kind: 'records' });
    const onTheDay = plan.visits.filter(({ on }) => on === isoFromDay(monday + 1)).length;
    const moved = after.differences.filter(
      ({ before, after: now }) => before?.slice(0, 10) !== now?.slice(0, 10),
    );
    expect(after.visits).toHaveLength(20);
    expect(moved.length).toBeGreaterThanOrEqual(onTheDay);
    expect(moved.length).toBeLessThanOrEqual(onTheDay + 4);
    expectSound(away, after);
  });

  test('a moved visit is locked at its new place, and its cost was told before', () => {
    const [visit] = plan.visits;
    const to = { on: isoFromDay(monday + 9) };
    const cost = costOfMove(inputs, plan, visit.id, to);
    const after = replan(inputs, plan, { kind: 'move', visitId: visit.id, to });
    const moved = after.visits.find(({ id }) => id === visit.id);
    expect([moved?.on, moved?.locked]).toEqual([to.on, true]);
    expect(cost.possible).toBe(true);
    expect((moved?.costCents ?? 0) - visit.costCents).toBe(cost.costCents);
    expect(costOfMove(inputs, plan, visit.id, { on: isoFromDay(monday + 5) }).conflicts).toContain(
      'Yard is closed on 2026-04-11',
    );
  });

  test('of a visit that is not there is refused', () => {
    expect(() => replan(inputs, plan, { kind: 'lock', visitId: 'none' })).toThrow('must be in the plan');
  });
});

test('the price of moving is the rule of the catalog', () => expect(rules.moveCents).toBe(3000));
