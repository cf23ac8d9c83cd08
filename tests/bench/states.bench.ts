import { fleetStates } from '../../models/wear/fleetStates.ts';
import { coefficients, faultCodes } from '../models/wear/catalog.ts';
import { simulateFleet } from '../models/wear/simulation/fleet.ts';
import { fillOfEngine } from '../models/wear/simulation/records.ts';
import type { Figure } from './figure.ts';

const unitCount = 10_000;
const families = 8;
const years = 8;

/** Sludge, chain and phaser states with ranges of a large fleet over eight years, findings at a tenth of its services. */
export async function run(): Promise<readonly Figure[]> {
  const fleet = simulateFleet(1, unitCount, families, { share: 0.1, years: { from: years, to: years } });
  const units = fleet.map(({ timeline, history }) => ({
    timeline,
    history,
    context: { coefficients, faultCodes, fillOf: fillOfEngine(history.engine) },
  }));
  const before = process.cpuUsage();
  const states = fleetStates(units);
  const { user, system } = process.cpuUsage(before);
  const ranged = states.filter(({ now }) => now.sludge !== null && now.chainPercent !== null).length;
  if (ranged !== unitCount) throw new Error(`units with ranges must be ${unitCount}, got ${ranged}`);
  return [
    {
      name: `states with ranges of ${unitCount} units over ${years} years, processor time`,
      figure: (user + system) / 1e6,
      unit: 's',
      target: '20 or less',
    },
  ];
}
