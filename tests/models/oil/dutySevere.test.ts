import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { equivalentKm } from '../../../models/oil/dutyEquivalent.ts';
import { tripFromShortShare } from '../../../models/oil/dutyOwn.ts';
import { dutyRules } from '../../../models/oil/dutyRules.ts';
import { severeClass, shortTripDistanceShare, type SevereView } from '../../../models/oil/dutySevere.ts';
import { dutyClasses, dutyClassOf } from '../../../models/oil/dutyWords.ts';
import { coefficientFile } from '../../../models/schema/coefficient.ts';
import { catalogJson } from './catalog.ts';
import { dutyCoefficients } from './dutyHistories.ts';

const rules = dutyRules(dutyCoefficients);
const kmPerMile = 1.609344;
const mild: SevereView = {
  tripKm: 40,
  speedKmh: 60,
  idleShare: 0.1,
  towingShare: 0.02,
  dustShare: 0.02,
  ambientByMonthC: rules.ambientByMonthC,
};

describe('equivalent distance', () => {
  // fleet trade press: 33 and 30 miles an idle hour
  it('gives the published anchors', () => {
    const miles = (distance: number, hours: number, perHour: number) =>
      equivalentKm({ distanceKm: distance * kmPerMile, idleHours: hours, ptoHours: 0 }, perHour * kmPerMile) /
      kmPerMile;
    expect(miles(2000, 100, 33)).toBeCloseTo(5300, 9);
    expect(miles(0, 2291, 30)).toBeCloseTo(68_730, 9);
  });
});

describe('severe service', () => {
  it('is not met by a mild duty', () => {
    expect(severeClass(mild, rules)).toEqual({ severe: false, criteria: [], factor: 1 });
  });

  it.each([
    ['short_trip', { tripKm: 5 }, 'short trips'],
    ['idle', { idleShare: 0.41 }, 'idling 41 % of engine hours (limit 25 %)'],
    ['stop_go', { speedKmh: 22.4 }, 'stop-and-go: mean driving speed 22 km/h (limit 30 km/h)'],
    ['towing', { towingShare: 0.3 }, 'towing 30 % of distance (limit 15 %)'],
    ['dust', { dustShare: 0.2 }, 'dust on 20 % of distance (limit 15 %)'],
    ['heat', { ambientByMonthC: Array<number>(12).fill(31) }, 'above 32 °C'],
    ['cold', { ambientByMonthC: Array<number>(12).fill(-14) }, 'below -12 °C'],
  ] as const)('is met by %s alone, with its number', (name, over, words) => {
    const found = severeClass({ ...mild, ...over }, rules);
    expect(found.criteria.map((one) => one.name)).toEqual([name]);
    expect(found.criteria[0].words).toContain(words);
    expect(found.factor).toBe(found.criteria[0].factor);
  });

  it('does not multiply factors freely and keeps the floor', () => {
    const all = severeClass(
      {
        tripKm: 3,
        speedKmh: 15,
        idleShare: 0.6,
        towingShare: 0.5,
        dustShare: 0.5,
        ambientByMonthC: Array<number>(12).fill(-20),
      },
      rules,
    );
    expect(all.criteria).toHaveLength(6);
    // by hand: worst 0.45, five further conditions at 0.9 each
    expect(all.factor).toBeCloseTo(Math.max(0.25, 0.45 * 0.9 ** 5), 12);
  });

  it('colder months make the same trips shorter: 15 km counts instead of 8 km', () => {
    const trips = { ...mild, tripKm: 14 };
    const warm = severeClass({ ...trips, ambientByMonthC: Array<number>(12).fill(20) }, rules);
    const cold = severeClass({ ...trips, ambientByMonthC: Array<number>(12).fill(-6) }, rules);
    expect(warm.severe).toBe(false);
    expect(cold.criteria.map((one) => one.name)).toContain('short_trip');
  });

  it('shares of short trips by hand', () => {
    // x = 8/5: 1 − e^−1.6 · 2.6 = 0.47507
    expect(shortTripDistanceShare(5, 8)).toBeCloseTo(0.475069, 6);
    expect(tripFromShortShare(0.5, 8)).toBeCloseTo(8 / Math.LN2, 9);
  });

  it('worse conditions never make the factor larger', () => {
    const view = fc.record({
      tripKm: fc.double({ min: 1, max: 100, noNaN: true }),
      speedKmh: fc.double({ min: 10, max: 100, noNaN: true }),
      idleShare: fc.double({ min: 0, max: 0.9, noNaN: true }),
      towingShare: fc.double({ min: 0, max: 1, noNaN: true }),
    });
    fc.assert(
      fc.property(view, fc.double({ min: 1, max: 3, noNaN: true }), (base, worse) => {
        const one = severeClass({ ...mild, ...base }, rules);
        const other = severeClass(
          {
            ...mild,
            tripKm: base.tripKm / worse,
            speedKmh: base.speedKmh / worse,
            idleShare: Math.min(0.95, base.idleShare * worse),
            towingShare: Math.min(1, base.towingShare * worse),
          },
          rules,
        );
        expect(other.factor).toBeLessThanOrEqual(one.factor);
      }),
      { seed: 7 },
    );
  });
});

describe('duty words', () => {
  it.each([
    ['patrol', ['Patrol', 'police K9', 'Streifendienst', 'patrouille', 'Policía local', 'sheriff-pursuit']],
    [
      'parcel',
      ['parcel', 'last-mile delivery', 'Paketzustellung', 'livraison', 'reparto urbano', 'Courier van'],
    ],
    ['highway', ['highway', 'long_distance', 'Long-Haul', 'Autobahn', 'autoroute', 'interstate']],
    ['taxi', ['taxi', 'Airport shuttle', 'ride-hail', 'CAB']],
    ['towing', ['tow', 'Towing', 'trailer', 'snow plow', 'Winterdienst', 'Anhängerbetrieb', 'remolque']],
    ['short_trip', ['short_trip', 'short trips winter', 'Kurzstrecke', 'trayectos cortos']],
    ['works', ['Municipal', 'public works', 'Bauhof', 'chantier', 'Obras', 'utility']],
    ['mixed', ['mixed', 'Gemischt', 'pool']],
  ] as const)('%s', (expected, texts) => {
    for (const text of texts) expect([text, dutyClassOf(text)]).toEqual([text, expected]);
  });
  it('says so when no word is known', () => {
    for (const text of [null, '', 'downtown', 'XK-9', 'cabin crew', 'minestrone'])
      expect(dutyClassOf(text)).toBeNull();
  });
});

describe('duty catalog', () => {
  const files = ['duty-coefficients.json', 'duty-priors.json'].map((name) =>
    coefficientFile.parse(catalogJson(name)),
  );
  const all = files.flatMap((file) => file.coefficients);
  it('has every value inside its range, with a source, under its own name', () => {
    for (const one of all) {
      expect(one.id.startsWith('duty.')).toBe(true);
      expect(one.source.length).toBeGreaterThan(5);
      expect(one.low ?? one.value).toBeLessThanOrEqual(one.value);
      expect(one.high ?? one.value).toBeGreaterThanOrEqual(one.value);
    }
    expect(new Set(all.map((one) => one.id)).size).toBe(all.length);
  });
  it('has starting values for every duty and is used whole', () => {
    for (const dutyClass of dutyClasses) expect(rules.priors[dutyClass].speedKmh).toBeGreaterThan(10);
    const used = JSON.stringify(rules);
    expect(used).not.toContain('null');
    const without = { ...dutyCoefficients };
    delete (without as Record<string, number>)['duty.severe_share'];
    expect(() => dutyRules(without)).toThrow('duty.severe_share');
  });
});
