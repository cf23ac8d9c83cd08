import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partOfExposure } from '../../../models/oil/condition.ts';
import { unitRates } from '../../../models/oil/exposure.ts';
import type { Coefficients } from '../../../models/schema/coefficient.ts';
import { latent, latentCount } from '../../../models/wear/latents.ts';
import { meanAboveOne, responseOf } from '../../../models/wear/response.ts';
import { runSegments } from '../../../models/wear/responses.ts';
import { segmentsOf } from '../../../models/wear/segments.ts';
import type { FillOf } from '../../../models/wear/segments.ts';
import type { Renewal } from '../../../models/wear/states.ts';
import { emptyTrajectory, trajectoryInto } from '../../../models/wear/trajectory.ts';
import { unitStates } from '../../../models/wear/unitStates.ts';
import { checkCases } from '../oil/checkCases.ts';
import { coefficients, faultCodes } from './catalog.ts';
import { engineRecord, fillOfEngine, historyOf, mixedDuty, timelineOf } from './simulation/records.ts';
import type { ChargePlan } from './simulation/records.ts';

function lastStates(
  plans: readonly ChargePlan[],
  fillOf: FillOf,
  unknowns = new Float64Array(latentCount),
  c: Coefficients = coefficients,
  renewals: readonly Renewal[] = [],
  base = new Float64Array(latentCount),
) {
  const timeline = timelineOf(plans);
  const segments = segmentsOf(timeline, fillOf, [], renewals, null);
  const response = responseOf(segments, timeline.charges, base, c, new Set(), timeline.firstDay);
  const states = emptyTrajectory(segments.length);
  trajectoryInto(response, unknowns, 0.2, states);
  const last = segments.length - 1;
  return { sludge: states.sludge[last], chain: states.chain1[last], phaser: states.phaser1[last] };
}

const fillOf = fillOfEngine(engineRecord({}));

describe('states along the life', () => {
  // the stepped calculation of tests/models/oil, sludge without its own saturation, no oil carried over at drains
  it('come to the values of the stepped calculation at 100 000 km', () => {
    for (const check of checkCases) {
      const { distanceKm } = check.exposure;
      const charges = Math.ceil(100_000 / distanceKm - 1e-9);
      const states = lastStates(
        new Array<ChargePlan>(charges).fill({ exposure: check.exposure }),
        () => check,
        undefined,
        { ...coefficients, 'oil.carry_over_share': 0 },
      );
      const [merit, chain, phaser] = check.at100000Km;
      const raw = -10 * Math.log(1 - states.sludge / 10);
      expect(Math.max(0, 10 - raw), `${check.name}: merit`).toBeCloseTo(merit, 1);
      expect(states.chain / chain, `${check.name}: chain`).toBeCloseTo(1, 1);
      // the stepped one lets sludge grow beyond its scale, so that the phaser of a ruined engine wears faster there
      if (merit > 3) expect(states.phaser / phaser, `${check.name}: phaser`).toBeCloseTo(1, 1);
    }
  });

  it('answer to a far rate as a run at that rate does', () => {
    const plans = new Array<ChargePlan>(12).fill({
      exposure: { ...mixedDuty, distanceKm: 14_000, idleHours: 90 },
    });
    for (const index of [latent.fuel, latent.soot, latent.precursor, latent.oxidation]) {
      const moved = new Float64Array(latentCount);
      moved[index] = 0.5;
      const answered = lastStates(plans, fillOf, moved);
      const run = lastStates(plans, fillOf, moved, coefficients, [], moved);
      expect(answered.chain / run.chain).toBeCloseTo(1, 1);
      expect(answered.phaser / run.phaser).toBeCloseTo(1, 1);
      expect(answered.sludge).toBeCloseTo(run.sludge, 1);
    }
  });

  it('begin anew with the part that was renewed', () => {
    const plans = new Array<ChargePlan>(6).fill({ exposure: mixedDuty });
    const day = timelineOf(plans).charges[3].endDay;
    const renewed = (part: Renewal['part']) =>
      lastStates(plans, fillOf, undefined, coefficients, [
        { day, part, outcome: 'planned', failureChance: 0, bank: null, recordId: null },
      ]);
    const whole = lastStates(plans, fillOf);
    const two = lastStates(plans.slice(0, 2), fillOf);
    // but for the oil carried over at the drain
    expect(renewed('timing_set').chain).toBeCloseTo(two.chain, 2);
    expect(renewed('timing_set').phaser).toBeLessThan(0.5 * whole.phaser);
    // with the covers off a part of the sludge goes out
    expect(renewed('timing_set').sludge).toBeLessThan(whole.sludge);
    expect(renewed('timing_set').sludge).toBeGreaterThan(coefficients['evidence.opened_left'] * whole.sludge);
    expect(renewed('phaser').sludge).toBe(renewed('timing_set').sludge);
    expect(renewed('phaser').chain).toBeCloseTo(whole.chain, 12);
    expect(renewed('phaser').phaser).toBeLessThan(0.5 * whole.phaser);
    expect(renewed('engine').sludge).toBeCloseTo(two.sludge, 1);
    for (const part of ['screen', 'oil_control_solenoid', 'tensioner_guides', 'belt'] as const)
      expect(renewed(part)).toEqual(whole);
  });

  it('never get better by longer intervals', () => {
    const idle = fc.double({ min: 0, max: 300, noNaN: true });
    const km = fc.double({ min: 2000, max: 20_000, noNaN: true });
    const ambient = fc.double({ min: -15, max: 35, noNaN: true });
    fc.assert(
      fc.property(km, idle, ambient, (distanceKm, idleHours, ambientC) => {
        const whole = { ...mixedDuty, distanceKm, idleHours, ambientC };
        const half = { ...whole, distanceKm: distanceKm / 2, idleHours: idleHours / 2, days: 120 };
        const long = lastStates(new Array<ChargePlan>(5).fill({ exposure: whole }), fillOf);
        const short = lastStates(new Array<ChargePlan>(10).fill({ exposure: half }), fillOf);
        expect(short.sludge).toBeLessThanOrEqual(long.sludge + 1e-9);
        expect(short.chain).toBeLessThanOrEqual(long.chain + 1e-9);
        expect(short.phaser).toBeLessThanOrEqual(long.phaser + 1e-9);
      }),
      { numRuns: 40 },
    );
  });

  it('integrate the part above one as a straight line does', () => {
    // worked by hand: from 0.5 to 1.5 half the way lies above 1, on average by 0.25
    expect(meanAboveOne(0.5, 1.5)).toBeCloseTo(0.125, 12);
    expect(meanAboveOne(1.2, 1.6)).toBeCloseTo(0.4, 12);
    expect(meanAboveOne(0, 1)).toBe(0);
  });
});

// life of a phaser: Weibull with shape 2.5 and median at wear 1
const failureChance = (wear: number): number => -Math.expm1(-Math.LN2 * Math.pow(wear, 2.5));

describe('phaser failures by 100 000 km before any evidence', () => {
  const wearOf = (name: string): number => {
    const check = checkCases.find((entry) => entry.name.startsWith(name))!;
    const whole = Math.floor(100_000 / check.exposure.distanceKm);
    const left = partOfExposure(check.exposure, 100_000 / check.exposure.distanceKm - whole);
    const plans = [...new Array<ChargePlan>(whole).fill({ exposure: check.exposure }), { exposure: left }];
    return lastStates(plans, () => check).phaser;
  };

  it('are 3 % at most for well kept duties', () => {
    for (const name of ['A ', 'B ', 'C ', 'G ', 'H ', 'I '])
      expect(failureChance(wearOf(name)), name).toBeLessThanOrEqual(0.03);
  });

  it('are 10 to 30 % in a bad family, one spread of families above the middle', () => {
    const badFamily = Math.exp(coefficients['wear.family_scale_log_sd']);
    for (const name of ['B ', 'C ']) {
      expect(failureChance(badFamily * wearOf(name)), name).toBeGreaterThan(0.1);
      expect(failureChance(badFamily * wearOf(name)), name).toBeLessThan(0.3);
    }
  });

  // the middle of a range of skewed unknowns lies some per cent above the run with every unknown in its middle
  it('are about the same by the states of a unit without evidence, in the middle of their range', () => {
    for (const name of ['A ', 'G ', 'H ', 'I ', 'F ']) {
      const check = checkCases.find((entry) => entry.name.startsWith(name))!;
      const charges = 100_000 / check.exposure.distanceKm;
      const plans = new Array<ChargePlan>(Math.round(charges)).fill({ exposure: check.exposure });
      const share = charges / Math.round(charges);
      const { phaserShare } = unitStates(timelineOf(plans), historyOf(), {
        coefficients,
        faultCodes,
        fillOf: () => check,
      }).now;
      const chance = failureChance(phaserShare!.value * share);
      const well = name !== 'F ';
      expect(chance, name).toBeGreaterThanOrEqual(well ? 0 : 0.1);
      expect(chance, name).toBeLessThanOrEqual(well ? 0.03 : 0.35);
    }
  });

  it('are 10 to 30 % for cold short trips and patrols on long drains', () => {
    for (const name of ['D2', 'F ']) {
      expect(failureChance(wearOf(name)), name).toBeGreaterThan(0.1);
      expect(failureChance(wearOf(name)), name).toBeLessThan(0.3);
    }
  });
});

describe('a run for the oil alone', () => {
  it('gives the same oil as one that lays wear down, and no wear', () => {
    const timeline = timelineOf(new Array<ChargePlan>(4).fill({ exposure: mixedDuty }));
    const segments = segmentsOf(timeline, fillOf, [], [], null);
    const run = (laysWear: boolean) =>
      runSegments(
        segments,
        () => null,
        unitRates,
        coefficients,
        () => true,
        laysWear,
      );
    const [whole, oilOnly] = [run(true), run(false)];
    expect(oilOnly.oil).toEqual(whole.oil);
    expect(oilOnly.usedTo).toEqual(whole.usedTo);
    expect(whole.chain.every((value) => value > 0)).toBe(true);
    expect([...oilOnly.sludge, ...oilOnly.chain, ...oilOnly.phaser].every((value) => value === 0)).toBe(true);
  });
});
