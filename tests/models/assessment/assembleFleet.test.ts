import { describe, expect, test } from 'vitest';
import { assembleFleet, inService, type FlatRecords } from '../../../models/assessment/assembleFleet.ts';
import type { RecordKind } from '../../../models/schema/kinds.ts';
import { kindTable } from '../../../models/schema/kinds.ts';
import { defaultSettings } from '../../../models/schema/settings.ts';

let nextId = 1;
function row<T>(kind: RecordKind, fields: Record<string, unknown>): T {
  const id = nextId++;
  return {
    ...(kindTable[kind].schema.parse(fields) as object),
    source: { id, kind, batch: '1', file: `${kind}.csv`, line: id + 1 },
  } as T;
}

const none: FlatRecords = {
  units: [],
  engines: [],
  sites: [],
  technicians: [],
  stock: [],
  blackouts: [],
  readings: [],
  fuel: [],
  service: [],
  samples: [],
  findings: [],
  codes: [],
};
const readNothing = () => ({ works: [], oilGrade: null, oilL: null, bank: null, confidence: 1 });
const assemble = (flat: Partial<FlatRecords>, asOf: string) =>
  assembleFleet({ ...none, ...flat }, asOf, defaultSettings, readNothing);

describe('records put together by unit', () => {
  test('a reissued number: each record goes to the holder of its day', () => {
    const fleet = assemble(
      {
        units: [
          row('units', {
            unitNumber: '7',
            inServiceOn: '2018-01-01',
            disposedOn: '2020-05-01',
            status: 'retired',
          }),
          row('units', { unitNumber: '7', inServiceOn: '2021-01-01' }),
        ],
        readings: [
          row('readings', { unitNumber: '7', readOn: '2019-03-01', odometerKm: 40_000 }),
          row('readings', { unitNumber: '7', readOn: '2022-03-01', odometerKm: 9_000 }),
          row('readings', { unitNumber: '7', readOn: '2017-12-20', odometerKm: 5 }),
        ],
      },
      '2023-01-01',
    );
    expect(fleet.units.map((unit) => unit.readings.map((reading) => reading.odometerKm))).toEqual([
      [5, 40_000],
      [9_000],
    ]);
    expect(fleet.units.map((unit) => inService(unit, '2023-01-01'))).toEqual([false, true]);
  });

  test('a disposal after the day is not known on the day', () => {
    const flat = {
      units: [
        row<FlatRecords['units'][number]>('units', {
          unitNumber: '8',
          inServiceOn: '2018-01-01',
          disposedOn: '2022-06-01',
          disposalReason: 'engine failed',
          status: 'retired',
        }),
      ],
    };
    const before = assemble(flat, '2022-01-01').units[0];
    expect(before.unit).toMatchObject({ disposedOn: null, disposalReason: null, status: 'active' });
    expect(inService(before, '2022-01-01')).toBe(true);
    expect(inService(assemble(flat, '2022-06-01').units[0], '2022-06-01')).toBe(false);
  });

  test('the newest version of master data counts; names match without regard to case', () => {
    const fleet = assemble(
      {
        units: [
          row('units', {
            unitNumber: 'A1',
            inServiceOn: '2020-01-01',
            site: 'North',
            engineFamily: 'tarn 20',
          }),
          row('units', {
            unitNumber: 'a1',
            inServiceOn: '2020-01-01',
            site: 'South',
            engineFamily: 'tarn 20',
          }),
        ],
        engines: [row('engines', { engineFamily: 'Tarn 20', sumpL: 5 })],
      },
      '2023-01-01',
    );
    expect(fleet.units).toHaveLength(1);
    expect(fleet.units[0].unit.site).toBe('South');
    expect(fleet.units[0].engine?.sumpL).toBe(5);
  });

  test('what is dated after the day is left out, units not yet in service too', () => {
    const fleet = assemble(
      {
        units: [
          row('units', { unitNumber: '1', inServiceOn: '2020-01-01' }),
          row('units', { unitNumber: '2', inServiceOn: '2024-01-01' }),
        ],
        codes: [row('codes', { unitNumber: '1', seenOn: '2023-06-01', code: 'P0016' })],
      },
      '2023-01-01',
    );
    expect(fleet.units.map((unit) => [unit.unit.unitNumber, unit.codes.length])).toEqual([['1', 0]]);
  });
});
