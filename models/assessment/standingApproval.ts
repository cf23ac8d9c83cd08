import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso } from '../schema/day.ts';
import type { IntervalApproval } from '../schema/sampleView.ts';
import type { JudgedSample } from './judgeSample.ts';
import { measurandWords } from './measurandWords.ts';

/** Why a sample is not in order, or null; the fleet's caution level alone is one sample in ten and no reason. */
export function notInOrder({ values, warnings, notes }: JudgedSample): string | null {
  if (warnings.length > 0) return warnings[0].words;
  for (const { absolute, fleet, measurand } of values) {
    if (absolute !== null && absolute.level !== 'normal') return absolute.words;
    if (fleet !== null && (fleet.level === 'alert' || fleet.level === 'condemn'))
      return `${measurandWords[measurand].label} is unusual among like samples`;
  }
  return notes[0] ?? null;
}

/** The approval that holds on a day, or why the newest one does not. */
export interface StandingApproval {
  readonly approval: IntervalApproval | null;
  readonly blocked: string | null;
}

/**
 * The newest approval that was not withdrawn. It lapses with time, and a contradiction of the meters, a stop, or a
 * sample since that is not in order ends it at once.
 */
export function standingApproval(
  approvals: readonly IntervalApproval[],
  unit: {
    readonly metersDisagree: boolean;
    readonly stops: readonly string[];
    readonly samples: readonly JudgedSample[];
  },
  asOfDay: number,
  c: Coefficients,
): StandingApproval {
  const newest = approvals
    .filter(
      ({ approvedOn, withdrawnOn }) =>
        dayFromIso(approvedOn) <= asOfDay && (withdrawnOn === null || dayFromIso(withdrawnOn) > asOfDay),
    )
    .reduce<IntervalApproval | null>(
      (last, next) => (last === null || next.id > last.id ? next : last),
      null,
    );
  if (newest === null) return { approval: null, blocked: null };
  const given = `the ${newest.intervalKm} km approved by ${newest.approvedBy} on ${newest.approvedOn} do not hold: `;
  const blocked = (why: string): StandingApproval => ({ approval: null, blocked: given + why });
  if (unit.metersDisagree) return blocked('odometer and engine hours disagree');
  if (unit.stops.length > 0) return blocked('direct evidence calls for a stop');
  if (asOfDay - dayFromIso(newest.approvedOn) > c['approval.valid_days'])
    return blocked(`the approval is older than ${c['approval.valid_days']} days`);
  for (const judged of unit.samples) {
    const { sampledOn, reportedOn } = judged.sample;
    if ((reportedOn ?? sampledOn) < newest.approvedOn) continue;
    const reason = notInOrder(judged);
    if (reason !== null) return blocked(`sample of ${sampledOn}: ${reason}`);
  }
  return { approval: newest, blocked: null };
}
