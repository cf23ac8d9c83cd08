import loadHighs from 'highs';
import { budgetCase } from '../../models/decisions/budgetCase.ts';
import { dueDateDistribution } from '../../models/decisions/duedates.ts';
import type { MilpSolver } from '../../models/decisions/milpSolver.ts';
import { planPortfolio } from '../../models/decisions/portfolio.ts';
import { seededRandom } from '../../models/numeric/random.ts';
import { riskOf } from '../../models/decisions/risk.ts';
import { simulateFleet } from '../../models/decisions/simulation.ts';
import { coefficients } from '../models/decisions/catalog.ts';
import { wornFleet } from '../models/decisions/moneyFixture.ts';

interface Figure {
  readonly name: string;
  readonly figure: number;
  readonly unit: string;
  readonly target: number;
}

const unitCount = 2000;

/** Seconds and the result of one run. */
function timed<T>(work: () => T): { seconds: number; result: T } {
  const start = performance.now();
  const result = work();
  return { seconds: (performance.now() - start) / 1000, result };
}

/** 2 000 units, each renew, look first, clean or run in any of three years. */
function fleetOptions(seed: number) {
  const random = seededRandom(seed);
  return Array.from({ length: unitCount }, (_, i) => {
    const risk = 0.02 + 0.3 * random() ** 3;
    const failure = 400_000 + 800_000 * random();
    const price = 100_000 + Math.round(150_000 * random());
    const state = random();
    const options = [0, 1, 2].flatMap((year) => {
      const avoided = failure * risk * (3 - year) * (1 + 0.2 * random());
      const look = Math.round(6000 + 0.3 * state * price);
      return [
        {
          action: 'renew',
          year,
          costCents: price,
          hours: 8 + 4 * random(),
          valueCents: 0.95 * avoided - price,
        },
        {
          action: 'look',
          year,
          costCents: look,
          hours: 1 + 3 * state,
          valueCents: 0.6 * state * avoided - look,
        },
        {
          action: 'clean',
          year,
          costCents: 14_000,
          hours: 1.5,
          valueCents: 0.3 * (1 - state) * avoided - 14_000,
        },
      ];
    });
    return { unitNumber: String(i), options };
  });
}

function portfolioFigures(solver: MilpSolver): Figure[] {
  return [0.05, 0.2, 0.5].flatMap((share) => {
    const units = fleetOptions(3);
    const total = share * units.reduce((sum, unit) => sum + unit.options[0]!.costCents, 0);
    const { seconds, result } = timed(() =>
      planPortfolio(
        {
          units,
          budgetCentsByYear: [0.4 * total, 0.3 * total, 0.3 * total],
          hoursByYear: [9000 * share, 6000 * share, 6000 * share],
          totalBudgetCents: Infinity,
        },
        solver,
        { gap: 0.001, seconds: 10 },
      ),
    );
    const name = `portfolio 2 000 units × 4 options × 3 years, budget ${100 * share} %`;
    return [
      { name, figure: seconds, unit: 's', target: 10 },
      { name: `${name}, proved gap`, figure: 100 * result.gap, unit: '%', target: 0.1 },
    ];
  });
}

function simulationFigure(): Figure {
  const units = wornFleet(unitCount, 4, 400).map((unit) => ({
    risk: riskOf(unit.risk!),
    months: 12,
    failureCents: 900_000,
    coveredMonths: 0,
    coveredCents: 0,
  }));
  const plan = units.flatMap((_, unit) =>
    unit % 5 ? [] : [{ unit, month: 0, cents: 150_000, otherCents: 0, effect: 'renew' as const }],
  );
  const { seconds, result } = timed(() =>
    simulateFleet({
      units,
      plans: [plan],
      months: 12,
      judgedMonths: 12,
      draws: 10_000,
      monthlyRate: 0.004,
      failureLogSd: 0.4,
      plannedLogSd: 0.15,
      useLogSd: 0.1,
      random: seededRandom(5),
    }),
  );
  const failures = result.base.failures.reduce((a, b) => a + b, 0) / 10_000;
  return {
    name: `simulation 10 000 draws × 2 000 units (${Math.round(failures)} failures a draw)`,
    figure: seconds,
    unit: 's',
    target: 5,
  };
}

function budgetFigure(solver: MilpSolver): Figure {
  const { seconds } = timed(() =>
    budgetCase({
      asOfDay: 20_543,
      amountCents: 30_000_000,
      currency: 'USD',
      months: 24,
      units: wornFleet(unitCount, 6, 200),
      coefficients,
      solver,
      random: seededRandom(7),
      draws: 2000,
    }),
  );
  return { name: 'whole budget case, 2 000 units, 2 000 draws', figure: seconds, unit: 's', target: 30 };
}

function dueFigure(): Figure {
  const spread = { perDayLogSd: 0.3, limitLogSd: 0.2 };
  const { seconds } = timed(() => {
    for (let i = 0; i < unitCount; i++)
      dueDateDistribution(
        [
          { name: 'base_number', used: 3000, remaining: 3000 + i, perDay: 60, ...spread },
          { name: 'hours', used: 90, remaining: 100, perDay: 1.2, ...spread },
          { name: 'calendar', used: 90, remaining: 275, perDay: 1, perDayLogSd: 0, limitLogSd: 0 },
        ],
        20_543,
      );
  });
  return { name: 'due dates of 2 000 units, three limits each', figure: seconds, unit: 's', target: 2 };
}

/** Timings of the decision models; figures are wall-clock seconds and the proved gap in percent. */
export async function run(): Promise<Figure[]> {
  const solver: MilpSolver = await loadHighs();
  return [...portfolioFigures(solver), simulationFigure(), budgetFigure(solver), dueFigure()];
}
