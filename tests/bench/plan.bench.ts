import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { costOfMove } from '../../models/decisions/shop/costOfMove.ts';
import { planWork } from '../../models/decisions/shop/planShop.ts';
import { replanWork } from '../../models/decisions/shop/replan.ts';
import type { ShopInputs } from '../../models/decisions/shop/shopInputs.ts';
import { shopRules } from '../../models/decisions/shop/shopRules.ts';
import { coefficientFile, coefficientValues } from '../../models/schema/coefficient.ts';
import { isoFromDay } from '../../models/schema/day.ts';
import { pathsOf } from '../../server/config.ts';
import { makeContext } from '../../server/context.ts';
import { openDemo } from '../../server/services/demoStore.ts';
import { shopInputsOf } from '../../server/services/planShop.ts';
import { planOnThreads } from '../../server/services/planThreads.ts';
import type { Figure } from './figure.ts';
import { growStore } from './growStore.ts';
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

/** What the shop of a fleet's records is planned from: the demo several times over, with the demo's sites and people. */
async function grownDemo(copies: number, weeks: number): Promise<ShopInputs> {
  const folder = mkdtempSync(join(tmpdir(), 'sumpwise-bench-'));
  const own = { ...paths, demoStore: join(folder, 'grown.sqlite'), ownStore: join(folder, 'none.sqlite') };
  const context = makeContext(own, () => openDemo(own, () => undefined));
  try {
    const store = await context.current();
    growStore(store, copies);
    return await shopInputsOf(context, store, { from: await context.asOf(store), weeks });
  } finally {
    await context.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function fleetFigures(
  fleet: string,
  inputs: ShopInputs,
  mostSeconds: number,
  mostPercent: number,
): Promise<Figure[]> {
  const { wall, processor, result } = await timed(() => planOnThreads(paths, planWork(inputs)));
  const name = `plan of ${inputs.units.length} units × ${inputs.weeks} weeks, ${fleet}`;
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

/**
 * Plans of fleets from records and of invented ones, which are harder (everything differs, and weeks of work wait from the
 * first day on): sites on threads as in the program; time, and the gap as the plan's document defines it.
 */
export async function run(): Promise<readonly Figure[]> {
  const figures: Figure[] = [];
  for (const copies of [4, 5])
    figures.push(...(await fleetFigures('demo grown', await grownDemo(copies, 26), 10, 1)));
  for (const seed of [7, 3])
    figures.push(...(await fleetFigures(`fleet ${seed}`, inventedShop(500, 26, 0.75, seed, rules), 10, 1)));
  for (const seed of [7, 3])
    figures.push(...(await fleetFigures(`fleet ${seed}`, inventedShop(5000, 52, 0.75, seed, rules), 60, 3)));
  return figures;
}
