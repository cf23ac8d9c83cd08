/** One value of a meter that only counts up. */
export interface MeterPoint {
  readonly day: number;
  readonly value: number;
  /** how much it counts when points contradict each other */
  readonly weight: number;
}

export interface MeterRule {
  /** most that the meter can gain in a day */
  readonly perDay: number;
  /** rounding of two sources of the same meter */
  readonly tolerance: number;
}

/** True when `later` can follow `earlier`: not lower, and not further than the days between allow. */
export function canFollow(earlier: MeterPoint, later: MeterPoint, rule: MeterRule): boolean {
  const gain = later.value - earlier.value;
  return gain >= -rule.tolerance && gain <= rule.perDay * (later.day - earlier.day + 1) + rule.tolerance;
}

/** Beyond so many points only so many before each are tried as its forerunner; the time stays bounded. */
const fullSearch = 1500;

/**
 * The heaviest run of points of which each can follow the one before: what is left out are the fewest points that
 * explain all contradictions. A dynamic program over points in order of day, then value.
 * @param points sorted by day, then value
 * @returns for each point whether it is kept
 */
export function consistentRun(points: readonly MeterPoint[], rule: MeterRule): boolean[] {
  const kept = points.map(() => true);
  let allFollow = true;
  for (let at = 1; at < points.length && allFollow; at += 1) {
    const earlier = points[at - 1];
    const later = points[at];
    if (earlier !== undefined && later !== undefined && !canFollow(earlier, later, rule)) allFollow = false;
  }
  if (allFollow) return kept;
  const best = new Float64Array(points.length);
  const from = new Int32Array(points.length).fill(-1);
  let end = 0;
  for (let at = 0; at < points.length; at += 1) {
    const later = points[at];
    if (later === undefined) continue;
    const first = points.length > fullSearch ? Math.max(0, at - fullSearch / 2) : 0;
    for (let back = first; back < at; back += 1) {
      const earlier = points[back];
      if (earlier !== undefined && (best[back] ?? 0) > (best[at] ?? 0) && canFollow(earlier, later, rule)) {
        best[at] = best[back] ?? 0;
        from[at] = back;
      }
    }
    best[at] = (best[at] ?? 0) + later.weight;
    if ((best[at] ?? 0) > (best[end] ?? 0) + 1e-9) end = at;
  }
  kept.fill(false);
  for (let at = end; at >= 0; at = from[at] ?? -1) kept[at] = true;
  return kept;
}

/** Typical gain per day between points at least a week apart; null with fewer than four. */
export function typicalGain(points: readonly MeterPoint[]): number | null {
  const gains: number[] = [];
  let last: MeterPoint | undefined;
  for (const point of points) {
    if (last !== undefined && point.day - last.day < 7) continue;
    if (last !== undefined) gains.push((point.value - last.value) / (point.day - last.day));
    last = point;
  }
  if (gains.length < 4) return null;
  gains.sort((a, b) => a - b);
  return gains[Math.floor(gains.length / 2)] ?? null;
}
