import type { UnitHistory } from '../schema/history.ts';
import type { Settings } from '../schema/settings.ts';
import type { OwnIntervals } from './dutyEvidence.ts';
import type { OwnDuty } from './dutyOwn.ts';
import { groupKeys, logit, type PooledDuty, type PoolName, type PoolSums } from './dutyPool.ts';
import type { DutyRules } from './dutyRules.ts';
import { priorOf, type DutyStart } from './dutyStart.ts';

/** A quantity of a unit's duty. */
export interface DutyEstimate {
  readonly value: number;
  /** standard deviation of the logarithm (shares: of the logit) */
  readonly spread: number;
  /** weight of the unit's own records, 0 none .. 1 all */
  readonly own: number;
}

/** A unit's duty as its own records and comparable units tell it, before its meters are laid on the time axis. */
export interface UnitDuty {
  readonly start: DutyStart;
  readonly hybrid: boolean;
  /** of comparable units; the unit's own use is measured on the time axis */
  readonly kmPerDay: DutyEstimate;
  readonly idleShare: DutyEstimate;
  readonly speedKmh: DutyEstimate;
  readonly tripKm: DutyEstimate;
  readonly soakedStartsPerDay: DutyEstimate;
  readonly towingShare: DutyEstimate;
  readonly dustShare: number;
  readonly ptoShare: DutyEstimate;
  /** null: neither the unit's own fills nor comparable units tell it */
  readonly litersPer100Km: DutyEstimate | null;
  readonly intervalKm: DutyEstimate;
  readonly intervalDays: DutyEstimate;
}

interface Pooled {
  /** difference from the starting value */
  readonly difference: number;
  readonly spread: number;
  /** weight of comparable units against the starting value, 0..1 */
  readonly told: number;
}

const inverseLogit = (x: number): number => 1 / (1 + Math.exp(-x));

/** Shrinks from the starting value through fleet and duty to the peers of family × duty × site. */
function pooledDifference(pooled: PooledDuty, keys: readonly string[], name: PoolName, k: number): Pooled {
  let difference = 0;
  let most = 0;
  for (const key of keys) {
    const sums: PoolSums | undefined = pooled.groups.get(key);
    if (sums === undefined) continue;
    const weight = sums.weight[name];
    difference = (sums.sum[name] + k * difference) / (weight + k);
    most = Math.max(most, weight / (weight + k));
  }
  const within = pooled.spread[name];
  return { difference, spread: within * Math.sqrt(1 + 0.5 * (1 - most)), told: most };
}

const blend = (group: number, own: number, weight: number): number => (1 - weight) * group + weight * own;

/** Spread left when own records of a weight are known. */
const narrowed = (spread: number, weight: number): number => spread * Math.sqrt(1 - weight);

/**
 * A unit's duty: starting values of its recognised duty, moved by comparable units, then by its own records.
 * Distance per engine hour binds speed and idle share where idle hours are not metered: km/h = speed × (1 − idle share);
 * a difference is taken up by both in proportion to their variances.
 * @param own what the unit's own records measure
 * @param intervals the unit's own drain intervals
 */
export function unitDuty(
  history: UnitHistory,
  pooled: PooledDuty,
  own: OwnDuty,
  intervals: OwnIntervals,
  ownFuel: { readonly litersPer100Km: number; readonly km: number } | null,
  rules: DutyRules,
  settings: Settings,
): UnitDuty {
  const start = priorOf(history, rules, settings);
  const { prior } = start;
  const hybrid = history.unit.powertrain === 'hybrid';
  const keys = groupKeys(history);
  const group = (name: PoolName) => pooledDifference(pooled, keys, name, rules.groupWeight);
  const logValue = (name: PoolName, from: number, ownValue: number | null, weight: number): DutyEstimate => {
    const g = group(name);
    const usable = ownValue !== null && ownValue > 0 ? weight : 0;
    const mean = blend(Math.log(from) + g.difference, usable > 0 ? Math.log(ownValue ?? 1) : 0, usable);
    return { value: Math.exp(mean), spread: narrowed(g.spread, usable), own: usable };
  };
  const shareValue = (
    name: PoolName,
    from: number,
    ownValue: number | null,
    weight: number,
  ): DutyEstimate => {
    const g = group(name);
    const usable = ownValue !== null ? weight : 0;
    const mean = blend(logit(from) + g.difference, ownValue === null ? 0 : logit(ownValue), usable);
    return { value: inverseLogit(mean), spread: narrowed(g.spread, usable), own: usable };
  };
  const byHours = (basis: number) => basis / (basis + rules.ownHoursWeight);
  const idle = shareValue('idleShare', prior.idleShare, own.idleShare, byHours(own.idleBasisHours));
  const speed = logValue(
    'speedKmh',
    prior.speedKmh,
    hybrid ? null : own.speedKmh,
    byHours(own.speedBasisHours),
  );
  const bound = hybrid
    ? { idle, speed }
    : boundByDistancePerHour(idle, speed, group('kmPerHour'), start, own, rules);
  const starts = logValue(
    'startsPerDay',
    prior.soakedStartsPerDay,
    own.startsPerDay,
    own.startsPerDay === null ? 0 : 1,
  );
  const soaked = Math.min(prior.soakedStartsPerDay, own.startsPerDay === null ? Infinity : starts.value);
  const fuelGroup = group('litersPer100Km');
  const fuelWeight = ownFuel === null ? 0 : ownFuel.km / (ownFuel.km + rules.ownDistanceWeightKm);
  // the middle of n intervals has a variance of about π/2 of one interval's over n
  const ownInterval = (name: PoolName): number => {
    if (intervals.count === 0) return 0;
    const outside = group(name).spread ** 2;
    return outside / (outside + ((Math.PI / 2) * intervals.logSd ** 2) / intervals.count);
  };
  return {
    start,
    hybrid,
    kmPerDay: logValue('kmPerDay', prior.kmPerDay, null, 0),
    idleShare: bound.idle,
    speedKmh: bound.speed,
    tripKm: logValue('tripKm', prior.tripKm, own.tripKm, own.starts / (own.starts + rules.ownStartsWeight)),
    soakedStartsPerDay: { value: Math.max(0.05, soaked), spread: rules.sdSoakedStarts, own: 0 },
    towingShare: shareValue(
      'towingShare',
      prior.towingShare,
      own.towingShare,
      own.towingBasisKm / (own.towingBasisKm + rules.ownDistanceWeightKm),
    ),
    dustShare: prior.dustShare,
    ptoShare:
      own.ptoShare !== null
        ? { value: own.ptoShare, spread: 0, own: 1 }
        : prior.ptoShare > 0
          ? shareValue('ptoShare', prior.ptoShare, null, 0)
          : { value: 0, spread: 0, own: 0 },
    litersPer100Km:
      ownFuel === null && fuelGroup.told < 0.3
        ? null
        : logValue('litersPer100Km', start.litersPer100Km, ownFuel?.litersPer100Km ?? null, fuelWeight),
    intervalKm: logValue(
      'intervalKm',
      start.intervalKm,
      intervals.km,
      intervals.km === null ? 0 : ownInterval('intervalKm'),
    ),
    intervalDays: logValue(
      'intervalDays',
      start.intervalDays,
      intervals.days,
      intervals.days === null ? 0 : ownInterval('intervalDays'),
    ),
  };
}

/** Takes up what distance per engine hour says beyond speed and idle share told apart. */
function boundByDistancePerHour(
  idle: DutyEstimate,
  speed: DutyEstimate,
  pooledPerHour: Pooled,
  start: DutyStart,
  own: OwnDuty,
  rules: DutyRules,
): { idle: DutyEstimate; speed: DutyEstimate } {
  let busy = Math.log(1 - idle.value);
  let pace = Math.log(speed.value);
  const idleSd = Math.max(1e-6, idle.value * idle.spread);
  const speedSd = Math.max(1e-6, speed.spread);
  const toIdle = idleSd ** 2 / (idleSd ** 2 + speedSd ** 2);
  const take = (logPerHour: number, weight: number) => {
    const difference = weight * (logPerHour - (busy + pace));
    busy = Math.min(-0.01, Math.max(-3.5, busy + toIdle * difference));
    pace = Math.min(Math.log(110), Math.max(Math.log(6), pace + (1 - toIdle) * difference));
  };
  if (pooledPerHour.told > 0 && own.kmPerHour === null)
    take(Math.log(start.kmPerHour) + pooledPerHour.difference, pooledPerHour.told);
  const ownWeight = own.kmPerHourBasisHours / (own.kmPerHourBasisHours + rules.ownHoursWeight);
  if (own.kmPerHour !== null) take(Math.log(own.kmPerHour), ownWeight);
  const together = Math.sqrt((idleSd ** 2 * speedSd ** 2) / (idleSd ** 2 + speedSd ** 2));
  const held = own.kmPerHour === null ? 0 : ownWeight;
  const share = 1 - Math.exp(busy);
  const idleSpread = blend(idleSd, together, held) / Math.max(0.02, share);
  return {
    idle: { ...idle, value: share, spread: Math.min(idle.spread, idleSpread) },
    speed: {
      ...speed,
      value: Math.exp(pace),
      spread: Math.min(speed.spread, blend(speedSd, together, held)),
    },
  };
}
