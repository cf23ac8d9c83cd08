import type { Code } from '../../../../models/schema/code.ts';
import type { ServiceEvent, Sourced } from '../../../../models/schema/history.ts';
import type { SeededRandom } from './random.ts';
import { codeRecord, serviceRecord } from './records.ts';

/** How phasers fail in one simulated world and what its shop writes down of it; drawn anew for every seed. */
export interface LifeLaws {
  /** Weibull shape of life on wear; the median is at wear 1 */
  readonly shape: number;
  readonly codesPerCharge: number;
  readonly falseCodesPerCharge: number;
  readonly answered: number;
  readonly recorded: number;
}

export function lifeLawsOf(random: SeededRandom): LifeLaws {
  return {
    shape: random.between(1.8, 3.5),
    codesPerCharge: random.between(0.05, 0.3),
    falseCodesPerCharge: random.between(0.001, 0.004),
    answered: random.between(0.2, 0.7),
    recorded: random.between(0.85, 1),
  };
}

/** What the records hold of one unit's phaser. */
export interface LifeRecords {
  readonly services: ServiceEvent[];
  readonly codes: Sourced<Code>[];
}

/**
 * The phaser's life over one charge: it may fail, bring a code, or be renewed on a code.
 * @returns whether a new one was fitted on the day
 */
export function liveThrough(
  from: number,
  to: number,
  day: number,
  laws: LifeLaws,
  random: SeededRandom,
  into: LifeRecords,
): boolean {
  const hazard = Math.LN2 * (Math.pow(to, laws.shape) - Math.pow(from, laws.shape));
  const written = random.chance(laws.recorded);
  if (random.chance(0.03)) into.services.push(serviceRecord(day, ['cam_sensor']));
  if (random.chance(-Math.expm1(-hazard))) {
    if (written) into.services.push(serviceRecord(day, ['phaser', 'oil_change'], { outcome: 'failed' }));
    return true;
  }
  const worn = Math.max(0, to - 0.5);
  if (!random.chance(Math.min(0.9, laws.falseCodesPerCharge + laws.codesPerCharge * worn))) return false;
  into.codes.push(codeRecord(day, random.pick(['P0011', 'P0012', 'P0014'])));
  if (to < 0.75 || !random.chance(laws.answered)) return false;
  into.services.push(serviceRecord(day, ['phaser', 'oil_change'], { outcome: 'planned' }));
  return true;
}
