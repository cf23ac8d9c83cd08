/**
 * A stretch of an installed timing set's life with covariates taken as constant. Hours may be unknown (null); they are then
 * inferred from distance at the fleet's own speed.
 */
export interface Segment {
  readonly days: number;
  readonly distanceKm: number;
  readonly engineHours: number | null;
  readonly idleHours: number | null;
  /** in the order of the covariate table, centred: 0 is the usual */
  readonly covariates: readonly number[];
  /** whether the oil was past the book interval, for the rival that goes by it */
  readonly pastBook?: boolean;
}

/** What a set had run before the unit came under observation, known with an error of `logSd` on a log scale. */
export interface EarlierUse {
  readonly days: number;
  readonly distanceKm: number;
  readonly engineHours: number | null;
  readonly idleHours: number | null;
  readonly logSd: number;
  /** usual when left out */
  readonly covariates?: readonly number[];
}

/**
 * How a set came under observation: installed then (`new`), already run (`used`), or run but perhaps renewed at some unknown
 * moment of the earlier use (`maybe_renewed_before`, with the chance of that).
 */
export type Entry =
  | 'new'
  | ({ readonly kind: 'used' } & EarlierUse)
  | ({ readonly kind: 'maybe_renewed_before'; readonly probability: number } & EarlierUse);

export type EpisodeEnd = 'failed' | 'planned' | 'running' | 'disposed';

/** One installed timing set of one unit, from when it came under observation until it ended or until today. */
export interface Episode {
  readonly unitNumber: string;
  readonly family: string;
  /** in order of time; may be empty for a set just installed */
  readonly segments: readonly Segment[];
  readonly end: EpisodeEnd;
  /** chance that the end was a failure, where the records leave it open; otherwise 1 for `failed` and 0 for the rest */
  readonly failureChance?: number;
  readonly entry: Entry;
  /** days between the end and today; 0 for running sets */
  readonly endedDaysAgo?: number;
  /** the failure was found at an inspection: sound at the end of that segment, failed by the last */
  readonly intervalFound?: { readonly lastOkSegment: number };
}

/** Chance that an episode ended in a failure. */
export function failureWeight(episode: Episode): number {
  return episode.failureChance ?? (episode.end === 'failed' ? 1 : 0);
}

/** Days under observation. */
export function observedDays(episode: Episode): number {
  return episode.segments.reduce((sum, segment) => sum + segment.days, 0);
}

/** Throws a RangeError naming the unit and field when an episode can't be a life. */
export function checkEpisode(episode: Episode, covariateCount: number): void {
  const { unitNumber, segments, entry, intervalFound } = episode;
  const refuse = (field: string, requirement: string, value: unknown): never => {
    throw new RangeError(`unit ${unitNumber}: ${field} ${requirement}, got ${String(value)}`);
  };
  const amount = (field: string, value: number | null, optional: boolean) => {
    if (value === null ? !optional : !(value >= 0 && value < Infinity))
      refuse(field, 'must be 0 or above', value);
  };
  const use = (part: Segment | EarlierUse, where: string) => {
    amount(`${where} days`, part.days, false);
    amount(`${where} distanceKm`, part.distanceKm, false);
    amount(`${where} engineHours`, part.engineHours, true);
    amount(`${where} idleHours`, part.idleHours, true);
    const covariates = part.covariates ?? new Array<number>(covariateCount).fill(0);
    if (covariates.length !== covariateCount)
      refuse(`${where} covariates`, `must have ${covariateCount} values`, covariates.length);
    const wrong = covariates.find((value) => !Number.isFinite(value));
    if (wrong !== undefined) refuse(`${where} covariates`, 'must be finite', wrong);
  };
  segments.forEach((segment, k) => use(segment, `segment ${k}`));
  if (entry !== 'new') {
    use(entry, 'entry');
    amount('entry logSd', entry.logSd, false);
    if (entry.kind === 'maybe_renewed_before' && !(entry.probability >= 0 && entry.probability <= 1))
      refuse('entry probability', 'must lie from 0 to 1', entry.probability);
  }
  const weight = failureWeight(episode);
  if (!(weight >= 0 && weight <= 1)) refuse('failureChance', 'must lie from 0 to 1', weight);
  if (!(episode.endedDaysAgo === undefined || episode.endedDaysAgo >= 0))
    refuse('endedDaysAgo', 'must be 0 or above', episode.endedDaysAgo);
  const sound = intervalFound?.lastOkSegment;
  if (sound !== undefined && !(Number.isInteger(sound) && sound >= -1 && sound < segments.length - 1))
    refuse('intervalFound.lastOkSegment', `must be a segment before the last (-1 for none)`, sound);
}
