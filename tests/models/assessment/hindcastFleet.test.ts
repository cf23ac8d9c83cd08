import { describe, expect, test } from 'vitest';
import { assessFleet } from '../../../models/assessment/assessFleet.ts';
import { freezeOrigin, hindcastFleet } from '../../../models/assessment/hindcastFleet.ts';
import { defaultOrigins, originRefusal } from '../../../models/assessment/hindcastOrigins.ts';
import { outcomeOf } from '../../../models/assessment/hindcastOutcomes.ts';
import { coefficientFile, coefficientValues } from '../../../models/schema/coefficient.ts';
import { dayFromIso, isoFromDay } from '../../../models/schema/day.ts';
import { hindcastResult } from '../../../models/schema/hindcastEndpoints.ts';
import { catalogFiles } from '../../../server/catalog.ts';
import { fleetModels } from '../../../server/fleetModels.ts';
import { fleetHistoryOf } from '../../simulation/history.ts';
import { noRows, type ServiceRow } from '../../simulation/rows.ts';
import { sparseFleet } from '../../simulation/sparse.ts';

const coefficients = coefficientValues(catalogFiles.map((file) => coefficientFile.parse(file)));
const models = fleetModels(coefficients);

describe('what became of a unit after the origin', () => {
  const origin = dayFromIso('2024-06-30');
  const end = dayFromIso('2025-06-30');
  const outcome = (service: readonly Partial<ServiceRow>[], unit: object = {}) => {
    const rows = noRows();
    rows.units.push({ unitNumber: 'U1', inServiceOn: '2020-01-01', status: 'active', ...unit });
    for (const row of service)
      rows.service.push({
        unitNumber: 'U1',
        odometerKm: 90_000,
        work: 'renewal',
        works: ['other'],
        ...row,
      } as ServiceRow);
    const [history] = fleetHistoryOf(rows, '2025-12-31').units;
    const { day, ...rest } = outcomeOf(history, origin, end, models.faultCodes, coefficients);
    return { ...rest, on: isoFromDay(day) };
  };

  test('nothing: it ran to the end of the window', () => {
    const before = outcome([{ servicedOn: '2024-06-30', works: ['engine'], outcome: 'failed' }]);
    expect(before).toMatchObject({ outcome: 'ran', failureChance: 0, on: '2025-06-30', record: null });
  });

  test.each(['timing_set', 'phaser', 'tensioner_guides', 'belt', 'engine'] as const)(
    '%s renewed after it failed is a failure on that day',
    (work) => {
      const failed = outcome([{ servicedOn: '2024-09-01', works: [work], outcome: 'failed' }]);
      expect(failed).toMatchObject({ outcome: 'failed', failureChance: 1, on: '2024-09-01' });
      expect(failed.record).toEqual({ kind: 'service', id: 1 });
    },
  );

  test('a solenoid is none; a planned renewal censors, also when a failure comes later', () => {
    expect(
      outcome([{ servicedOn: '2024-09-01', works: ['oil_control_solenoid'], outcome: 'failed' }]).outcome,
    ).toBe('ran');
    expect(
      outcome([
        { servicedOn: '2025-03-01', works: ['engine'], outcome: 'failed' },
        { servicedOn: '2024-09-01', works: ['timing_set'], outcome: 'planned' },
      ]),
    ).toMatchObject({ outcome: 'renewed', failureChance: 0, on: '2024-09-01' });
  });

  test('an empty outcome is judged as a chance, neither 0 nor 1', () => {
    const open = outcome([{ servicedOn: '2024-09-01', works: ['timing_set'] }]);
    expect(open.failureChance).toBeGreaterThan(0);
    expect(open.failureChance).toBeLessThan(1);
    const words = outcome([
      { servicedOn: '2024-09-01', works: ['timing_set'], note: 'chain broke, towed in' },
    ]);
    expect(words.failureChance).toBeGreaterThan(open.failureChance);
  });

  test('sold censors; given up for a broken engine is a failure', () => {
    const gone = { status: 'retired', disposedOn: '2024-12-01' };
    expect(outcome([], { ...gone, disposalReason: 'sold' })).toMatchObject({
      outcome: 'disposed',
      failureChance: 0,
      on: '2024-12-01',
    });
    expect(outcome([], { ...gone, disposalReason: 'engine failed, not worth repair' })).toMatchObject({
      outcome: 'failed',
      failureChance: 1,
    });
  });
});

describe('origins', () => {
  const span = { firstOn: '2021-01-10', lastOn: '2026-10-31' };

  test('default: three, half-yearly, the last one horizon before the newest record', () => {
    expect(defaultOrigins(span, 365)).toEqual(['2024-11-01', '2025-05-02', '2025-10-31']);
    expect(defaultOrigins({ firstOn: '2025-01-01', lastOn: '2026-06-01' }, 365)).toEqual(['2025-06-01']);
    expect(defaultOrigins({ firstOn: '2026-01-01', lastOn: '2026-06-01' }, 365)).toEqual([]);
  });

  test('what cannot be scored is refused with the reason', () => {
    const refused = (origin: string) => originRefusal([origin], span, '2026-11-05');
    expect(refused('2025-06-01')).toBeNull();
    expect(refused('2026-12-01')).toMatch(/lies after 2026-11-05/);
    expect(refused('2020-12-31')).toMatch(/before the first record \(2021-01-10\)/);
    expect(refused('2026-10-31')).toMatch(/nothing followed/);
    expect(originRefusal([], span, '2026-11-05')).toMatch(/no origins/);
    expect(originRefusal(['2025-01-01'], null, '2026-11-05')).toMatch(/no dated records/);
  });
});

describe('a fleet that kept odometers and renewals and nothing else', () => {
  const fleet = sparseFleet({ seed: 4, units: 160, years: 9 });
  const { endDay } = fleet.truth;
  const lastOn = isoFromDay(endDay);
  const later = fleetHistoryOf(fleet.rows, lastOn);
  const frozen = [365, 200].map((back) => {
    const view = assessFleet(fleetHistoryOf(fleet.rows, isoFromDay(endDay - back)), models, 365);
    return freezeOrigin(view, later, lastOn, models);
  });
  const result = hindcastFleet(frozen, { asOf: lastOn, horizonDays: 365, modelVersion: 'test' }, lastOn);
  const [whole, part] = result.origins;

  test('the document is whole and finite; chances are those of the assessment', () => {
    expect(hindcastResult.safeParse(result).error).toBeUndefined();
    expect(JSON.stringify(result)).not.toMatch(/NaN|Infinity/);
    expect(whole.predictions.map((one) => one.probability)).toEqual(
      frozen[0].view.assessment.units.map((unit) => unit.failure!.probability),
    );
    expect(new Set(whole.predictions.map((one) => one.probability)).size).toBeGreaterThan(60);
  });

  test('failures are those of the truth: recorded ones of units in service, first in the window', () => {
    const sure = whole.predictions.filter((one) => one.failed === 1).map((one) => one.unitNumber);
    for (const number of sure) {
      const truth = fleet.truth.units.find((unit) => unit.unitNumber === number)!;
      expect(truth.failures.some(({ day }) => day > endDay - 365 && day <= endDay)).toBe(true);
    }
    expect(whole.sumpwise.events).toBeCloseTo(
      whole.predictions.reduce((sum, one) => sum + one.failed, 0),
      1,
    );
  });

  test('a window that the records only partly reach is said and not counted as survived', () => {
    expect(part).toMatchObject({ observedDays: 200, wholeWindow: false, observedThrough: lastOn });
    const planned = part.predictions.reduce((sum, one) => sum + one.probability, 0);
    expect(part.sumpwise.expected).toBeLessThan(0.65 * planned);
    expect(part.sumpwise.countCoverage).toBeNull();
    expect(result.messages.join(' ')).toContain('200 of 365 days were watched');
  });
});
