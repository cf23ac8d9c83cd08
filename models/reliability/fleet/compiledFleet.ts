import { gaussHermite } from '../../numeric/gaussHermite.ts';
import type { Clock } from './clocks.ts';
import type { CovariateSpec } from './covariateSpec.ts';
import { failureWeight } from './episode.ts';
import type { Entry, Episode, Segment } from './episode.ts';

/** Covariates beyond this many units are held there: extreme states must not break the numbers. */
export const covariateLimit = 6;

/**
 * Episodes of one clock as flat arrays, ready for hot loops. Stretches with the same covariates are joined; runs are groups of
 * stretches with the same evidence. Use is in lifetimes (the prior's characteristic life is 1).
 */
export interface CompiledFleet {
  readonly episodeCount: number;
  readonly clockCount: number;
  readonly evidenceCount: number;
  readonly withIdleWeight: boolean;
  readonly family: Int32Array;
  /** chance of failure at the end */
  readonly failed: Float64Array;
  /** first stretch of episode e is segmentFrom[e], one past the last segmentFrom[e + 1]; same for runs and entry nodes */
  readonly segmentFrom: Int32Array;
  readonly runFrom: Int32Array;
  readonly nodeFrom: Int32Array;
  readonly full: Float64Array;
  readonly idle: Float64Array;
  /** row-major per stretch */
  readonly clock: Float64Array;
  /** one past the last stretch of a run */
  readonly runEnd: Int32Array;
  /** row-major per run */
  readonly evidence: Float64Array;
  /** runs known to be sound before a failure found at inspection; −1 where the end itself was seen */
  readonly soundRuns: Int32Array;
  /** per day use and clock covariates of the last stretch that ran, for the rate at failure */
  readonly lastFull: Float64Array;
  readonly lastIdle: Float64Array;
  readonly lastClock: Float64Array;
  readonly entryFull: Float64Array;
  readonly entryIdle: Float64Array;
  readonly entryClock: Float64Array;
  /** share of the earlier use behind the set, and log probability of the node */
  readonly nodeShare: Float64Array;
  readonly nodeLogWeight: Float64Array;
  readonly longestRunCount: number;
  /** per episode and asked-for break: how many runs lie before it */
  readonly breakStops: readonly (readonly number[])[];
}

/**
 * @param familyIndex number of a family; −1 is allowed for a family the fit has not seen
 * @param breaks per episode, ascending numbers of stretches after which a run must end (−1 for the very start)
 */
export function compileFleet(
  episodes: readonly Episode[],
  clock: Clock,
  covariates: readonly CovariateSpec[],
  familyIndex: (family: string) => number,
  breaks?: readonly (readonly number[])[],
): CompiledFleet {
  const clockColumns = clock.withCovariates ? columnsOf(covariates, 'clock') : [];
  const evidenceColumns = columnsOf(covariates, 'evidence');
  const unit = Math.exp(clock.life.mean);
  const pick = (from: readonly number[] | undefined, columns: readonly number[]) =>
    columns.map((k) => Math.min(Math.max(from?.[k] ?? 0, -covariateLimit), covariateLimit));
  const segmentFrom = [0];
  const runFrom = [0];
  const nodeFrom = [0];
  const lists = {
    full: [],
    idle: [],
    clock: [],
    runEnd: [],
    evidence: [],
    share: [],
    logWeight: [],
  } as Record<'full' | 'idle' | 'clock' | 'runEnd' | 'evidence' | 'share' | 'logWeight', number[]>;
  const last = { full: [], idle: [], clock: [] } as Record<'full' | 'idle' | 'clock', number[]>;
  const entry = { full: [], idle: [], clock: [] } as Record<'full' | 'idle' | 'clock', number[]>;
  const sound: number[] = [];
  const breakStops: number[][] = [];
  let longestRunCount = 0;
  episodes.forEach((episode, e) => {
    const asked = breaks?.[e] ?? [];
    const stops = asked.map(() => 0);
    breakStops.push(stops);
    const lastOk = episode.intervalFound?.lastOkSegment;
    sound.push(lastOk === undefined ? -1 : lastOk === -1 ? 0 : -2);
    let before: readonly number[] | null = null;
    let evidenceBefore: readonly number[] | null = null;
    episode.segments.forEach((segment, k) => {
      const use = clock.use(segment);
      const z = pick(segment.covariates, clockColumns);
      const e = pick(segment.covariates, evidenceColumns);
      const newRun =
        evidenceBefore === null || !same(e, evidenceBefore) || k - 1 === lastOk || asked.includes(k - 1);
      if (newRun) {
        if (evidenceBefore !== null) lists.runEnd.push(lists.full.length);
        lists.evidence.push(...e);
      }
      if (!newRun && before !== null && same(z, before)) {
        lists.full[lists.full.length - 1] += use.full / unit;
        lists.idle[lists.idle.length - 1] += use.idle / unit;
      } else {
        lists.full.push(use.full / unit);
        lists.idle.push(use.idle / unit);
        lists.clock.push(...z);
      }
      before = z;
      evidenceBefore = e;
      const runsSoFar = lists.runEnd.length + 1 - runFrom[runFrom.length - 1];
      if (k === lastOk) sound[sound.length - 1] = runsSoFar;
      if (asked.includes(k)) stops[asked.indexOf(k)] = runsSoFar;
    });
    if (evidenceBefore !== null) lists.runEnd.push(lists.full.length);
    longestRunCount = Math.max(longestRunCount, lists.runEnd.length - runFrom[runFrom.length - 1]);
    // a set that failed has run, whatever this meter says
    const first = segmentFrom[segmentFrom.length - 1];
    if (
      failureWeight(episode) > 0 &&
      lists.full.length > first &&
      !episode.segments.some((s) => runs(s, clock))
    )
      lists.full[first] += 1 / unit;
    // nothing ran between the last sound look and the end: then the end is when it failed
    if (lastOk !== undefined && !episode.segments.slice(lastOk + 1).some((segment) => runs(segment, clock)))
      sound[sound.length - 1] = -1;
    segmentFrom.push(lists.full.length);
    runFrom.push(lists.runEnd.length);
    const running = lastRunning(episode.segments, clock);
    const rate = running ? clock.use(running) : { full: unit, idle: 0 };
    const days = Math.max(running?.days ?? 1, 1);
    last.full.push(rate.full / unit / days);
    last.idle.push(rate.idle / unit / days);
    last.clock.push(...pick(running?.covariates, clockColumns));
    const earlier = episode.entry === 'new' ? { full: 0, idle: 0 } : clock.use(episode.entry);
    entry.full.push(earlier.full / unit);
    entry.idle.push(earlier.idle / unit);
    entry.clock.push(...pick(episode.entry === 'new' ? undefined : episode.entry.covariates, clockColumns));
    for (const [share, weight] of entryNodes(episode.entry)) {
      lists.share.push(share);
      lists.logWeight.push(Math.log(weight));
    }
    nodeFrom.push(lists.share.length);
  });
  return {
    episodeCount: episodes.length,
    clockCount: clockColumns.length,
    evidenceCount: evidenceColumns.length,
    withIdleWeight: clock.withIdleWeight,
    family: Int32Array.from(episodes, (episode) => familyIndex(episode.family)),
    failed: Float64Array.from(episodes, failureWeight),
    segmentFrom: Int32Array.from(segmentFrom),
    runFrom: Int32Array.from(runFrom),
    nodeFrom: Int32Array.from(nodeFrom),
    full: Float64Array.from(lists.full),
    idle: Float64Array.from(lists.idle),
    clock: Float64Array.from(lists.clock),
    runEnd: Int32Array.from(lists.runEnd),
    evidence: Float64Array.from(lists.evidence),
    soundRuns: Int32Array.from(sound),
    lastFull: Float64Array.from(last.full),
    lastIdle: Float64Array.from(last.idle),
    lastClock: Float64Array.from(last.clock),
    entryFull: Float64Array.from(entry.full),
    entryIdle: Float64Array.from(entry.idle),
    entryClock: Float64Array.from(entry.clock),
    nodeShare: Float64Array.from(lists.share),
    nodeLogWeight: Float64Array.from(lists.logWeight),
    longestRunCount,
    breakStops,
  };
}

function columnsOf(covariates: readonly CovariateSpec[], kind: CovariateSpec['kind']): number[] {
  return covariates.flatMap((spec, k) => (spec.kind === kind ? [k] : []));
}

function same(a: readonly number[], b: readonly number[]): boolean {
  return a.every((value, k) => value === b[k]);
}

/** The last stretch with use on this clock. */
function lastRunning(segments: readonly Segment[], clock: Clock): Segment | undefined {
  return segments.findLast((segment) => runs(segment, clock));
}

/** Less than this, in km or h, is no use. */
const leastUse = 1e-3;

function runs(segment: Segment, clock: Clock): boolean {
  const { full, idle } = clock.use(segment);
  return full + idle >= leastUse;
}

const errorRule = gaussHermite(3);
const renewalMoments = [1 / 6, 3 / 6, 5 / 6];

/** Shares of the earlier use that may lie behind a set, with their probabilities. */
function entryNodes(entry: Entry): [number, number][] {
  if (entry === 'new') return [[0, 1]];
  const original: [number, number][] =
    entry.logSd > 0
      ? Array.from(errorRule.nodes, (node, k) => [Math.exp(entry.logSd * node), errorRule.weights[k]])
      : [[1, 1]];
  if (entry.kind === 'used' || entry.probability === 0) return original;
  const renewed = renewalMoments.map((share): [number, number] => [
    share,
    entry.probability / renewalMoments.length,
  ]);
  if (entry.probability === 1) return renewed;
  return [
    ...original.map(([share, w]): [number, number] => [share, w * (1 - entry.probability)]),
    ...renewed,
  ];
}
