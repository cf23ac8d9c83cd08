import { readFileSync } from 'node:fs';
import { costOfMove } from '../../models/decisions/shop/costOfMove.ts';
import { planShop } from '../../models/decisions/shop/planShop.ts';
import { replan } from '../../models/decisions/shop/replan.ts';
import { shopRules } from '../../models/decisions/shop/shopRules.ts';
import { coefficientFile, coefficientValues } from '../../models/schema/coefficient.ts';
import { isoFromDay } from '../../models/schema/day.ts';
import type { Figure } from './figure.ts';
import { inventedShop } from './inventedShop.ts';

const catalog = new URL('../../data/catalog/shop-coefficients.json', import.meta.url);
const rules = shopRules(
  coefficientValues([coefficientFile.parse(JSON.parse(readFileSync(catalog, 'utf8')))]),
);

/** Processor seconds, so that what else runs on the machine does not count. */
function timed<T>(work: () => T): { seconds: number; result: T } {
  const start = process.cpuUsage();
  const result = work();
  const { user, system } = process.cpuUsage(start);
  return { seconds: (user + system) / 1e6, result };
}

function fleetFigures(units: number, weeks: number, mostSeconds: number, mostPercent: number): Figure[] {
  const inputs = inventedShop(units, weeks, 0.75, 7, rules);
  const { seconds, result } = timed(() => planShop(inputs));
  const name = `plan of ${units} units × ${weeks} weeks`;
  const visit = result.visits[Math.floor(result.visits.length / 2)];
  const day = inputs.fromDay + 30;
  const away = {
    ...inputs,
    technicians: inputs.technicians.map((person, i) =>
      i === 0 ? { ...person, away: [...person.away, { fromDay: day, toDay: day + 1 }] } : person,
    ),
  };
  const site = inputs.technicians[0].site;
  const again = timed(() => replan(away, result, { kind: 'records', site }));
  const move = timed(() => costOfMove(inputs, result, visit.id, { on: isoFromDay(inputs.fromDay + 14) }));
  return [
    { name, figure: seconds, unit: 's of processor', target: `${mostSeconds} s` },
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
      figure: again.seconds,
      unit: 's of processor',
      target: '2 s',
    },
    {
      name: `${name}: differences then`,
      figure: again.result.differences.length,
      unit: 'visits',
      target: 'few',
    },
    { name: `${name}: cost of a move`, figure: 1000 * move.seconds, unit: 'ms', target: '50 ms' },
  ];
}

/** Plans of invented fleets: time, and the gap to the bound as the plan's document defines it. */
export async function run(): Promise<readonly Figure[]> {
  return [...fleetFigures(500, 26, 10, 1), ...fleetFigures(5000, 52, 60, 3)];
}
