/** What bundling needs to know of a job: its kind, and the days within reach of its due range. */
export interface BundleJob {
  readonly kind: string;
  readonly fromDay: number;
  readonly toDay: number;
  readonly medianDay: number;
}

/** Jobs of one unit that may meet in a visit, directly or through others, and the visits they allow. */
export interface BundleGroup {
  /** positions in the list that was handed in */
  readonly jobs: readonly number[];
  /** each way to make one visit, as bits over `jobs` */
  readonly masks: readonly number[];
}

const largestGroup = 8;

/**
 * Groups a unit's jobs and lists the visits that each group allows: jobs share a visit when their reaches have a day in
 * common, no kind stands twice, and there are no more than `mostJobs`. A chain of more than eight jobs is cut in order
 * of due date, so that the number of ways stays small.
 * @param jobs of one unit
 * @param mostJobs in one visit, 1 or more
 * @returns groups in order of due date. Example: an oil change and a screen look in the same week give one group with the
 * masks 1, 2 and 3.
 */
export function bundleGroups(jobs: readonly BundleJob[], mostJobs: number): readonly BundleGroup[] {
  const order = jobs.map((_, i) => i).sort((a, b) => jobs[a].medianDay - jobs[b].medianDay || a - b);
  const place = new Map(order.map((job, i) => [job, i]));
  const groups: number[][] = [];
  for (const job of order) {
    const met = groups.filter((group) => group.some((other) => mayMeet(jobs[job], jobs[other])));
    const merged = [...met.flat(), job];
    for (const group of met) groups.splice(groups.indexOf(group), 1);
    groups.push(merged);
  }
  const cut = groups.flatMap((group) => {
    const sorted = [...group].sort((a, b) => (place.get(a) ?? 0) - (place.get(b) ?? 0));
    const pieces: number[][] = [];
    for (let i = 0; i < sorted.length; i += largestGroup) pieces.push(sorted.slice(i, i + largestGroup));
    return pieces;
  });
  return cut.map((group) => ({ jobs: group, masks: visitMasks(jobs, group, mostJobs) }));
}

function mayMeet(a: BundleJob, b: BundleJob): boolean {
  return a.kind !== b.kind && a.fromDay <= b.toDay && b.fromDay <= a.toDay;
}

function visitMasks(jobs: readonly BundleJob[], group: readonly number[], mostJobs: number): number[] {
  const masks: number[] = [];
  for (let mask = 1; mask < 1 << group.length; mask++) {
    const chosen = group.filter((_, bit) => (mask >> bit) & 1).map((i) => jobs[i]);
    if (chosen.length > mostJobs) continue;
    if (new Set(chosen.map((job) => job.kind)).size < chosen.length) continue;
    const from = Math.max(...chosen.map((job) => job.fromDay));
    const to = Math.min(...chosen.map((job) => job.toDay));
    if (chosen.length === 1 || from <= to) masks.push(mask);
  }
  return masks;
}
