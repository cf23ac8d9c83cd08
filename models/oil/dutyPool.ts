import type { Coefficients } from '../schema/coefficient.ts';
import type { UnitHistory } from '../schema/history.ts';
import type { Settings } from '../schema/settings.ts';
import { unitEvidence } from './dutyEvidence.ts';
import { ownFuelPer100Km } from './dutyFuel.ts';
import type { OwnDuty } from './dutyOwn.ts';
import { priorOf, type DutyStart } from './dutyStart.ts';
import { dutyRules, type DutyRules } from './dutyRules.ts';
import { plainWords } from './dutyWords.ts';

/** The quantities that are pooled; shares on the logit scale, all others on the log scale, as differences from the starting value. */
export const poolNames = [
  'kmPerDay',
  'idleShare',
  'speedKmh',
  'kmPerHour',
  'tripKm',
  'startsPerDay',
  'towingShare',
  'ptoShare',
  'litersPer100Km',
  'intervalKm',
  'intervalDays',
] as const;
export type PoolName = (typeof poolNames)[number];

/** Weight and weighted sum of the differences of a group of units, by quantity. */
export interface PoolSums {
  readonly units: number;
  readonly weight: Readonly<Record<PoolName, number>>;
  readonly sum: Readonly<Record<PoolName, number>>;
}

/** What comparable units tell of duty. Plain data. */
export interface PooledDuty {
  /** by `groupKeys`: the whole fleet, each duty, each family × duty × site */
  readonly groups: ReadonlyMap<string, PoolSums>;
  /** spread between units of one group, shrunk to the catalog's */
  readonly spread: Readonly<Record<PoolName, number>>;
  /** units whose records went in */
  readonly units: number;
}

/** The groups a unit belongs to, widest first. */
export function groupKeys(history: UnitHistory): readonly [string, string, string] {
  const { duty, site, engineFamily } = history.unit;
  const word = duty === null ? '' : plainWords(duty);
  const plain = (text: string | null) => (text ?? '').trim().toLowerCase();
  return ['fleet', `duty|${word}`, `peers|${plain(engineFamily)}|${word}|${plain(site)}`];
}

export const logit = (share: number): number => {
  const held = Math.min(0.97, Math.max(0.003, share));
  return Math.log(held / (1 - held));
};

interface Sums {
  units: number;
  weight: Record<PoolName, number>;
  sum: Record<PoolName, number>;
  squares: Record<PoolName, number>;
}

const zeros = (): Record<PoolName, number> =>
  Object.fromEntries(poolNames.map((name) => [name, 0])) as Record<PoolName, number>;

/**
 * Pools what the fleet's own meters, fills and drains measure of duty, by fleet, duty and family × duty × site, as
 * weighted mean differences from the starting values of the recognised duty.
 * @param units every unit's records, already cut to what was known on the as-of day
 * @param coefficients catalog values
 * @param settings the shop's settings
 * @param asOfDay days since 1970-01-01
 * @returns plain data for `unitDuty` and `buildTimeline`
 * Source: partial pooling (shrinkage to the wider group), common practice.
 */
export function poolDuty(
  units: readonly UnitHistory[],
  coefficients: Coefficients,
  settings: Settings,
  asOfDay: number,
): PooledDuty {
  const rules = dutyRules(coefficients);
  const groups = new Map<string, Sums>();
  for (const history of units) {
    const start = priorOf(history, rules, settings);
    const differences = unitDifferences(history, rules, start, asOfDay);
    for (const key of groupKeys(history)) {
      let sums = groups.get(key);
      if (sums === undefined) {
        sums = { units: 0, weight: zeros(), sum: zeros(), squares: zeros() };
        groups.set(key, sums);
      }
      sums.units++;
      for (const { name, weight, value } of differences) {
        sums.weight[name] += weight;
        sums.sum[name] += weight * value;
        sums.squares[name] += weight * value * value;
      }
    }
  }
  return { groups, spread: spreads(groups, rules), units: units.length };
}

interface Difference {
  readonly name: PoolName;
  readonly weight: number;
  readonly value: number;
}

function unitDifferences(
  history: UnitHistory,
  rules: DutyRules,
  start: DutyStart,
  asOfDay: number,
): readonly Difference[] {
  const { meters, own, fuel, intervals } = unitEvidence(history, rules, asOfDay);
  const hybrid = history.unit.powertrain === 'hybrid';
  const found: Difference[] = [];
  const put = (name: PoolName, weight: number, value: number) => {
    if (weight > 0.02 && Number.isFinite(value))
      found.push({ name, weight, value: Math.max(-3, Math.min(3, value)) });
  };
  const logs = (name: PoolName, basis: number, half: number, value: number | null, from: number) => {
    if (value !== null && value > 0) put(name, basis / (basis + half), Math.log(value / from));
  };
  logs('kmPerDay', own.odometerDays, 60, own.kmPerDay, start.prior.kmPerDay);
  if (!hybrid) {
    logs('speedKmh', own.speedBasisHours, rules.ownHoursWeight, own.speedKmh, start.prior.speedKmh);
    logs('kmPerHour', own.kmPerHourBasisHours, rules.ownHoursWeight, own.kmPerHour, start.kmPerHour);
  }
  if (own.idleShare !== null)
    put(
      'idleShare',
      own.idleBasisHours / (own.idleBasisHours + rules.ownHoursWeight),
      logit(own.idleShare) - logit(start.prior.idleShare),
    );
  logs('tripKm', own.starts, rules.ownStartsWeight, own.tripKm, start.prior.tripKm);
  logs('startsPerDay', own.starts, rules.ownStartsWeight, own.startsPerDay, start.prior.soakedStartsPerDay);
  if (own.towingShare !== null)
    put(
      'towingShare',
      own.towingBasisKm / (own.towingBasisKm + rules.ownDistanceWeightKm),
      logit(own.towingShare) - logit(start.prior.towingShare),
    );
  if (own.ptoShare !== null) put('ptoShare', 1, logit(own.ptoShare) - logit(start.prior.ptoShare));
  const burn = ownFuelPer100Km(history, meters, fuel, rules, idlePerKm(own, start));
  if (burn !== null)
    logs('litersPer100Km', burn.km, rules.ownDistanceWeightKm, burn.litersPer100Km, start.litersPer100Km);
  if (intervals.count > 0) {
    const half = rules.intervalOwnWeight;
    logs('intervalKm', intervals.count, half, intervals.km, start.intervalKm);
    logs('intervalDays', intervals.count, half, intervals.days, start.intervalDays);
  }
  return found;
}

function idlePerKm(own: OwnDuty, start: DutyStart): number {
  const share = own.idleShare ?? start.prior.idleShare;
  return share / (1 - share) / (own.speedKmh ?? start.prior.speedKmh);
}

/** Pooled spread between units of the finest groups, shrunk to the catalog's spread. */
function spreads(groups: ReadonlyMap<string, Sums>, rules: DutyRules): Record<PoolName, number> {
  const assumed: Record<PoolName, number> = {
    kmPerDay: rules.sdKmPerDay,
    idleShare: rules.sdIdleShare,
    speedKmh: rules.sdSpeed,
    kmPerHour: rules.sdKmPerHour,
    tripKm: rules.sdTripKm,
    startsPerDay: rules.sdSoakedStarts,
    towingShare: rules.sdTowing,
    ptoShare: rules.sdTowing,
    litersPer100Km: rules.sdFuel,
    intervalKm: rules.sdInterval,
    intervalDays: rules.sdInterval,
  };
  const spread = { ...assumed };
  for (const name of poolNames) {
    let squares = 0;
    let freedom = 0;
    for (const [key, sums] of groups) {
      if (!key.startsWith('peers|') || sums.weight[name] <= 1) continue;
      squares += sums.squares[name] - sums.sum[name] ** 2 / sums.weight[name];
      freedom += sums.weight[name] - 1;
    }
    const k = rules.sdWeight;
    spread[name] = Math.sqrt((k * assumed[name] ** 2 + Math.max(0, squares)) / (k + freedom));
  }
  return spread;
}
