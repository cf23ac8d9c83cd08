import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rankLooks, type LookInputs } from '../../../models/decisions/looks.ts';
import { valueOfLooking } from '../../../models/decisions/valueOfLooking.ts';
import { coefficients, decisionCatalog } from './catalog.ts';
import { reference } from './reference.ts';

describe('value of looking', () => {
  it('worked by hand: a fair coin, a sure look', () => {
    const worth = valueOfLooking({
      prior: [0.5, 0.5],
      costCents: [
        [0, 100],
        [40, 40],
      ],
      likelihood: [
        [1, 0],
        [0, 1],
      ],
      lookCents: 5,
    });
    expect(worth).toMatchObject({
      actionNow: 1,
      costNowCents: 40,
      perfectCents: 20,
      lookWorthCents: 20,
      netCents: 15,
    });
    expect(worth.results.map((result) => result.action)).toEqual([0, 1]);
  });
  it('matches the drilling exercise', () => {
    const { evpi, evsi, withSurvey } = reference.published.drilling;
    const worth = valueOfLooking({
      prior: [0.25, 0.75],
      costCents: [
        [-700, 100],
        [-90, -90],
      ],
      likelihood: [
        [0.6, 0.2],
        [0.4, 0.8],
      ],
      lookCents: 30,
    });
    expect(worth.perfectCents).toBeCloseTo(evpi, 10);
    expect(worth.lookWorthCents).toBeCloseTo(evsi, 10);
    expect(-worth.costNowCents + worth.netCents).toBeCloseTo(withSurvey, 10);
    expect(worth.results[0]!.posterior[0]).toBeCloseTo(0.5, 12);
    expect(worth.results[1]!.posterior[0]).toBeCloseTo(1 / 7, 12);
  });
  it('matches the test of a wet site (Samuelson & Marks)', () => {
    const worth = valueOfLooking({
      prior: [0.4, 0.6],
      costCents: [
        [-600, 200],
        [0, 0],
      ],
      likelihood: [
        [0.75, 1 / 3],
        [0.25, 2 / 3],
      ],
      lookCents: 0,
    });
    // P(good) .5 with P(wet | good) .6 and P(wet | bad) .2: 280 against −40, so testing gives 140 instead of 120
    expect(worth.results[0]!.chance).toBeCloseTo(0.5, 12);
    expect(worth.results[0]!.posterior[0]).toBeCloseTo(0.6, 12);
    expect(worth.results[1]!.posterior[0]).toBeCloseTo(0.2, 12);
    expect(worth.results[0]!.costCents).toBeCloseTo(-280, 9);
    expect(worth.costNowCents).toBeCloseTo(-120, 9);
    expect(worth.lookWorthCents).toBeCloseTo(reference.published.wildcat.valueOfTest, 9);
  });
  it.each(reference.looks.cases)('matches the three-state enumeration for %j', (row) => {
    const worth = valueOfLooking({
      prior: row.prior,
      costCents: reference.looks.costs,
      likelihood: reference.looks.likelihood,
      lookCents: reference.looks.lookCost,
    });
    expect(worth.costNowCents).toBeCloseTo(row.now, 9);
    expect(worth.perfectCents).toBeCloseTo(row.evpi, 9);
    expect(worth.lookWorthCents).toBeCloseTo(row.evsi, 9);
    expect(worth.netCents).toBeCloseTo(row.net, 9);
  });
  it('refuses nonsense', () => {
    const sound = { prior: [1], costCents: [[1]], likelihood: [[1]], lookCents: 0 };
    expect(() => valueOfLooking({ ...sound, prior: [0.4] })).toThrow('prior must sum to 1, got 0.4');
    expect(() => valueOfLooking({ ...sound, prior: [] })).toThrow('at least one state');
    expect(() => valueOfLooking({ ...sound, likelihood: [[0.4]] })).toThrow(
      'likelihood of state 0 must sum to 1',
    );
    expect(() => valueOfLooking({ ...sound, costCents: [[1, 2]] })).toThrow(
      'each row must have 1 states, got 2',
    );
    expect(() => valueOfLooking({ ...sound, costCents: [[Number.NaN]] })).toThrow(
      'a cost must be a number, got NaN',
    );
    expect(() => valueOfLooking({ ...sound, prior: [1.5] })).toThrow(
      'a probability must lie in 0..1, got 1.5',
    );
    expect(() => valueOfLooking({ ...sound, lookCents: -1 })).toThrow('lookCents must be 0 or above, got -1');
  });
  it('lies between 0 and perfect knowledge, and is exactly 0 where no result changes the action', () => {
    const weight = fc.double({ min: 0.001, max: 1, noNaN: true });
    const shares = (n: number) =>
      fc.array(weight, { minLength: n, maxLength: n }).map((raw) => {
        const sum = raw.reduce((a, b) => a + b, 0);
        return raw.map((x) => x / sum);
      });
    const sizes = fc.tuple(
      fc.integer({ min: 1, max: 4 }),
      fc.integer({ min: 1, max: 3 }),
      fc.integer({ min: 1, max: 4 }),
    );
    const problem = sizes.chain(([states, results, actions]) =>
      fc.record({
        prior: shares(states),
        columns: fc.array(shares(results), { minLength: states, maxLength: states }),
        costCents: fc.array(
          fc.array(fc.integer({ min: 0, max: 9000 }), { minLength: states, maxLength: states }),
          { minLength: actions, maxLength: actions },
        ),
      }),
    );
    fc.assert(
      fc.property(problem, ({ prior, columns, costCents }) => {
        const likelihood = columns[0]!.map((_, result) => columns.map((column) => column[result]!));
        const worth = valueOfLooking({ prior, costCents, likelihood, lookCents: 0 });
        expect(worth.lookWorthCents).toBeGreaterThanOrEqual(0);
        expect(worth.lookWorthCents).toBeLessThanOrEqual(worth.perfectCents);
        if (worth.results.every((result) => result.action === worth.actionNow))
          expect(worth.lookWorthCents).toBe(0);
        const byHand =
          worth.costNowCents -
          worth.results.reduce((sum, result) => sum + result.chance * result.costCents, 0);
        expect(worth.lookWorthCents).toBeCloseTo(Math.max(0, byHand), 6);
      }),
      { seed: 21, numRuns: 300 },
    );
  });
});

const unit: LookInputs = {
  stateProbabilities: { restricted: 0.5, worn: 0.3, neither: 0.2 },
  failureProbability: 0.241,
  renewedFailureProbability: 0.037,
  failureCents: 900000,
  renewCents: 190000,
  labourCentsPerHour: 12000,
};

describe('ranking the looks for a unit', () => {
  it('has a catalog entry with unit, range order and kind for every coefficient', () => {
    for (const entry of decisionCatalog.coefficients) {
      expect(entry.unit.length).toBeGreaterThan(0);
      if (entry.low !== undefined) expect(entry.low).toBeLessThanOrEqual(entry.value);
      if (entry.high !== undefined) expect(entry.high).toBeGreaterThanOrEqual(entry.value);
    }
  });
  it('splits the chance of failure over the states without changing it', () => {
    const ranking = rankLooks(unit, coefficients);
    expect(ranking.actionFailureProbability.run).toBeCloseTo(0.241, 10);
    expect(ranking.actionFailureProbability.renew).toBeCloseTo(0.037, 12);
    expect(ranking.actionCents.run).toBeCloseTo(0.241 * 900000, 4);
    expect(ranking.actionCents.renew).toBeCloseTo(190000 + 0.037 * 900000, 6);
  });
  it('puts the most worthwhile look first and says what each finding leads to', () => {
    const ranking = rankLooks(unit, coefficients);
    const nets = ranking.looks.map((look) => look.netCents);
    expect([...nets].sort((a, b) => b - a)).toEqual(nets);
    const screen = ranking.looks.find((look) => look.look === 'screen')!;
    expect(screen.findings[0]).toMatchObject({ finding: 'screen restricted', action: 'clean' });
    expect(screen.findings[0]!.chance).toBeCloseTo(0.53, 12);
    expect(screen.lookCents).toBe(6500);
    const least = Math.min(...Object.values(ranking.actionCents));
    expect(screen.costCents).toBeCloseTo(least - screen.netCents, 6);
    for (const look of ranking.looks)
      expect(look.worthCents).toBeLessThanOrEqual(ranking.perfectCents + 1e-9);
  });
  it('counts the time that the unit stands for a look and for cleaning, by hand', () => {
    // 150.00 a day over 8 working hours; the screen takes 0.5 h, cleaning 1 h, and a renewal's own days are in its cost
    const standing = rankLooks({ ...unit, downtimeCentsPerHour: 15000 / 8 }, coefficients);
    const without = rankLooks(unit, coefficients);
    const screenOf = (ranking: typeof standing) => ranking.looks.find((look) => look.look === 'screen')!;
    expect(screenOf(standing).lookDowntimeCents).toBeCloseTo(937.5, 9);
    expect(standing.actionCents.clean).toBeCloseTo(without.actionCents.clean + 1875, 6);
    expect(standing.actionCents.renew).toBe(without.actionCents.renew);
    for (const { look, netCents } of standing.looks)
      expect(netCents).toBeLessThan(without.looks.find((other) => other.look === look)!.netCents + 1e-9);
  });
  it('finds no look worth its cost on a unit that hardly fails or is certain to be worn', () => {
    const safe = rankLooks(
      { ...unit, failureProbability: 0.001, renewedFailureProbability: 0.0005 },
      coefficients,
    );
    expect(safe.actionNow).toBe('run');
    for (const look of safe.looks) expect(look.netCents).toBeLessThan(0);
    const worn = { restricted: 0, worn: 1, neither: 0 };
    const sure = rankLooks({ ...unit, stateProbabilities: worn, failureProbability: 0.6 }, coefficients);
    expect(sure.actionNow).toBe('renew');
    for (const look of sure.looks) expect(look.worthCents).toBe(0);
  });
  it('stays finite at the ends and refuses nonsense', () => {
    for (const failureProbability of [0, 1])
      for (const look of rankLooks({ ...unit, failureProbability }, coefficients).looks)
        expect(Number.isFinite(look.netCents)).toBe(true);
    expect(() => rankLooks({ ...unit, failureProbability: 1.2 }, coefficients)).toThrow(
      'failureProbability must lie in',
    );
    expect(() => rankLooks(unit, {})).toThrow('coefficient look.hazard.restricted must be in the catalog');
  });
});
