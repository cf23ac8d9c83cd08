import { markAmounts, type MarkedText } from './workAmounts.ts';
import { dropBeltTensioners } from './workBelts.ts';
import { segmentsOf } from './workClauses.ts';
import { dropCompounds } from './workCompounds.ts';
import { settleDrive } from './workDrive.ts';
import { settleFills } from './workFills.ts';
import { jobsOf } from './workJobs.ts';
import { dropLeftFilter } from './workLeft.ts';
import { settleMeant } from './workMeant.ts';
import type { Segment } from './workSegment.ts';
import { partsOfWork, type Part } from './workSigns.ts';
import type { Job } from './workThings.ts';
import { dropLackingFilter, dropLackingOil, dropUndone } from './workUndone.ts';
import { dropPlainWheels } from './workWheels.ts';
import { foldWork, type WorkWords } from './workWords.ts';

/** A work text taken apart: what both readers of it look at. */
export interface WorkTrace {
  readonly marked: MarkedText;
  readonly parts: readonly Part[];
  readonly segments: readonly Segment[];
  readonly jobs: readonly Job[];
}

/** Takes a work text apart into signs, clauses and the jobs that the rules find in them. */
export function traceWork(text: string, words: WorkWords): WorkTrace {
  const marked = markAmounts(foldWork(text));
  const parts = settleMeant(settleDrive(partsOfWork(marked.text, words)));
  const segments = segmentsOf(parts);
  settleFills(segments, marked.amounts);
  dropCompounds(parts, segments);
  dropBeltTensioners(parts, segments);
  dropPlainWheels(segments);
  dropUndone(parts, segments);
  dropLeftFilter(parts, segments);
  dropLackingFilter(parts, segments);
  dropLackingOil(parts, segments);
  return { marked, parts, segments, jobs: jobsOf(segments, marked.amounts) };
}
