import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { CheckRecord, UnitSpan } from '../../../models/intake/checkRecord.ts';
import { checkSequence, type SequenceChecked } from '../../../models/intake/checks.ts';
import type { RowRecord } from '../../../models/intake/readRow.ts';
import type { WorkKind } from '../../../models/schema/service.ts';
import { dayFromIso, isoFromDay } from '../../../models/schema/day.ts';

const span: UnitSpan = { inServiceOn: '2022-01-01', inServiceOdometerKm: 0, disposedOn: null };
const first = dayFromIso('2022-01-01');
let keys = 0;

function entry(
  kind: 'readings' | 'service' | 'fuel',
  day: number,
  values: RowRecord,
  source = 'a.csv',
  works: readonly WorkKind[] = [],
): CheckRecord {
  const field = { readings: 'readOn', service: 'servicedOn', fuel: 'filledOn' }[kind];
  keys += 1;
  return {
    key: `k${keys}`,
    kind,
    source,
    works,
    record: { unitNumber: '7', bank: null, [field]: isoFromDay(first + day), ...values },
  };
}
const reading = (day: number, odometerKm: number, more: RowRecord = {}) =>
  entry('readings', day, { odometerKm, ...more });
/** A reading a month, 3000 km apart. */
const steady = (count = 10) => Array.from({ length: count }, (_, at) => reading(at * 30, 1000 + at * 3000));
const codesOf = (checked: SequenceChecked) =>
  [...checked.hold, ...checked.suspects].map(({ reasons }) => reasons.map(({ code }) => code).join(' '));

describe('one value among steady ones', () => {
  const withOdd = (day: number, odometerKm: number) =>
    checkSequence(span, [], [...steady(), reading(day, odometerKm)]);

  test('an odometer that steps back is held alone, the others are taken', () => {
    const checked = withOdd(135, 9000);
    expect(codesOf(checked)).toEqual(['odometer_back']);
    expect(checked.accept).toHaveLength(10);
  });
  test('a jump is held', () => {
    const checked = withOdd(135, 900_000);
    expect(checked.hold).toHaveLength(1);
    expect(checked.accept).toHaveLength(10);
  });
  test('kilometers in a column of miles are held with the value they would have', () => {
    // 14 500 km lies between; written in miles it is 9010.
    const [held] = withOdd(135, 9010).hold;
    expect(held?.mend).toMatchObject({ how: 'unit', field: 'odometerKm' });
    expect(held?.mend?.value).toBeCloseTo(9010 * 1.609344, 5);
  });
  test('a dropped digit and two swapped ones are held with a proposal between the neighbours', () => {
    for (const wrong of [1450, 41_500]) {
      const [held] = withOdd(135, wrong).hold;
      expect(held?.mend?.how).toBe('digits');
      expect(held?.mend?.value).toBeGreaterThanOrEqual(13_000);
      expect(held?.mend?.value).toBeLessThanOrEqual(16_000);
    }
  });
  test('hours faster than the clock are held', () => {
    const hours = [0, 30, 60, 90].map((day) =>
      reading(day, 1000 + day * 100, { engineHoursH: 100 + day * 4 }),
    );
    const fast = reading(91, 10_200, { engineHoursH: 100 + 90 * 4 + 200 });
    expect(codesOf(checkSequence(span, [], [...hours, fast]))).toEqual(['hours_jump']);
  });
  test('a day before the unit went into service, and one after it was sold', () => {
    expect(codesOf(checkSequence(span, [], [...steady(), reading(-40, 0)]))).toEqual(['date_before_service']);
    const sold = { ...span, disposedOn: '2022-06-30' };
    expect(codesOf(checkSequence(sold, [], [reading(30, 4000), reading(300, 31_000)]))).toEqual([
      'date_after_disposal',
    ]);
  });
  test('a value taken before is named when the new ones outvote it', () => {
    const wrong = reading(135, 90_000);
    const checked = checkSequence(span, [wrong], steady());
    expect(checked.suspects.map(({ key }) => key)).toEqual([wrong.key]);
    expect(checked.accept).toHaveLength(10);
  });
});

test('a meter that was replaced may begin anew', () => {
  const before = steady(5);
  const swap = entry('service', 125, { odometerKm: 13_500, note: 'old=13500 new=10' }, 'a.csv', [
    'meter_replaced',
  ]);
  const after = [reading(150, 2500), reading(180, 5500)];
  expect(codesOf(checkSequence(span, [], [...before, swap, ...after]))).toEqual([]);
});

test('a meter that begins anew unsaid: its values are held together, with the replacement to record', () => {
  const after = [180, 210, 240, 270].map((day) => reading(day, 200 + (day - 180) * 100));
  const checked = checkSequence(span, [], [...steady(6), ...after]);
  expect(checked.accept).toHaveLength(6);
  expect(checked.hold.map(({ mend }) => mend?.how)).toEqual(Array(4).fill('meter_replaced'));
  expect(checked.hold[0]?.mend?.words).toContain('old=16000 new=200');
});

describe('told twice', () => {
  const visit = (day: number, odometerKm: number, source: string, work = 'LOF', cost = 0) =>
    entry('service', day, { odometerKm, work, costCents: cost }, source, ['oil_change']);

  test('the same row again is a repeat, the same visit from another source is held', () => {
    const checked = checkSequence(
      span,
      [],
      [visit(30, 4000, 'a.csv'), visit(30, 4000, 'b.csv'), visit(31, 4020, 'c.csv', 'oil change', 5000)],
    );
    expect(checked.repeats).toHaveLength(1);
    expect(codesOf(checked)).toEqual(['same_visit']);
    expect(checked.accept).toHaveLength(1);
  });
  test('other work on the same day is another visit', () => {
    const brakes = entry('service', 30, { odometerKm: 4000, work: 'brakes' }, 'b.csv', ['other']);
    expect(codesOf(checkSequence(span, [], [visit(30, 4000, 'a.csv'), brakes]))).toEqual([]);
  });
});

const rows = fc.array(
  fc.record({
    day: fc.integer({ min: 0, max: 400 }),
    km: fc.integer({ min: 0, max: 60_000 }),
    source: fc.constantFrom('a.csv', 'b.csv'),
    service: fc.boolean(),
  }),
  { maxLength: 25 },
);
type Rows = typeof rows extends fc.Arbitrary<infer T> ? T : never;
const entriesOf = (list: Rows) =>
  list.map(({ day, km, source, service }, at): CheckRecord => ({
    ...(service
      ? entry('service', day, { odometerKm: km, work: 'LOF' }, source, ['oil_change'])
      : entry('readings', day, { odometerKm: km }, source)),
    key: String(at),
  }));
const runs = process.env.SOAK === '1' ? 100_000 : 300;

describe('whatever comes', () => {
  test('every new record is accepted, held or a repeat, exactly once', () => {
    fc.assert(
      fc.property(rows, (list) => {
        const fresh = entriesOf(list);
        const { accept, hold, repeats } = checkSequence(span, [], fresh);
        const told = [...accept, ...hold.map(({ key }) => key), ...repeats.map(({ key }) => key)].sort();
        expect(told).toEqual(fresh.map(({ key }) => key).sort());
        for (const { reasons } of hold) expect(reasons.length).toBeGreaterThan(0);
      }),
      { numRuns: runs, seed: 11 },
    );
  }, 1_800_000);
  test('the order of rows changes nothing', () => {
    fc.assert(
      fc.property(rows, fc.infiniteStream(fc.nat()), (list, numbers) => {
        const fresh = entriesOf(list);
        const shuffled = fresh
          .map((each) => ({ each, at: numbers.next().value ?? 0 }))
          .sort((a, b) => a.at - b.at)
          .map(({ each }) => each);
        const contents = (checked: SequenceChecked) =>
          checked.accept.map((key) => JSON.stringify(fresh[Number(key)]?.record)).sort();
        expect(contents(checkSequence(span, [], shuffled))).toEqual(contents(checkSequence(span, [], fresh)));
      }),
      { numRuns: runs, seed: 12 },
    );
  }, 1_800_000);
});
