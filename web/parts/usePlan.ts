import type { PlanAnswer } from '../../models/schema/planEndpoints.ts';
import { useWork, type WorkReading } from './useWork.ts';

/** A plan with where its work stands, in words; words are empty while it is only read. */
export type PlanReading = Omit<WorkReading<PlanAnswer>, 'working'> & { readonly working: string | null };

/** The shop plan; worked out on the server the first time that it is asked for. */
export function usePlan(weeks: number, version: unknown): PlanReading {
  const work = useWork<'planWork'>('/api/plan/work', { weeks }, version);
  return { ...work, working: work.working === null ? null : wordsOf(work.working) };
}

/** The first step is the fleet, the others are the sites. */
function wordsOf({ done, total }: { done: number; total: number }): string {
  if (total === 0) return '';
  if (done === 0) return ': the fleet is worked through';
  return `: site ${Math.min(done, total - 1)} of ${total - 1}`;
}
