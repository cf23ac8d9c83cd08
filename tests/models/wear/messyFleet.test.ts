import { describe, expect, it } from 'vitest';
import { fillReader, fillsOfUnit } from '../../../models/assessment/fillsOfUnit.ts';
import { poolDuty } from '../../../models/oil/dutyPool.ts';
import { buildTimeline } from '../../../models/oil/usageTimeline.ts';
import { coefficientFile, coefficientValues } from '../../../models/schema/coefficient.ts';
import { isoFromDay } from '../../../models/schema/day.ts';
import { fleetStates } from '../../../models/wear/fleetStates.ts';
import { unitStates } from '../../../models/wear/unitStates.ts';
import { catalogFiles } from '../../../server/catalog.ts';
import { fleetModels } from '../../../server/fleetModels.ts';
import { fleetHistoryOf } from '../../simulation/history.ts';
import { sampleFleets } from '../../simulation/sampleFleet.ts';
import { simulateFleet } from '../../simulation/simulateFleet.ts';
import { stateOn, unitTruth } from '../../simulation/truth.ts';
import { coverage, logError, spearman } from './simulation/scores.ts';

const soak = process.env.SOAK === '1';
const seeds = soak ? Array.from({ length: 10 }, (_, i) => i + 1) : [3];
const laws = ['soft', 'steep', 'gradual'] as const;
const models = fleetModels(coefficientValues(catalogFiles.map((file) => coefficientFile.parse(file))));
const { coefficients, faultCodes } = models;

/**
 * Fleets as shops keep them: bought used, years without a line, gaps, hidden drains, covers glanced at on a tenth of the
 * changes, screens pulled because of a code, worlds of three kinds with rates drawn anew for each seed.
 */
function scoresOf(seed: number) {
  const { rows, truth } = simulateFleet({ ...sampleFleets.mixed, seed, physics: laws[seed % 3] });
  const fleet = fleetHistoryOf(rows, isoFromDay(truth.endDay));
  const pooled = poolDuty(fleet.units, coefficients, fleet.settings, truth.endDay);
  const readFill = fillReader(models.oilCatalog, coefficients);
  const units = fleet.units.map((history) => ({
    history,
    timeline: buildTimeline(history, pooled, coefficients, fleet.settings, truth.endDay),
    context: { fillOf: fillsOfUnit(history, readFill, coefficients), coefficients, faultCodes },
  }));
  const found = fleetStates(units);
  const score = (pick: 'sludge' | 'chainPercent', floor: number) => {
    const here = units.flatMap(({ history, timeline, context }, i) => {
      const range = found[i].now[pick];
      if (range === null || history.unit.disposedOn !== null) return [];
      const real = stateOn(unitTruth(truth, history.unit.unitNumber, truth.endDay), truth.endDay)[pick];
      if (real === null) return [];
      const bare = { ...history, findings: [], codes: [], samples: [] };
      return [{ range, real, alone: unitStates(timeline, bare, context).now[pick]!.value }];
    });
    const real = here.map((unit) => unit.real);
    const middle = here.map(({ range }) => range.value);
    return {
      rank: spearman(middle, real),
      covered: coverage(
        here.map(({ range }) => range),
        real,
      ),
      error: logError(middle, real, floor),
      errorAlone: logError(
        here.map(({ alone }) => alone),
        real,
        floor,
      ),
    };
  };
  return { sludge: score('sludge', 0.5), chain: score('chainPercent', 0.03) };
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

describe('states of fleets as shops keep them', () => {
  const scores = seeds.map(scoresOf);

  it.each(['sludge', 'chain'] as const)('rank %s and come closer than history alone', (state) => {
    const all = scores.map((score) => score[state]);
    // a fleet's own level may be learned badly where few looked: each seed is held loosely, all together tightly
    expect(mean(all.map(({ rank }) => rank))).toBeGreaterThanOrEqual(0.8 - (soak ? 0 : 0.05));
    for (const { rank, error, errorAlone } of all) {
      expect(rank).toBeGreaterThan(0.7);
      expect(error).toBeLessThan(1.05 * errorAlone);
    }
    const gained = mean(all.map(({ error, errorAlone }) => error / errorAlone));
    expect(gained).toBeLessThan(soak ? 0.9 : 1);
  });

  it.each(['sludge', 'chain'] as const)('cover %s with their 80 %% ranges', (state) => {
    const covered = scores.map((score) => score[state].covered);
    for (const share of covered) expect(share).toBeGreaterThan(0.5);
    expect(mean(covered)).toBeGreaterThanOrEqual(soak ? 0.7 : 0.65);
    expect(mean(covered)).toBeLessThanOrEqual(0.9);
  });
});
