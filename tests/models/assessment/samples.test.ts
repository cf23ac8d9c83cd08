import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fleetAlarms, type SampledUnit } from '../../../models/assessment/alarmPopulations.ts';
import { fleetSamplesOf, unitSampleLines } from '../../../models/assessment/fleetSamples.ts';
import { levelBy } from '../../../models/assessment/judgeSample.ts';
import { chargeOfSample } from '../../../models/assessment/sampleCharge.ts';
import { unitStoryOf } from '../../../models/assessment/unitStory.ts';
import { dayFromIso } from '../../../models/schema/day.ts';
import { sample as sampleSchema, type Sample } from '../../../models/schema/sample.ts';
import { fleetSamples } from '../../../models/schema/sampleView.ts';
import { unitStory } from '../../../models/schema/story.ts';
import { asOf, coefficients, labFleet, labUnit, models, sound } from './sampleFixture.ts';

const valueOf = (view: ReturnType<typeof labUnit>, measurand: string) =>
  view.samples[0].values.find((value) => value.measurand === measurand)!;
const levelOf = (more: Partial<Sample>, measurand: string) =>
  valueOf(labUnit({ samples: [{ ...sound, ...more }] }), measurand).level;

describe('which charge a sample is of', () => {
  const { timeline } = labUnit({});
  const of = (values: Partial<Sample>) =>
    chargeOfSample(timeline, sampleSchema.parse({ unitNumber: 'L1', ...values }), 150);
  test('one of the day of the drain is of the oil that came out, a fresh one of the oil that went in', () => {
    const drained = of({ sampledOn: '2024-03-01', oilKm: 9900 });
    const fresh = of({ sampledOn: '2024-03-01', oilKm: 20 });
    expect(drained?.charge.running).toBe(false);
    expect(fresh?.charge.running).toBe(true);
    expect(fresh!.index).toBe(drained!.index + 1);
  });
  test("the records' distance stands in where the laboratory has none; before the records there is no charge", () => {
    expect(of({ sampledOn: '2024-04-30' })?.oilKm).toBeCloseTo(6000, -2);
    expect(of({ sampledOn: '2019-01-01' })).toBeNull();
  });
});

describe('verdicts by hand (5W-30, API SP: fresh base number 8, 10.2 mm²/s)', () => {
  test('half of fresh base number is a caution, 35 % condemns; D4739 is shifted by 1', () => {
    expect(levelOf({ baseNumberMgKohG: 4.2 }, 'baseNumber')).toBe('normal');
    expect(levelOf({ baseNumberMgKohG: 3.9, acidNumberMgKohG: null }, 'baseNumber')).toBe('caution');
    expect(levelOf({ baseNumberMgKohG: 2.7, acidNumberMgKohG: null }, 'baseNumber')).toBe('condemn');
    expect(levelOf({ baseNumberMgKohG: 3.3, baseNumberMethod: 'D4739' }, 'baseNumber')).toBe('normal');
  });
  test('viscosity is held against the grade on record too (SAE J300: 5W-30 from 9.3)', () => {
    const of = (kv100Mm2S: number) => valueOf(labUnit({ samples: [{ ...sound, kv100Mm2S }] }), 'kv100');
    // 91 % of fresh is within its limits, but below the grade
    expect(of(9.25)).toMatchObject({ level: 'caution' });
    expect(of(9.25).absolute!.words).toContain('9.3 mm²/s is below 5W-30');
    expect(of(9.9).absolute!.words).toContain('is within 5W-30, 3 % thinner than fresh');
    expect(of(8.1)).toMatchObject({ level: 'condemn' });
  });
  test('a base number by another method, or above the new oil, is left out with the reason', () => {
    for (const more of [{ baseNumberMethod: 'ASTM D974' }, { baseNumberMgKohG: 12 }]) {
      const [judged] = labUnit({ samples: [{ ...sound, ...more }] }).samples;
      expect(judged.values.some(({ measurand }) => measurand === 'baseNumber')).toBe(false);
      expect(judged.notes).toHaveLength(1);
      expect(judged.notes[0]).toContain('not judged');
    }
    // 8 + 2·√(0.5² + 1.2²) = 10.6: what the error explains is judged
    expect(labUnit({ samples: [{ ...sound, baseNumberMgKohG: 10.5 }] }).samples[0].notes).toEqual([]);
  });
  test('a sample without a charge on record is shown with the reason and does nothing', () => {
    const view = labUnit({ samples: [{ ...sound, sampledOn: '2021-06-01', baseNumberMgKohG: 1 }] });
    expect(view.samples[0]).toMatchObject({ sampled: null, values: [], level: 'normal' });
    expect(view.samples[0].notes[0]).toContain('no oil charge on record');
    expect(view.call.reasons.join()).not.toContain('sample of');
  });
});

describe('what a sample of the running charge does at once', () => {
  const plain = labUnit({ samples: [sound] });
  const today = dayFromIso(asOf);
  test('a sound one does nothing', () => {
    expect(plain.call.reasons.join()).not.toContain('sample of');
    expect(plain.samples[0].level).toBe('normal');
  });
  test('condemned oil is due now, and the interval itself stays as it is', () => {
    const young = { asOf: '2024-05-02', samples: [{ ...sound, ironPpm: 120 }] };
    const before = labUnit({ ...young, samples: [sound] });
    const view = labUnit(young);
    expect(before.oil!.due!.dueDay!).toBeGreaterThan(dayFromIso('2024-05-02'));
    expect(view.oil!.due!.dueDay).toBe(dayFromIso('2024-05-02'));
    expect(view.oil!.assessment.dueOn).toBe('2024-05-02');
    expect(view.oil!.due!.chancePastNow).toBe(1);
    expect(view.call.call).toBe('book');
    expect(view.call.reasons.join()).toContain(
      'condemns the oil (iron 120 ppm): change it and find the source',
    );
    expect(view.oil!.advice.interval.distanceKm).toBeGreaterThan(5000);
  });
  test('fuel and the viscosity lost to it ask for their source and never bring the date near', () => {
    const view = labUnit({ samples: [{ ...sound, fuelPercent: 8, kv100Mm2S: 7.6 }] });
    expect(valueOf(view, 'fuelPercent').level).toBe('condemn');
    expect(valueOf(view, 'kv100').level).toBe('condemn');
    expect(view.oil!.due!.governing).not.toBe('oil_sample');
    expect(view.oil!.advice.interval.distanceKm).toBeGreaterThan(2000);
    expect(view.call.reasons.join()).toContain('find the source or change the duty');
    const thick = labUnit({ samples: [{ ...sound, kv100Mm2S: 14 }] });
    expect(thick.oil!.due!.governing).toBe('oil_sample');
  });
  test('glycol is direct evidence for a stop; sodium with potassium asks for the test', () => {
    const view = labUnit({ samples: [{ ...sound, glycol: true }] });
    expect(view.call.call).toBe('stop');
    expect(view.call.reasons[0]).toContain('coolant');
    const salts = labUnit({ samples: [{ ...sound, sodiumPpm: 90, potassiumPpm: 30 }] });
    expect(salts.call.call).not.toBe('stop');
    expect(salts.call.reasons.join()).toContain('test for glycol');
  });
  test('the next drain ends a condemnation; fuel without a source found is still said', () => {
    const drained = { ...sound, sampledOn: '2024-03-01', oilKm: 9900 };
    const iron = labUnit({ samples: [{ ...drained, ironPpm: 120 }] });
    expect(iron.oil!.due!.governing).not.toBe('oil_sample');
    const fuel = labUnit({ samples: [{ ...drained, fuelPercent: 4 }] });
    expect(fuel.call.reasons.join()).toContain('of the oil drained since: Fuel 4 %');
    expect(fuel.oil!.due!.governing).not.toBe('oil_sample');
  });
  test('property: no sample brings the due date later than now when it condemns, nor changes the book', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 100, max: 900, noNaN: true }),
        fc.constantFrom('ironPpm', 'copperPpm', 'leadPpm'),
        (ppm, metal) => {
          const view = labUnit({ samples: [{ ...sound, [metal]: ppm }] });
          expect(view.oil!.due!.dueDay!).toBeLessThanOrEqual(today);
          expect(view.ownBook).toEqual(plain.ownBook);
        },
      ),
      { numRuns: 6, seed: 7 },
    );
  });
});

/** A unit of many samples at 5000 km with iron as given. */
function withIron(irons: readonly number[]): SampledUnit {
  const view = labUnit({});
  const samples = irons.map((ironPpm, index) => ({
    ...sampleSchema.parse({
      unitNumber: 'L1',
      sampledOn: '2024-04-20',
      oilKm: 5000,
      ironPpm,
      fuelPercent: 4.9,
    }),
    source: { id: index + 1, kind: 'samples' as const, batch: 'b', file: 'samples.csv', line: index + 2 },
  }));
  return { history: { ...view.history, samples }, timeline: view.timeline, fillOf: view.fillOf };
}

describe("the fleet's own alarm limits (ASTM D7720, nearest rank)", () => {
  const limit = (irons: readonly number[], measurand = 'ironPpm') =>
    fleetAlarms([withIron(irons)], models.condemningLimits, coefficients).populations[0].limits.find(
      (entry) => entry.measurand === measurand,
    );
  const ladder = Array.from({ length: 100 }, (_, index) => index + 1);
  test('worked by hand: 1…100 ppm at 5000 km are 0.2…20 per 1000 km; 90, 95, 98 % are 18, 19, 19.6', () => {
    const iron = limit(ladder)!;
    expect([iron.caution, iron.alert, iron.condemn]).toEqual(
      [18, 19, 19.6].map((value) => expect.closeTo(value, 9)),
    );
    expect([iron.samples, iron.provisional, iron.unit]).toEqual([100, false, 'ppm per 1000 km']);
    expect([levelBy(18, iron), levelBy(18.5, iron), levelBy(19.5, iron), levelBy(25, iron)]).toEqual([
      'normal',
      'caution',
      'alert',
      'condemn',
    ]);
  });
  test('29 samples are too few, 30 start', () => {
    expect(limit(ladder.slice(0, 29))).toBeUndefined();
    expect(limit(ladder.slice(0, 30))?.provisional).toBe(true);
  });
  test('never looser than the absolute limit: fuel at 4.9 % everywhere still cautions from 2.5', () => {
    expect(limit(ladder, 'fuelPercent')).toMatchObject({ caution: 2.5, alert: 4.9, condemn: 4.9 });
  });
  test('property: order of samples does not matter, and levels stand in order', () => {
    const unit = withIron([]);
    const of = (irons: readonly number[]) =>
      fleetAlarms(
        [{ ...unit, history: { ...unit.history, samples: withIron(irons).history.samples } }],
        models.condemningLimits,
        coefficients,
      );
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 300, noNaN: true }), { minLength: 30, maxLength: 60 }),
        (irons) => {
          const [a, b] = [of(irons), of([...irons].reverse())];
          expect(b).toEqual(a);
          for (const { caution, alert, condemn } of a.populations[0].limits) {
            expect(caution).toBeLessThanOrEqual(alert);
            expect(alert).toBeLessThanOrEqual(condemn);
          }
        },
      ),
      { numRuns: 8, seed: 3 },
    );
  });
});

/** Places of numbers that are none. */
function notFinite(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path];
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([name, entry]) => notFinite(entry, `${path}.${name}`));
}

describe('what the pages get', () => {
  test('the unit story holds its schema; expected readings lie in their bands; nothing is NaN', () => {
    const fleet = labFleet({
      samples: [sound, { ...sound, sampledOn: '2024-03-01', oilKm: 9900, labNumber: 'K7' }],
    });
    const view = fleet.views.get('L1')!;
    const story = unitStory.parse(unitStoryOf(view, fleet.assessment.units[0], fleet.learned.alarms, models));
    expect(story.samples.map(({ on, running }) => [on, running])).toEqual([
      ['2024-04-30', true],
      ['2024-03-01', false],
    ]);
    const base = story.samples[0].values.find(({ measurand }) => measurand === 'baseNumber')!;
    expect(base.expected!.low).toBeLessThan(base.expected!.value);
    expect(base.expected!.high).toBeLessThan(9);
    // the longer the oil has run, the less base number is expected
    const older = story.samples[1].values.find(({ measurand }) => measurand === 'baseNumber')!;
    expect(older.expected!.value).toBeLessThan(base.expected!.value);
    expect(story.sampleCourses.map(({ measurand }) => measurand)).toEqual([
      'baseNumber',
      'fuelPercent',
      'sootPercent',
      'oxidation',
      'kv100',
    ]);
    for (const { band } of story.sampleCourses)
      for (const { low, value, high } of band) expect(low <= value && value <= high).toBe(true);
    expect(story.rightOil.map(({ topic, verdict }) => [topic, verdict])).toEqual([
      ['grade', 'right'],
      ['category', 'right'],
      ['season', 'unknown'],
    ]);
    expect(notFinite(story)).toEqual([]);
  });
  test("the fleet's document holds its schema; base number is shown as a share of fresh", () => {
    const fleet = labFleet({ samples: [sound] });
    const document = fleetSamples.parse(
      fleetSamplesOf(
        [...fleet.views.values()].flatMap((view) => unitSampleLines(view, coefficients)),
        {
          asOf: fleet.assessment.asOf,
          units: [...fleet.views.values()].map(({ history }) => history),
          alarms: fleet.learned.alarms,
        },
        models.condemningLimits,
        coefficients,
      ),
    );
    const value = document.samples[0].values.find(({ measurand }) => measurand === 'baseNumber');
    expect(value?.value).toBeCloseTo(82.5, 9); // 6.6 of 8
    expect(document.samples[0].values.find(({ measurand }) => measurand === 'ironPpm')?.value).toBeCloseTo(
      2,
      9,
    );
    expect(document.populations).toMatchObject([{ engineFamily: 'Garth 25', samples: 1, limits: [] }]);
  });
});
