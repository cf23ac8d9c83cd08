import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  spendByPayer,
  spendLines,
  spendNotes,
  spendSumsOf,
} from '../../../models/assessment/spendHistory.ts';
import type { UnitHistory, WorkRead } from '../../../models/schema/history.ts';
import { service, type WorkKind } from '../../../models/schema/service.ts';
import { unit } from '../../../models/schema/unit.ts';

const source = { id: 1, kind: 'service', batch: 'b', file: 'f', line: 1 } as const;
const read = (works: readonly WorkKind[]): WorkRead => ({
  works,
  oilGrade: null,
  oilL: null,
  bank: null,
  confidence: 1,
});

interface Job {
  readonly works: readonly WorkKind[];
  readonly outcome?: 'planned' | 'failed' | null;
  readonly costCents?: number | null;
  readonly paidBy?: string | null;
  readonly on?: string;
}

function history(unitNumber: string, jobs: readonly Job[]): Pick<UnitHistory, 'unit' | 'services'> {
  return {
    unit: {
      ...unit.parse({ unitNumber, site: 'Millbank', duty: ' ' }),
      source: { ...source, kind: 'units' },
    },
    services: jobs.map(({ works, on = '2024-03-05', ...more }) => ({
      ...service.parse({ unitNumber, servicedOn: on, work: works.join(' '), ...more }),
      source,
      read: read(works),
    })),
  };
}

describe('spend history', () => {
  // by hand: oil 68.50 + 75.00, planned 2 550.00, unplanned 7 400.00, one failure and one top-up without a cost
  const two = [
    history('A1', [
      { works: ['oil_change', 'filter'], costCents: 6850 },
      { works: ['timing_set', 'oil_change'], outcome: 'planned', costCents: 255_000, paidBy: 'fleet' },
      { works: ['top_up'], on: '2024-04-01' },
    ]),
    history('A2', [
      { works: ['oil_change'], costCents: 7500, on: '2024-04-02' },
      { works: ['timing_set'], outcome: 'failed', costCents: 740_000, paidBy: 'Warranty', on: '2024-04-03' },
      { works: ['oil_change'], outcome: 'failed', paidBy: 'warranty', on: '2024-04-04' },
      { works: ['phaser'], costCents: 90_000, on: '2024-04-05' },
      { works: ['inspection'], costCents: 4000, on: '2024-04-06' },
    ]),
  ];
  const lines = spendLines(two);

  test('two units add up to the cent, and what is not known is counted', () => {
    const total = spendSumsOf(lines);
    expect(total).toEqual({
      rows: 7,
      oilCents: 14_350,
      plannedCents: 255_000,
      unplannedCents: 740_000,
      unsaidCents: 90_000,
      withoutCost: 2,
    });
    expect(spendSumsOf(lines.filter(({ month }) => month === '2024-03'))).toMatchObject({
      oilCents: 6850,
      plannedCents: 255_000,
      unplannedCents: 0,
    });
    expect(spendNotes(lines, total)).toEqual([
      '2 of 7 rows carry no cost and add nothing: what was spent is at least this',
      'of 1 renewals and repairs it is not recorded whether they were planned or followed a failure',
      '1 rows of other work, such as inspections, are not in these sums',
    ]);
    expect(lines[0]).toMatchObject({ site: 'Millbank', duty: 'not recorded', engineFamily: 'not recorded' });
  });

  test('who paid, whatever the case of the name', () => {
    expect(spendByPayer(lines)).toEqual([
      { name: 'Warranty', rows: 2, costCents: 740_000, withoutCost: 1 },
      { name: 'fleet', rows: 1, costCents: 255_000, withoutCost: 0 },
      { name: 'not recorded', rows: 4, costCents: 104_350, withoutCost: 1 },
    ]);
  });

  test('nothing on record says so', () => {
    expect(spendNotes([], spendSumsOf([]))).toEqual(['no oil change, renewal or repair is on record']);
  });

  test('sums of parts are the sum of all', () => {
    const job = fc.record({
      works: fc.constantFrom<WorkKind[]>(['oil_change'], ['phaser'], ['inspection'], ['top_up', 'belt']),
      outcome: fc.constantFrom('planned' as const, 'failed' as const, null),
      costCents: fc.option(fc.integer({ min: 0, max: 1e7 })),
    });
    fc.assert(
      fc.property(fc.array(job), fc.array(job), (one, other) => {
        const sums = (jobs: readonly Job[]) => Object.values(spendSumsOf(spendLines([history('X', jobs)])));
        const [a, b] = [sums(one), sums(other)];
        expect(sums([...one, ...other])).toEqual(a.map((value, i) => value + b[i]));
      }),
      { seed: 11, numRuns: 60 },
    );
  });
});
