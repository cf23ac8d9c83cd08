import { orderItems } from '../cards/cardItems.ts';
import { jobWords } from '../cards/jobCard.ts';
import { coefficientValue } from '../decisions/coefficientValue.ts';
import type { DueJob } from '../decisions/shop/shopInputs.ts';
import { dayFromIso } from '../schema/day.ts';
import type { Engine } from '../schema/engine.ts';
import type { Visit } from '../schema/visit.ts';
import type { DueSetting } from './dueWorkSetting.ts';
import { jobHours } from './jobHours.ts';

/** What of a visit says which work it is for. */
export type OpenVisit = Pick<Visit, 'id' | 'unitNumber' | 'jobs' | 'state' | 'on' | 'askedBecause'>;

/**
 * Work that people asked for and no estimate does: every job of a visit that is still open and that is not among the
 * unit's due jobs already. It is due on the day asked for, at once where that has passed.
 * @param due the fleet's due jobs; each stands for one job of one visit
 * @param engineOf engine family of a unit; null = not described
 * @param known whether the plan knows a unit
 * @returns jobs of visits that are not done and lie before the end of the plan. Source: common practice, no source.
 */
export function dueAsked(
  visits: readonly OpenVisit[],
  due: readonly DueJob[],
  engineOf: (unitNumber: string) => Engine | null,
  known: (unitNumber: string) => boolean,
  { asOfDay, endDay, oilServiceHours, coefficients }: DueSetting,
): DueJob[] {
  const taken = new Set<string>();
  const jobs: DueJob[] = [];
  for (const { id, unitNumber, jobs: wanted, state, on, askedBecause } of visits) {
    if (state === 'done' || !known(unitNumber) || dayFromIso(on) > endDay) continue;
    for (const job of wanted) {
      const own = due.find(
        (entry) => entry.unitNumber === unitNumber && entry.job === job && !taken.has(entry.jobId),
      );
      if (own !== undefined) {
        taken.add(own.jobId);
        continue;
      }
      const engine = engineOf(unitNumber);
      const day = Math.max(asOfDay, dayFromIso(on));
      jobs.push({
        jobId: `${unitNumber}/${job}/asked-${id}`,
        unitNumber,
        job,
        words: askedBecause === null ? `${jobWords[job]}, asked for` : `${jobWords[job]}: ${askedBecause}`,
        hours: jobHours(job, engine, oilServiceHours, coefficients),
        skill: job === 'timing_set' || job === 'phaser' ? 'timing' : null,
        items: orderItems(engine, job),
        notBeforeDay: null,
        earliestDay: day,
        medianDay: day,
        latestDay: day,
        latenessCentsPerDay: Math.round(coefficientValue(coefficients, 'shop.overdue_least_cents')),
        earlinessCentsPerDay: 0,
      });
    }
  }
  return jobs;
}
