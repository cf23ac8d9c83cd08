import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkExtension, namesSomeone } from '../../../models/assessment/extensionApproval.ts';
import { sampleTrend, trendAt, trendWords } from '../../../models/assessment/sampleTrend.ts';
import { scheduleCaps } from '../../../models/oil/bookInterval.ts';
import { coefficients, labUnit, models, sound, type Lab } from './sampleFixture.ts';

const earlier = { ...sound, sampledOn: '2024-03-01', oilKm: 9900, baseNumberMgKohG: 6 };
const look = { foundOn: '2024-03-01', finding: 'cover_view' as const, value: 'clean' };
const whole: Lab = { samples: [earlier, sound], findings: [look] };
const check = (lab: Lab, km: number | null = null) =>
  checkExtension(labUnit(lab), km, models.condemningLimits, coefficients);
const refused = (lab: Lab, km: number | null = null): string => check(lab, km).refusals.join('; ');

describe('what a longer interval needs', () => {
  test('two sound samples and a clean look of the last year: allowed past the book, up to the chemical limit', () => {
    const { refusals, evidence, bookKm, mostKm } = check(whole);
    expect(refusals).toEqual([]);
    expect(bookKm).toBe(8000);
    expect(mostKm!).toBeGreaterThan(9000);
    expect(evidence).toEqual([
      'samples of 2024-03-01, 2024-04-30',
      'view under the cover clean of 2024-03-01',
      expect.stringMatching(/^trend: base number falls 0\.23 mg KOH\/g per 1000 km in the newest sample/),
    ]);
    expect(refused(whole, 9000)).toBe('');
    expect(refused(whole, mostKm! + 1)).toContain('past the chemical limit');
    expect(refused(whole, 8000)).toContain('no approval is needed');
  });
  test('each piece that is missing is named', () => {
    expect(refused({ ...whole, samples: [sound] })).toContain('1 of 2 samples');
    expect(refused({ ...whole, samples: [sound, { ...earlier, oilKm: 3000 }] })).toContain('1 of 2 samples');
    expect(refused({ ...whole, findings: [] })).toContain('no look under the cover');
    expect(refused({ ...whole, findings: [{ ...look, foundOn: '2023-05-01' }] })).toContain('no look');
    expect(refused({ ...whole, findings: [{ ...look, value: 'moderate' }] })).toContain('not in order');
    expect(
      refused({ ...whole, findings: [{ ...look, finding: 'screen_blocked_share', value: '0.3' }] }),
    ).toContain('not in order');
    expect(refused({ ...whole, samples: [earlier, { ...sound, ironPpm: 60 }] })).toContain('iron');
    expect(refused({ ...whole, samples: [earlier, { ...sound, glycol: true }] })).toContain('stop');
    expect(refused({ ...whole, hoursPerDay: 30 })).toContain('disagree');
  });
  test('a unit without an oil charge is refused in words', () => {
    const view = labUnit({});
    const bare = { ...view, oil: null, timeline: { ...view.timeline, charges: [] } };
    const { refusals } = checkExtension(bare, 12_000, models.condemningLimits, coefficients);
    expect(refusals.join('; ')).toContain('the chemical limit of the oil is not known');
  });
  test('trend by hand: 8 → 6 over 9900 km leaves 4 at 19 800 km; the caution limit is 4', () => {
    const first = { ...sound, sampledOn: '2023-11-22', oilKm: 9900, baseNumberMgKohG: 6, oxidationACm: 3 };
    const lab = { ...whole, samples: [first, { ...earlier, baseNumberMgKohG: 6 }] };
    expect(refused(lab, 19_700)).not.toContain('base number would');
    expect(refused(lab, 19_900)).toContain('base number would come to 4');
  });
  test('a rising trend by hand: 0.3 then 0.6 A/cm per 1000 km, 100 days apart, 15 000 km at 100 km a day', () => {
    // (0.6 + 0.003 · 150) · 15 = 15.8; the caution limit is 15. Steady at 0.6: 9; falling: not credited
    const pair = (first: number, second: number): Lab => ({
      ...whole,
      samples: [
        { ...sound, sampledOn: '2023-11-22', oilKm: 9900, oxidationACm: first * 9.9 },
        { ...earlier, oxidationACm: second * 9.9 },
      ],
    });
    expect(refused(pair(0.3, 0.6), 15_000)).toContain(
      'oxidation would come to 16 A/cm at 15000 km by the trend',
    );
    expect(refused(pair(0.6, 0.6), 15_000)).not.toContain('oxidation would');
    const eased = labUnit(pair(0.6, 0.3));
    const falling = sampleTrend(eased, eased.samples, 'oxidation', coefficients)!;
    expect(trendAt(falling, 10_000, 100)).toBeCloseTo(4.5, 3);
  });
  test('two samples of one charge: their line goes on, 1 at 3000 km and 4 at 6000 km is 16 at 18 000 km', () => {
    const view = labUnit({
      samples: [
        { ...sound, sampledOn: '2024-03-31', oilKm: 3000, oxidationACm: 1 },
        { ...sound, oxidationACm: 4 },
      ],
    });
    const trend = sampleTrend(view, view.samples, 'oxidation', coefficients)!;
    expect(trend).toMatchObject({ samples: 2, growthPerDay: 0 });
    expect(trendAt(trend, 18_000, 180)).toBeCloseTo(16, 9);
    expect(trendWords(trend)).toContain('oxidation rises 0.67 A/cm per 1000 km');
  });
  test('a name is a name', () => {
    expect(['Ines Farrow', 'Wu'].map(namesSomeone)).toEqual([true, true]);
    expect(['yes', 'OK', '-', '12', 'n/a', ''].map(namesSomeone)).toEqual(new Array(6).fill(false));
  });
});

describe('what an approval does', () => {
  const book = {
    intervalKm: 8000,
    intervalMonths: 12,
    severeIntervalKm: null,
    severeIntervalMonths: null,
    hoursLimitH: null,
  };
  test("the book's distance gives way and nothing else, in words", () => {
    const lifted = { ...book, approved: { intervalKm: 12_000, by: 'Ines Farrow', on: '2024-05-01' } };
    const [own, more] = [book, lifted].map((b) => scheduleCaps(b, false, 0.1, 'PFI', coefficients));
    expect([own.bookKm, more.bookKm]).toEqual([8000, 12_000]);
    expect({ ...more, bookKm: 0, bookWords: '', notes: [] }).toEqual({
      ...own,
      bookKm: 0,
      bookWords: '',
      notes: [],
    });
    expect(more.bookWords).toContain('approved by Ines Farrow');
    expect(more.notes.map(({ code }) => code)).toEqual(['book_lifted']);
  });
  test('a standing one lengthens the interval, within every other limit', () => {
    const [own, more] = [labUnit(whole), labUnit({ ...whole, approvals: [{ intervalKm: 9000 }] })];
    expect(own.oil!.advice.governing).toBe('book');
    expect(more.standing.approval?.approvedBy).toBe('Ines Farrow');
    expect(more.oil!.advice.interval.distanceKm).toBeGreaterThan(own.oil!.advice.interval.distanceKm);
    expect(more.oil!.advice.notes.map(({ words }) => words).join()).toContain(
      'Ines Farrow approved 9 000 km',
    );
  });
  test('it ends by withdrawal, by age, by meters that disagree, and at once by a sample that is not in order', () => {
    const standing = (more: Lab) => labUnit({ ...whole, approvals: [{}], ...more }).standing;
    expect(standing({ approvals: [{ withdrawnOn: '2024-05-20', withdrawnBy: 'Bo Lind' }] })).toEqual({
      approval: null,
      blocked: null,
    });
    expect(standing({ approvals: [{ approvedOn: '2023-04-01' }] }).blocked).toContain('older than 365 days');
    expect(standing({ hoursPerDay: 30 }).blocked).toContain('disagree');
    const late = { ...sound, sampledOn: '2024-05-15', oilKm: 7500, ironPpm: 60 };
    const stopped = labUnit({ ...whole, samples: [earlier, sound, late], approvals: [{}] });
    expect(stopped.standing.blocked).toContain('sample of 2024-05-15');
    expect(stopped.book.approved).toBeUndefined();
    expect(stopped.call.reasons.join()).toContain('do not hold');
  });
  test('property: whatever was approved, the interval stays within the chemical limit', () => {
    const { mostKm } = check(whole);
    fc.assert(
      fc.property(fc.integer({ min: 500, max: 200_000 }), (intervalKm) => {
        const { advice } = labUnit({ ...whole, approvals: [{ intervalKm }] }).oil!;
        expect(advice.interval.distanceKm).toBeLessThanOrEqual(mostKm!);
      }),
      { numRuns: 6, seed: 11 },
    );
  });
});
