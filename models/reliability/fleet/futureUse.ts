import type { CovariateSpec } from './covariateSpec.ts';
import type { Episode, Segment } from './episode.ts';

/** Mean use per day of comparable units, e.g. of an engine family. */
export interface DailyUse {
  readonly distanceKm: number;
  readonly engineHours: number | null;
  readonly idleHours: number | null;
}

export interface FutureUse {
  readonly future: readonly Segment[];
  readonly useLogSd: number;
}

const lookBackDays = 365;
/** Days of own record that weigh as much as the family's mean. */
const familyWeightDays = 60;

/** Use per day over the last stretches of running sets, about a year each. */
export function dailyUseOf(episodes: readonly Episode[]): DailyUse {
  let days = 0;
  let km = 0;
  let hours = 0;
  let idle = 0;
  let daysWithHours = 0;
  let daysWithIdle = 0;
  for (const episode of episodes)
    for (const segment of lastYear(episode)) {
      days += segment.days;
      km += segment.distanceKm;
      if (segment.engineHours !== null) {
        hours += segment.engineHours;
        daysWithHours += segment.days;
      }
      if (segment.idleHours !== null) {
        idle += segment.idleHours;
        daysWithIdle += segment.days;
      }
    }
  return {
    distanceKm: days > 0 ? km / days : 0,
    engineHours: daysWithHours > 0 ? hours / daysWithHours : null,
    idleHours: daysWithIdle > 0 ? idle / daysWithIdle : null,
  };
}

/**
 * Use ahead of a unit: its own last twelve months pulled to the family's mean by how long its record is; covariates of the clock as they were on
 * average over that year, evidence as it stands now.
 * @param horizonDays up to the horizon or the day the unit is known to leave
 * @returns one stretch, and the error of its use on a log scale: √(0.2² + 0.5² × the family's part)
 */
export function futureUse(
  episode: Episode,
  family: DailyUse,
  horizonDays: number,
  covariates: readonly CovariateSpec[],
): FutureUse {
  const recent = lastYear(episode);
  const days = recent.reduce((sum, segment) => sum + segment.days, 0);
  const own = dailyUseOf([{ ...episode, end: 'running' }]);
  const familyPart = familyWeightDays / (days + familyWeightDays);
  const blend = (mine: number | null, theirs: number | null) =>
    mine === null ? theirs : theirs === null ? mine : (1 - familyPart) * mine + familyPart * theirs;
  const ahead = (perDay: number | null) => (perDay === null ? null : perDay * horizonDays);
  const engineHours = ahead(blend(own.engineHours, family.engineHours));
  const idleHours = ahead(blend(own.idleHours, family.idleHours));
  const standing = covariates.map(({ kind }, k) =>
    kind === 'evidence' || days === 0
      ? (episode.segments.at(-1)?.covariates[k] ?? 0)
      : recent.reduce((sum, segment) => sum + segment.days * segment.covariates[k], 0) / days,
  );
  return {
    future:
      horizonDays > 0
        ? [
            {
              days: horizonDays,
              distanceKm: ahead(blend(own.distanceKm, family.distanceKm)) ?? 0,
              engineHours,
              idleHours: idleHours === null || engineHours === null ? null : Math.min(idleHours, engineHours),
              covariates: standing,
            },
          ]
        : [],
    useLogSd: Math.sqrt(0.2 ** 2 + 0.5 ** 2 * familyPart),
  };
}

function lastYear({ segments }: Episode): readonly Segment[] {
  let back = 0;
  let from = segments.length;
  while (from > 0 && back < lookBackDays) back += segments[--from].days;
  return segments.slice(from);
}
