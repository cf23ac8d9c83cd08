import { lifeChance } from './evidence.ts';
import type { Likelihood } from './evidence.ts';

/** The stays of one unit's parts, as what they tell of the level of their family. */
export interface UnitLives {
  readonly unitId: number;
  readonly family: string;
  /** how far such units scatter about their family, log-sd */
  readonly scatterLogSd: number;
  /** logarithm of the wear at the end of each stay at the catalog's rate, with how likely such an end is */
  readonly stays: readonly {
    readonly logWear: number;
    readonly likelihood: Extract<Likelihood, { kind: 'life' }>;
  }[];
}

/** What is believed of a log-rate. */
export interface Level {
  readonly mean: number;
  readonly variance: number;
}

/** Levels of a wear rate by family, learned from failures and survivors. */
export interface LifeLevels {
  /** by the unit's record id: its family's level without the unit's own life */
  readonly byUnit: ReadonlyMap<number, Level>;
  readonly byFamily: ReadonlyMap<string, Level>;
  readonly otherFamily: Level;
  /** how much wider (above 1) or narrower units scatter than taken */
  readonly spreadScale: number;
}

const half = 40;
const count = 2 * half + 1;
const step = 0.1;
/** Nodes and weights for a standard normal, seven points (Abramowitz and Stegun, table 25.10, scaled). */
const nodes = [-3.750439718, -2.366759411, -1.154405395, 0, 1.154405395, 2.366759411, 3.750439718];
const weights = [
  0.000548268856, 0.03075712397, 0.2401231786, 0.457142857, 0.2401231786, 0.03075712397, 0.000548268856,
];
const scales = [0.55, 0.75, 1, 1.35];

/**
 * How fast a part wears in each family, from which parts failed and which did not: a life without failure pulls down, a
 * failure pulls up, as much as lives were long.
 * Method: hierarchy unit – family – fleet – catalog of log-rates; likelihood of each unit's stays averaged over its scatter
 * about the family (Gauss–Hermite), families and fleet on a grid of log-rates, so that nothing is taken as normal that is
 * not. The scatter's scale is the likeliest under a log-normal prior about 1.
 * Source: empirical Bayes with frailty, Hougaard, "Analysis of Multivariate Survival Data" (2000).
 * @param familySd spread of families about the fleet, log-sd, above 0
 * @param fleetSd spread of fleets about the catalog, log-sd, above 0
 * @param scaleLogSd spread of the scale of the scatter, log-sd, above 0
 * @returns log-rates against the catalog; no lives → mean 0, variance familySd² + fleetSd²
 */
export function lifeLevels(
  lives: readonly UnitLives[],
  familySd: number,
  fleetSd: number,
  scaleLogSd: number,
): LifeLevels {
  const kernel = kernelOf(familySd);
  let best: Worked | null = null;
  for (const scale of lives.length === 0 ? [1] : scales) {
    const worked = workedAt(lives, scale, kernel, fleetSd);
    worked.evidence -= 0.5 * (Math.log(scale) / scaleLogSd) ** 2;
    if (best === null || worked.evidence > best.evidence) best = worked;
  }
  return levelsOf(lives, best!, kernel);
}

interface Worked {
  readonly scale: number;
  readonly ofUnits: readonly Float64Array[];
  readonly ofFamilies: ReadonlyMap<string, Float64Array>;
  /** by family: what its units say of the fleet */
  readonly toFleet: ReadonlyMap<string, Float64Array>;
  readonly fleet: Float64Array;
  evidence: number;
}

function workedAt(lives: readonly UnitLives[], scale: number, kernel: Float64Array, fleetSd: number): Worked {
  const ofFamilies = new Map<string, Float64Array>();
  const ofUnits = lives.map((life) => {
    const logs = unitLogs(life, scale);
    const sum = ofFamilies.get(life.family) ?? new Float64Array(count);
    for (let i = 0; i < count; i++) sum[i] += logs[i];
    ofFamilies.set(life.family, sum);
    return logs;
  });
  const fleet = Float64Array.from({ length: count }, (_, i) => -0.5 * (((i - half) * step) / fleetSd) ** 2);
  const toFleet = new Map<string, Float64Array>();
  for (const [family, logs] of ofFamilies) {
    const passed = spreadLogs(logs, kernel);
    toFleet.set(family, passed);
    for (let i = 0; i < count; i++) fleet[i] += passed[i];
  }
  return { scale, ofUnits, ofFamilies, toFleet, fleet, evidence: logOfSum(fleet) };
}

/** Log-likelihood of a unit's stays at each level of its family. */
function unitLogs({ stays, scatterLogSd }: UnitLives, scale: number): Float64Array {
  const logs = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    let chance = 0;
    for (let h = 0; h < nodes.length; h++) {
      const logFactor = (i - half) * step + scale * scatterLogSd * nodes[h];
      let all = weights[h];
      for (const { logWear, likelihood } of stays) all *= lifeChance(likelihood, logWear + logFactor);
      chance += all;
    }
    logs[i] = Math.log(Math.max(1e-260, chance));
  }
  return logs;
}

/** Normal density from each level to each other, rows of `count`. */
function kernelOf(sd: number): Float64Array {
  const kernel = new Float64Array(count * count);
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++) kernel[i * count + j] = Math.exp(-0.5 * (((i - j) * step) / sd) ** 2);
  return kernel;
}

/** A log-density on the grid, spread by the kernel. */
function spreadLogs(logs: Float64Array, kernel: Float64Array): Float64Array {
  const top = logs.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY);
  const density = logs.map((value) => Math.exp(value - top));
  const spread = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    let sum = 0;
    for (let j = 0; j < count; j++) sum += kernel[i * count + j] * density[j];
    spread[i] = top + Math.log(Math.max(1e-300, sum));
  }
  return spread;
}

function logOfSum(logs: Float64Array): number {
  const top = logs.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY);
  return top + Math.log(logs.reduce((sum, value) => sum + Math.exp(value - top), 0));
}

function levelOf(logs: Float64Array): Level {
  const top = logs.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY);
  let sum = 0;
  let mean = 0;
  let square = 0;
  for (let i = 0; i < count; i++) {
    const density = Math.exp(logs[i] - top);
    const level = (i - half) * step;
    sum += density;
    mean += density * level;
    square += density * level * level;
  }
  mean /= sum;
  return { mean, variance: Math.max(1e-4, square / sum - mean * mean) };
}

function levelsOf(lives: readonly UnitLives[], worked: Worked, kernel: Float64Array): LifeLevels {
  const byFamily = new Map<string, Level>();
  const posterior = new Map<string, Float64Array>();
  for (const [family, logs] of worked.ofFamilies) {
    const passed = worked.toFleet.get(family)!;
    const own = spreadLogs(
      worked.fleet.map((value, i) => value - passed[i]),
      kernel,
    );
    for (let i = 0; i < count; i++) own[i] += logs[i];
    posterior.set(family, own);
    byFamily.set(family, levelOf(own));
  }
  const byUnit = new Map<number, Level>();
  lives.forEach(({ unitId, family }, place) => {
    const own = worked.ofUnits[place];
    byUnit.set(unitId, levelOf(posterior.get(family)!.map((value, i) => value - own[i])));
  });
  return {
    byUnit,
    byFamily,
    otherFamily: levelOf(spreadLogs(worked.fleet, kernel)),
    spreadScale: worked.scale,
  };
}
