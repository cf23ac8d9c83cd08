import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkSequence } from '../../../models/intake/checks.ts';
import type { CheckRecord } from '../../../models/intake/checkRecord.ts';
import { meterTable, visitKinds } from '../../../models/intake/meterTable.ts';
import { isPlainSequence } from '../../../models/intake/plainSequence.ts';
import { dayFromIso, isoFromDay } from '../../../models/schema/day.ts';

interface Row {
  readonly kind: 'readings' | 'fuel' | 'service';
  readonly day: number;
  readonly odometerKm: number | null;
  readonly engineHoursH: number | null;
  readonly fuelL: number | null;
  readonly source: number;
}

const begin = dayFromIso('2023-01-01');
const span = { inServiceOn: '2023-01-01', inServiceOdometerKm: 10, disposedOn: '2023-12-31' };
const dateField = { readings: 'readOn', fuel: 'filledOn', service: 'servicedOn' } as const;

function tableOf(rows: readonly Row[]) {
  const table = meterTable(Math.max(1, rows.length));
  table.count = rows.length;
  rows.forEach((row, at) => {
    table.day[at] = begin + row.day;
    table.visitKind[at] = row.kind === 'readings' ? visitKinds.none : visitKinds[row.kind];
    table.source[at] = row.source;
    table.odometerKm[at] = row.odometerKm ?? Number.NaN;
    table.engineHoursH[at] = row.engineHoursH ?? Number.NaN;
    table.idleHoursH[at] = Number.NaN;
    table.fuelL[at] = row.kind === 'readings' ? (row.fuelL ?? Number.NaN) : Number.NaN;
    table.fillL[at] = row.kind === 'fuel' ? (row.fuelL ?? Number.NaN) : Number.NaN;
    table.works[at] = row.kind === 'service' ? 1 : 0;
  });
  return table;
}

const recordsOf = (rows: readonly Row[]): CheckRecord[] =>
  rows.map((row, at) => ({
    key: String(at),
    kind: row.kind,
    source: String(row.source),
    works: row.kind === 'service' ? ['oil_change'] : [],
    record: {
      [dateField[row.kind]]: isoFromDay(begin + row.day),
      odometerKm: row.odometerKm,
      engineHoursH: row.engineHoursH,
      fuelL: row.kind === 'service' ? null : row.fuelL,
      bank: null,
    },
  }));

const reading = (day: number, odometerKm: number | null, source = 1): Row => ({
  kind: 'readings',
  day,
  odometerKm,
  engineHoursH: null,
  fuelL: null,
  source,
});

describe('the quick look at a unit', () => {
  test('by hand: steady rows are plain; a step back, a day outside, a visit told twice are not', () => {
    const steady = [reading(10, 500), reading(20, 900), reading(30, 1400)];
    expect(isPlainSequence(span, tableOf(steady))).toBe(true);
    expect(isPlainSequence(span, tableOf([...steady, reading(25, 300)]))).toBe(false);
    expect(isPlainSequence(span, tableOf([...steady, reading(-1, 5)]))).toBe(false);
    expect(isPlainSequence(span, tableOf([...steady, reading(365, 9000)]))).toBe(false);
    expect(isPlainSequence(span, tableOf([...steady, reading(31, 9000)]))).toBe(false);
    const visit: Row = { ...reading(20, 905), kind: 'service' };
    expect(isPlainSequence(span, tableOf([...steady, visit, { ...visit, day: 21 }]))).toBe(true);
    expect(isPlainSequence(span, tableOf([...steady, visit, { ...visit, day: 21, source: 2 }]))).toBe(false);
  });

  const row = fc.record<Row>({
    kind: fc.constantFrom('readings', 'fuel', 'service'),
    day: fc.integer({ min: -2, max: 370 }),
    odometerKm: fc.option(fc.integer({ min: -40, max: 60 })),
    engineHoursH: fc.option(fc.integer({ min: -2, max: 3 })),
    fuelL: fc.option(fc.constantFrom(50, 50.3, 80)),
    source: fc.integer({ min: 1, max: 3 }),
  });

  test('never calls plain what the full checks hold', () => {
    let plain = 0;
    fc.assert(
      fc.property(fc.array(row, { maxLength: 12 }), fc.integer({ min: 0, max: 150 }), (drawn, kmPerDay) => {
        // around a steady pace, so that many draws agree and many only just do not
        const rows = drawn.map((each) => ({
          ...each,
          odometerKm:
            each.odometerKm === null ? null : Math.max(0, each.day * kmPerDay + each.odometerKm + 10),
          engineHoursH: each.engineHoursH === null ? null : Math.max(0, each.day * 2 + each.engineHoursH + 4),
          fuelL: each.kind === 'readings' && each.fuelL !== null ? Math.max(0, each.day) * 9 : each.fuelL,
        }));
        if (!isPlainSequence(span, tableOf(rows))) return;
        plain += 1;
        expect(checkSequence(span, [], recordsOf(rows)).hold).toEqual([]);
      }),
      { numRuns: process.env.SOAK === '1' ? 100_000 : 1000, seed: 11 },
    );
    expect(plain).toBeGreaterThan(30);
  });
});
