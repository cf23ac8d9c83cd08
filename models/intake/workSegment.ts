import type { WorkKind } from '../schema/service.ts';
import type { Part } from './workSigns.ts';

/** A stretch of a work text between joining words: what it names and what was done to it. */
export interface Segment {
  readonly parts: readonly Part[];
  /** a comma or the like stands before it, not just "and" */
  readonly opensClause: boolean;
  readonly entries: Entry[];
  readonly actions: { readonly action: string; readonly at: number; readonly text: string }[];
  /** it names something that is none of ours */
  readonly hasForeign: boolean;
}

/** A job or thing that is named. */
export interface Entry {
  readonly part: Part;
  /** position in the whole text */
  readonly at: number;
  /** a word beside it says that nothing was done, or makes it another thing */
  dropped: 'undone' | 'foreign' | 'fine' | null;
  /** 0..1, lowered by words beside it that are not understood */
  sure: number;
  /** what was done to it, where only its place says so: "oil change with filter" */
  given: string | null;
  /** the job is named as a whole, but this part of it is said not to have been done: "LOF without filter" */
  lacks: WorkKind | null;
}
