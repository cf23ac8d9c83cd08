import { describe, expect, test } from 'vitest';
import { assessFleet } from '../../../models/assessment/assessFleet.ts';
import { coefficientFile, coefficientValues } from '../../../models/schema/coefficient.ts';
import { dayFromIso, isoFromDay } from '../../../models/schema/day.ts';
import { catalogFiles } from '../../../server/catalog.ts';
import { fleetModels } from '../../../server/fleetModels.ts';
import { fleetHistoryOf } from '../../simulation/history.ts';
import { noRows, type ServiceRow } from '../../simulation/rows.ts';

const coefficients = coefficientValues(catalogFiles.map((file) => coefficientFile.parse(file)));
const models = fleetModels(coefficients);
const asOf = '2024-06-30';

/** Units of one family with a reading every quarter, 60 km a day, and the services given. */
function fleetOf(families: readonly string[], services: readonly Partial<ServiceRow>[]) {
  const rows = noRows();
  families.forEach((engineFamily, i) => {
    const unitNumber = `E${i}`;
    rows.units.push({ unitNumber, engineFamily, inServiceOn: '2020-01-01', status: 'active' });
    const first = dayFromIso('2020-01-01');
    for (let day = first; day <= dayFromIso(asOf); day += 91)
      rows.readings.push({ unitNumber, readOn: isoFromDay(day), odometerKm: 60 * (day - first) });
  });
  for (const row of services)
    rows.service.push({ unitNumber: 'E0', work: 'timing set replaced', works: ['timing_set'], ...row });
  return assessFleet(fleetHistoryOf(rows, asOf), models, 365);
}

const days = (episode: { segments: readonly { days: number }[] }) =>
  episode.segments.reduce((sum, segment) => sum + segment.days, 0);

describe('lives of timing sets', () => {
  test('end at a failure and begin anew; stretches are cut at whole years before the day', () => {
    const { episodes } = fleetOf(['f1'], [{ servicedOn: '2022-01-01', outcome: 'failed' }]);
    expect(episodes.map(({ end, family }) => [end, family])).toEqual([
      ['failed', 'f1'],
      ['running', 'f1'],
    ]);
    // 2020-01-01 to 2022-01-01 has 731 days, from there to 2024-06-30 there are 911
    expect(episodes.map(days)).toEqual([731, 911]);
    expect(episodes[1].segments.map((segment) => segment.days)).toEqual([181, 365, 365]);
    expect(episodes[0].endedDaysAgo).toBe(911);
    expect(episodes[0].segments.reduce((sum, { distanceKm }) => sum + distanceKm, 0)).toBeCloseTo(
      60 * 731,
      -2,
    );
  });

  test('a part of another issue starts with a life of its own, named in the fit', () => {
    const { episodes, fit } = fleetOf(
      ['f1', 'f1', 'f1'],
      [
        { servicedOn: '2021-06-01', outcome: 'failed', partRevision: 'C' },
        { unitNumber: 'E1', servicedOn: '2021-07-01', outcome: 'failed', partRevision: ' c ' },
        { unitNumber: 'E2', servicedOn: '2021-08-01', outcome: 'failed' },
      ],
    );
    const running = episodes.filter(({ end }) => end === 'running').map(({ family }) => family);
    expect(running).toEqual(['f1, issue c', 'f1, issue c', 'f1']);
    expect(fit.familyScales.map(({ family, failures }) => [family, failures])).toEqual([
      ['f1', 3],
      ['f1, issue c', 0],
    ]);
  });

  test('the issue of anything else than timing parts changes nothing', () => {
    const { episodes } = fleetOf(
      ['f1'],
      [{ servicedOn: '2021-06-01', works: ['engine'], outcome: 'failed', partRevision: 'C' }],
    );
    expect(episodes.map(({ family }) => family)).toEqual(['f1', 'f1']);
  });

  test('a failure dated before the unit went into service ends no life', () => {
    const { episodes, assessment } = fleetOf(['f1'], [{ servicedOn: '2019-05-01', outcome: 'failed' }]);
    expect(episodes).toHaveLength(1);
    expect(episodes[0].end).toBe('running');
    expect(assessment.units[0].failure!.probability).toBeGreaterThan(0);
  });

  test('a failure on the very first day is kept out of the fit rather than breaking it', () => {
    const { assessment, fit } = fleetOf(['f1', 'f1'], [{ servicedOn: '2020-01-01', outcome: 'failed' }]);
    expect(Number.isFinite(fit.level)).toBe(true);
    for (const { failure } of assessment.units) {
      expect(failure!.probability).toBeGreaterThan(0);
      expect(failure!.probability).toBeLessThan(0.5);
    }
  });

  test('a family of one unit, failed or not, stands near the others with a wider range', () => {
    const many = Array.from({ length: 12 }, () => 'f1');
    for (const services of [
      [],
      [{ unitNumber: 'E12', servicedOn: '2022-01-01', outcome: 'failed' as const }],
    ]) {
      const { fit } = fleetOf([...many, 'alone'], services);
      const [alone, f1] = ['alone', 'f1'].map((name) =>
        fit.familyScales.find(({ family }) => family === name)!,
      );
      expect(alone.lifeFactor.value).toBeGreaterThan(0.5);
      expect(alone.lifeFactor.value).toBeLessThan(2);
      // shares come from 240 draws and carry their noise
      expect(alone.ownDataShare).toBeLessThanOrEqual(f1.ownDataShare + 0.05);
    }
  });
});
