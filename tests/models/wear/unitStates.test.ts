import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { UnitHistory } from '../../../models/schema/history.ts';
import type { UnitStates } from '../../../models/wear/states.ts';
import { unitStates } from '../../../models/wear/unitStates.ts';
import { coefficients, faultCodes } from './catalog.ts';
import {
  codeRecord,
  engineRecord,
  fillOfEngine,
  findingRecord,
  historyOf,
  mixedDuty,
  sampleRecord,
  serviceRecord,
  timelineOf,
} from './simulation/records.ts';
import type { ChargePlan } from './simulation/records.ts';

const context = { coefficients, faultCodes, fillOf: fillOfEngine(engineRecord({})) };
const charges = new Array<ChargePlan>(10).fill({ exposure: mixedDuty });
const timeline = timelineOf(charges);
const drain = (index: number) => timeline.charges[index].endDay;
const width = (range: { low: number; high: number } | null) =>
  Math.log((range!.high + 0.01) / (range!.low + 0.01));
const statesWith = (parts: Partial<UnitHistory>): UnitStates =>
  unitStates(timeline, historyOf(parts), context);

function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  if (Array.isArray(value)) return value.flatMap(numbersIn);
  return value !== null && typeof value === 'object' ? Object.values(value).flatMap(numbersIn) : [];
}

describe('states of a unit', () => {
  it('are ranges around the course of its history, growing with it', () => {
    const { points, now, chargeEnds, oilNow } = statesWith({});
    expect(points.length).toBe(10);
    expect(points[9]).toEqual(now);
    for (const { sludge, chainPercent, phaserShare } of points)
      for (const range of [sludge, chainPercent, phaserShare]) {
        expect(range!.low).toBeLessThan(range!.value);
        expect(range!.value).toBeLessThan(range!.high);
      }
    for (let i = 1; i < points.length; i++)
      expect(points[i].chainPercent!.value).toBeGreaterThan(points[i - 1].chainPercent!.value);
    expect(chargeEnds.length).toBe(10);
    expect(chargeEnds[9]).toEqual(oilNow);
  });

  it('move toward what was found and get narrower', () => {
    const plain = statesWith({}).now;
    const findings = [
      findingRecord(drain(8), 'cover_view', 'heavy'),
      findingRecord(drain(8), 'phase_deviation_crank_deg', '4.5'),
    ];
    const { now, evidence } = statesWith({ findings });
    expect(now.sludge!.value).toBeGreaterThan(plain.sludge!.value);
    expect(now.chainPercent!.value).toBeGreaterThan(plain.chainPercent!.value);
    expect(width(now.sludge)).toBeLessThan(width(plain.sludge));
    expect(width(now.chainPercent)).toBeLessThan(width(plain.chainPercent));
    expect(evidence.map(({ words }) => words)).toEqual([
      'phase 4.5° of the crank off nominal',
      'view under the cover: heavy',
    ]);
  });

  it('follow a measured elongation closely', () => {
    const findings = [findingRecord(drain(8), 'chain_elongation_percent', '0.42')];
    const { chainPercent } = statesWith({ findings }).now;
    expect(chainPercent!.value).toBeGreaterThan(0.38);
    expect(chainPercent!.value).toBeLessThan(0.54);
  });

  it('say so where a phase was read and the drive is not described, and believe it less', () => {
    const findings = [findingRecord(drain(8), 'phase_deviation_crank_deg', '4.5')];
    const bare = engineRecord({ tightStrandMm: null, camSprocketTeeth: null, chainPitchMm: null });
    const blind = statesWith({ findings, engine: bare });
    const known = statesWith({ findings });
    expect(blind.evidence[0].words).toContain('degrees per per cent assumed');
    expect(known.evidence[0].words).not.toContain('assumed');
    expect(width(blind.now.chainPercent)).toBeGreaterThan(width(known.now.chainPercent));
  });

  it('take an early phase reading as the baseline of a late one', () => {
    const early = (degrees: string) =>
      statesWith({
        findings: [
          findingRecord(drain(0), 'phase_deviation_crank_deg', degrees),
          findingRecord(drain(8), 'phase_deviation_crank_deg', '4'),
        ],
      }).now.chainPercent!.value;
    expect(early('-1.5')).toBeGreaterThan(early('0.3'));
    expect(early('0.3')).toBeGreaterThan(early('2'));
  });

  it('do not depend on the order of the records', () => {
    const findings = [
      findingRecord(drain(2), 'cover_view', 'light'),
      findingRecord(drain(5), 'screen_blocked_share', '0.3'),
      findingRecord(drain(5), 'start_rattle_s', '1.2', { soakH: 9 }),
      findingRecord(drain(8), 'phase_deviation_crank_deg', '3.1', { bank: '2' }),
      findingRecord(drain(8), 'hot_idle_pressure_kpa', '120', { engineRpm: 720, oilTemperatureC: 98 }),
    ];
    const codes = [codeRecord(drain(6), 'P0011'), codeRecord(drain(7), 'P0017')];
    const samples = [
      sampleRecord(drain(3), { fuelPercent: 2.1, baseNumberMgKohG: 4.4 }),
      sampleRecord(drain(6), { sootPercent: 0.9 }),
    ];
    const services = [serviceRecord(drain(4), ['phaser'], { outcome: 'failed' })];
    const expected = JSON.stringify(statesWith({ findings, codes, samples, services }));
    const order = fc.shuffledSubarray([0, 1, 2, 3, 4], { minLength: 5 });
    fc.assert(
      fc.property(order, fc.boolean(), (places, turned) => {
        const again = statesWith({
          findings: places.map((place) => findings[place]),
          codes: turned ? [...codes].reverse() : codes,
          samples: turned ? [...samples].reverse() : samples,
          services,
        });
        expect(JSON.stringify(again)).toBe(expected);
      }),
      { numRuns: 12 },
    );
    expect(numbersIn(JSON.parse(expected)).every(Number.isFinite)).toBe(true);
  });

  it('learn the rates of the oil from samples', () => {
    const fuel = [2, 4, 6].map((place) => sampleRecord(drain(place), { fuelPercent: 3 }));
    const { rates, ratesLogSd, oilNow } = statesWith({ samples: fuel });
    expect(rates.fuel).toBeGreaterThan(1.5);
    expect(ratesLogSd.fuel).toBeLessThan(0.3);
    expect(oilNow!.fuelPercent).toBeGreaterThan(1);
  });

  it('believe the laboratory on the distance of the oil where it differs from the timeline', () => {
    const sample = { baseNumberMgKohG: 7 };
    const whole = statesWith({ samples: [sampleRecord(drain(4), { ...sample, oilKm: 10_000 })] });
    const fresh = statesWith({ samples: [sampleRecord(drain(4), { ...sample, oilKm: 1500 })] });
    expect(whole.rates.baseNumberLife).toBeGreaterThan(1.3);
    expect(fresh.rates.baseNumberLife).toBeCloseTo(1, 0);
  });

  it('count a base number by the used-oil method against its offset', () => {
    const by = (baseNumberMethod: string | null) =>
      statesWith({ samples: [sampleRecord(drain(4), { baseNumberMgKohG: 3.2, baseNumberMethod })] }).rates
        .baseNumberLife;
    expect(by('ASTM D4739')).toBeGreaterThan(by('D2896'));
  });
});

describe('states that do not apply or are not known', () => {
  it('are null with the reason', () => {
    const belt = statesWith({ engine: engineRecord({ timingDrive: 'wet_belt', phasers: 0 }) });
    expect(belt.now.chainPercent).toBeNull();
    expect(belt.now.phaserShare).toBeNull();
    expect(belt.now.sludge).not.toBeNull();
    expect(belt.notKnown.chain).toContain('not applicable');
    expect(belt.notKnown.phaser).toBe('not applicable: engine without phasers');
    const unknown = statesWith({ engine: null });
    expect(unknown.notKnown.chain).toContain('not known');
    expect(unknown.now.sludge).not.toBeNull();
    const gas = statesWith({ engine: engineRecord({ fuelSystem: 'gas' }) });
    expect(gas.now).toEqual({ day: timeline.asOfDay, sludge: null, chainPercent: null, phaserShare: null });
    expect(gas.notKnown.sludge).toContain('gaseous fuel');
    const empty = unitStates({ ...timeline, charges: [] }, historyOf(), context);
    expect(empty.notKnown.sludge).toContain('no records');
    expect(empty.causes).toEqual([]);
  });

  it('need the engine hours of a hybrid', () => {
    const hybrid = historyOf({ unitFields: { powertrain: 'hybrid' } });
    expect(unitStates(timeline, hybrid, context).now.sludge).not.toBeNull();
    const inferred = { ...timeline, duty: { ...timeline.duty, inferred: ['engineHours'] } };
    expect(unitStates(inferred, hybrid, context).notKnown.sludge).toContain('hybrid');
  });
});

describe('gaps in the history', () => {
  it('make ranges wider and the estimate no better', () => {
    const plans = charges.slice(0, 6);
    const known = unitStates(timelineOf(plans), historyOf(), context).now;
    const used = unitStates(
      timelineOf(plans, 18000, 60_000),
      historyOf({ unitFields: { acquiredOdometerKm: 60_000 } }),
      context,
    ).now;
    expect(used.chainPercent!.value).toBeGreaterThan(known.chainPercent!.value);
    expect(used.sludge!.value).toBeGreaterThan(known.sludge!.value);
    expect(width(used.chainPercent)).toBeGreaterThan(width(known.chainPercent));
  });

  it('let drains that may have been done elsewhere lie in between', () => {
    const long = { ...mixedDuty, distanceKm: 30_000, idleHours: 120, days: 720 };
    const with_ = (hiddenDrainChance: number) => {
      const plan = { exposure: long, hiddenDrainChance, hiddenDrains: hiddenDrainChance > 0 ? 2 : 0 };
      return unitStates(timelineOf([plan, plan, plan]), historyOf(), context).now;
    };
    expect(with_(0.5).sludge!.value).toBeLessThan(with_(0).sludge!.value);
    expect(with_(0.5).sludge!.value).toBeGreaterThan(with_(0.98).sludge!.value);
    expect(width(with_(0.5).sludge)).toBeGreaterThan(width(with_(0).sludge));
  });

  it('use wider rates where the exposure was inferred', () => {
    const spread = {
      distance: 0.1,
      drivingHours: 0.2,
      idleHours: 0.6,
      tripKm: 0.4,
      starts: 0.4,
      ambientC: 3,
    };
    const plans = charges.map((plan) => ({ ...plan, spread }));
    const loose = unitStates(timelineOf(plans), historyOf(), context).now;
    const sharp = unitStates(timeline, historyOf(), context).now;
    expect(width(loose.chainPercent)).toBeGreaterThan(width(sharp.chainPercent));
  });
});

describe('banks and cleaning', () => {
  it('show the worse bank', () => {
    const findings = [
      findingRecord(drain(7), 'chain_elongation_percent', '0.2', { bank: '1' }),
      findingRecord(drain(7), 'chain_elongation_percent', '0.38', { bank: '2' }),
    ];
    const { now } = statesWith({ findings });
    const one = statesWith({ findings: findings.slice(0, 1) }).now;
    expect(now.chainPercent!.value).toBeGreaterThan(one.chainPercent!.value + 0.05);
  });

  it('keep the other bank when one phaser is renewed', () => {
    const renewed = (bank: string | null) =>
      statesWith({ services: [serviceRecord(drain(7), ['phaser'], { outcome: 'planned', bank })] }).now
        .phaserShare!.value;
    expect(renewed('2')).toBeGreaterThan(2 * renewed(null));
  });

  it('read a clear screen after cleaning as no sign of a clean engine', () => {
    const screen = [findingRecord(drain(8), 'screen_blocked_share', '0.05')];
    const covers = [findingRecord(drain(5), 'cover_view', 'heavy')];
    const cleaned = statesWith({
      findings: [...covers, ...screen],
      services: [serviceRecord(drain(7), ['screen_cleaned'])],
    }).now.sludge!;
    const not = statesWith({ findings: [...covers, ...screen] }).now.sludge!;
    expect(cleaned.value).toBeGreaterThan(not.value);
  });
});
