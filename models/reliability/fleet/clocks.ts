import type { EarlierUse, Segment } from './episode.ts';
import type { FleetPriors, LogPrior } from './fleetPriors.ts';

/** Use in the unit of a clock: a part that counts in full and a part that counts by the learned idle weight. */
export interface ClockUse {
  readonly full: number;
  readonly idle: number;
}

/** One way of counting wear. The failure model averages over several. */
export interface Clock {
  readonly name: 'wear' | 'hours' | 'distance';
  readonly unit: 'h' | 'km';
  /** whether the clock covariates speed it up and slow it down */
  readonly withCovariates: boolean;
  readonly withIdleWeight: boolean;
  readonly life: LogPrior;
  readonly shape: LogPrior;
  readonly use: (part: Segment | EarlierUse) => ClockUse;
}

/** Hours of a stretch, inferred from distance where they were not recorded. */
export interface HoursRule {
  /** km/h over all engine hours */
  readonly speedKmH: number;
  /** idle share of engine hours */
  readonly idleShare: number;
  /** whether any unit has hours at all */
  readonly anyKnown: boolean;
}

/** The fleet's own speed and idle share over all stretches that have both meters; a typical speed without any. */
export function hoursRuleFrom(segments: Iterable<Segment>, priors: FleetPriors): HoursRule {
  let km = 0;
  let hours = 0;
  let idle = 0;
  let hoursWithIdle = 0;
  for (const segment of segments) {
    if (segment.engineHours === null || !(segment.engineHours > 0)) continue;
    km += segment.distanceKm;
    hours += segment.engineHours;
    if (segment.idleHours === null) continue;
    idle += Math.min(segment.idleHours, segment.engineHours);
    hoursWithIdle += segment.engineHours;
  }
  // a few hours or kilometres on the meters tell no speed, and an absurd one would carry into every set without hours
  const known = hours >= 100 && km >= 100;
  const speed = known ? km / hours : priors.typicalSpeedKmH;
  return {
    speedKmH: Math.min(Math.max(speed, priors.typicalSpeedKmH / 20), 5 * priors.typicalSpeedKmH),
    idleShare: hoursWithIdle > 0 ? idle / hoursWithIdle : 0,
    anyKnown: known,
  };
}

/**
 * The clocks a fleet's records can carry. Without any engine hours the hours clock would be the distance clock again, and the wear
 * clock counts distance; without clock covariates and hours only the distance clock is left.
 */
export function clocksFor(priors: FleetPriors, hours: HoursRule, clockCovariates: number): Clock[] {
  const engineHours = (part: Segment | EarlierUse) => part.engineHours ?? part.distanceKm / hours.speedKmH;
  const idleHours = (part: Segment | EarlierUse) =>
    Math.min(part.idleHours ?? hours.idleShare * engineHours(part), engineHours(part));
  const distance: Clock = {
    name: 'distance',
    unit: 'km',
    withCovariates: false,
    withIdleWeight: false,
    life: priors.lifeKm,
    shape: priors.shapeMeasuredClock,
    use: (part) => ({ full: part.distanceKm, idle: 0 }),
  };
  const byHours: Clock = {
    name: 'hours',
    unit: 'h',
    withCovariates: false,
    withIdleWeight: false,
    life: priors.lifeHours,
    shape: priors.shapeMeasuredClock,
    use: (part) => ({ full: engineHours(part), idle: 0 }),
  };
  const wear: Clock = hours.anyKnown
    ? {
        name: 'wear',
        unit: 'h',
        withCovariates: true,
        withIdleWeight: true,
        life: priors.lifeHours,
        shape: priors.shapeEstimatedClock,
        use: (part) => ({ full: engineHours(part) - idleHours(part), idle: idleHours(part) }),
      }
    : { ...distance, name: 'wear', withCovariates: true, shape: priors.shapeEstimatedClock };
  if (hours.anyKnown) return [wear, byHours, distance];
  return clockCovariates > 0 ? [wear, distance] : [distance];
}
