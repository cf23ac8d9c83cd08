import { readFileSync } from 'node:fs';
import { costOfMove } from '../../models/decisions/shop/costOfMove.ts';
import { planWork } from '../../models/decisions/shop/planShop.ts';
import { replanWork } from '../../models/decisions/shop/replan.ts';
import { shopRules } from '../../models/decisions/shop/shopRules.ts';
import { coefficientFile, coefficientValues } from '../../models/schema/coefficient.ts';
import { isoFromDay } from '../../models/schema/day.ts';
import { pathsOf } from '../../server/config.ts';
import { planOnThreads } from '../../server/services/planThreads.ts';
import type { Figure } from './figure.ts';
import { inventedShop } from './inventedShop.ts';
import { processorSeconds } from './processorSeconds.ts';

const catalog = new URL('../../data/catalog/shop-coefficients.json', import.meta.url);
const rules = shopRules(
  coefficientValues([coefficientFile.parse(JSON.parse(readFileSync(catalog, 'utf8')))]),
);

const root = new URL('../..', import.meta.url).pathname;
const paths = pathsOf(root, process.env.SUMPWISE_BUILT ?? root);

interface Timed<T> {
  /** as a user waits */
  readonly wall: number;
  /** of all threads: unlike the wait it does not count what else the machine does */
  readonly processor: number;
  readonly result: T;
}

async function timed<T>(work: () => T | Promise<T>): Promise<Timed<T>> {
  const [start, before] = [performance.now(), processorSeconds()];
  const result = await work();
  return { wall: (performance.now() - start) / 1000, processor: processorSeconds() - before, result };
}

async function fleetFigures(
  units: number,
  weeks: number,
  seed: number,
  mostSeconds: number,
  mostPercent: number,
): Promise<Figure[]> {
  const inputs = inventedShop(units, weeks, 0.75, seed, rules);
  const { wall, processor, result } = await timed(() => planOnThreads(paths, planWork(inputs)));
  const name = `plan of ${units} units × ${weeks} weeks, fleet ${seed}`;
  const visit = result.visits[Math.floor(result.visits.length / 2)];
  const day = inputs.fromDay + 30;
  const away = {
    ...inputs,
    technicians: inputs.technicians.map((person, i) =>
      i === 0 ? { ...person, away: [...person.away, { fromDay: day, toDay: day + 1 }] } : person,
    ),
  };
  const site = inputs.technicians[0].site;
  const again = await timed(() => planOnThreads(paths, replanWork(away, result, { kind: 'records', site })));
  const move = await timed(() =>
    costOfMove(inputs, result, visit.id, { on: isoFromDay(inputs.fromDay + 14) }),
  );
  return [
    { name: `${name}: wait`, figure: wall, unit: 's', target: `${mostSeconds} s` },
    { name: `${name}: all threads`, figure: processor, unit: 's of processor', target: 'none' },
    {
      name: `${name}: gap to the bound over what capacity adds`,
      figure: 100 * result.gap,
      unit: '%',
      target: `${mostPercent} %`,
    },
    {
      name: `${name}: objective`,
      figure: result.objectiveCents / 100,
      unit: 'money',
      target: 'near the bound',
    },
    { name: `${name}: bound`, figure: result.boundCents / 100, unit: 'money', target: 'none' },
    {
      name: `${name}: with unlimited bays and people`,
      figure: result.idealCents / 100,
      unit: 'money',
      target: 'none',
    },
    {
      name: `${name}: jobs without a place`,
      figure: result.notPlaced.length,
      unit: 'jobs',
      target: 'listed',
    },
    {
      name: `${name}: made again, one person away for two days`,
      figure: again.wall,
      unit: 's',
      target: '2 s',
    },
    {
      name: `${name}: differences then`,
      figure: again.result.differences.length,
      unit: 'visits',
      target: 'few',
    },
    { name: `${name}: cost of a move`, figure: 1000 * move.wall, unit: 'ms', target: '50 ms' },
  ];
}

/** Plans of invented fleets, their sites on threads as in the program: time, and the gap as the plan's document defines it. */
export async function run(): Promise<readonly Figure[]> {
  const figures: Figure[] = [];
  for (const seed of [7, 3]) figures.push(...(await fleetFigures(500, 26, seed, 10, 1)));
  for (const seed of [7, 3]) figures.push(...(await fleetFigures(5000, 52, seed, 60, 3)));
  return figures;
}
