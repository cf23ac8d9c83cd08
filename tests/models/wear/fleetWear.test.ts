import { describe, expect, it } from 'vitest';
import { fleetStates } from '../../../models/wear/fleetStates.ts';
import { unitStates } from '../../../models/wear/unitStates.ts';
import { coefficients, faultCodes } from './catalog.ts';
import { simulateFleet } from './simulation/fleet.ts';
import { fillOfEngine } from './simulation/records.ts';
import { coverage, logError, spearman } from './simulation/scores.ts';

const soak = process.env.SOAK === '1';
const seeds = Array.from({ length: soak ? 10 : 2 }, (_, i) => i + 1);

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** A world of other laws, levels and noise; findings on a tenth of the services. */
function worked(seed: number) {
  const fleet = simulateFleet(seed, 300, 3, { share: 0.1 });
  const units = fleet.map(({ timeline, history }) => ({
    timeline,
    history,
    context: { coefficients, faultCodes, fillOf: fillOfEngine(history.engine) },
  }));
  const bare = units.map(({ timeline, history, context }) =>
    unitStates(timeline, { ...history, findings: [] }, context),
  );
  return { truths: fleet.map(({ truth }) => truth), bare, found: fleetStates(units) };
}

describe.each(seeds)('states of a simulated fleet, seed %i', (seed) => {
  const { truths, bare, found } = worked(seed);
  const measures = [
    { name: 'sludge', truth: truths.map(({ sludge }) => sludge), pick: 'sludge', floor: 0.5 },
    { name: 'chain', truth: truths.map(({ chain }) => chain), pick: 'chainPercent', floor: 0.03 },
  ] as const;

  it.each(measures)('rank $name, cover it and come closer than history alone', ({ truth, pick, floor }) => {
    const ranges = found.map(({ now }) => now[pick]!);
    const middles = ranges.map(({ value }) => value);
    expect(spearman(middles, truth)).toBeGreaterThanOrEqual(0.8);
    expect(coverage(ranges, truth)).toBeGreaterThanOrEqual(0.7);
    expect(coverage(ranges, truth)).toBeLessThanOrEqual(0.9);
    const alone = bare.map(({ now }) => now[pick]!.value);
    expect(logError(middles, truth, floor)).toBeLessThan(logError(alone, truth, floor));
  });
});

// lives, failures and codes of phasers, with laws of failing and of writing down drawn anew for each seed
describe.each(soak ? seeds : [4])('phasers of a simulated fleet with lives, seed %i', (seed) => {
  it('are ranked and covered, and the level is learned', () => {
    const fleet = simulateFleet(seed, soak ? 300 : 120, 3, { share: 0.1, lives: true });
    const units = fleet.map(({ timeline, history }) => ({
      timeline,
      history,
      context: { coefficients, faultCodes, fillOf: fillOfEngine(history.engine) },
    }));
    const truth = fleet.map((unit) => unit.truth.phaser);
    const ranges = fleetStates(units).map(({ now }) => now.phaserShare!);
    const middles = ranges.map(({ value }) => value);
    expect(spearman(middles, truth)).toBeGreaterThanOrEqual(0.8);
    // the level rests on few failures: on some seeds the ranges hold a little less, or more, than 70 to 90 %
    expect(coverage(ranges, truth)).toBeGreaterThanOrEqual(0.62);
    expect(coverage(ranges, truth)).toBeLessThanOrEqual(0.93);
    const estimateOff = Math.abs(
      mean(middles.map((value, i) => Math.log((value + 0.05) / (truth[i] + 0.05)))),
    );
    expect(estimateOff).toBeLessThan(0.25);
  });
});

describe('a fleet that teaches', () => {
  it('does not let a unit teach itself through its family', () => {
    const [unit] = simulateFleet(3, 40, 1, { share: 0.4 });
    const context = { coefficients, faultCodes, fillOf: fillOfEngine(unit.history.engine) };
    const [alone] = fleetStates([{ ...unit, context }]);
    const single = unitStates(unit.timeline, unit.history, context);
    expect(alone.now.sludge!.value / single.now.sludge!.value).toBeCloseTo(1, 1);
    expect(alone.now.chainPercent!.value / single.now.chainPercent!.value).toBeCloseTo(1, 1);
  });

  it('answers for no units and for units without evidence', () => {
    expect(fleetStates([])).toEqual([]);
    const fleet = simulateFleet(4, 5, 2, { share: 0 });
    const states = fleetStates(
      fleet.map(({ timeline, history }) => ({
        timeline,
        history,
        context: { coefficients, faultCodes, fillOf: fillOfEngine(history.engine) },
      })),
    );
    expect(states.every(({ now }) => now.sludge !== null)).toBe(true);
  });

  it('does not depend on the order of the units', () => {
    const fleet = simulateFleet(5, 30, 2, { share: 0.3 }).map(({ timeline, history }) => ({
      timeline,
      history,
      context: { coefficients, faultCodes, fillOf: fillOfEngine(history.engine) },
    }));
    const forward = fleetStates(fleet);
    const backward = [...fleetStates([...fleet].reverse())].reverse();
    forward.forEach(({ now }, i) => {
      expect(backward[i].now.sludge!.value).toBeCloseTo(now.sludge!.value, 6);
      expect(backward[i].now.chainPercent!.value).toBeCloseTo(now.chainPercent!.value, 6);
    });
  });
});
