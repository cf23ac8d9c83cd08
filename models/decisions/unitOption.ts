import type { LookFindings } from './lookFindings.ts';
import type { Range } from './range.ts';

/** Something that can be done on a unit, with what it costs and what it saves over the judged months. */
export interface UnitOption {
  readonly action: 'renew' | 'look' | 'clean';
  /** what exactly, in words */
  readonly words: string;
  /** start of this month after the as-of day, 0 = now */
  readonly month: number;
  /** money to set aside, whole cents */
  readonly costCents: number;
  readonly hours: number;
  /** present value of failures avoided, the option's own cost not taken off, cents */
  readonly avoidedCents: Range;
  /** expected saving after the option's own cost and downtime, cents */
  readonly netCents: number;
  /** downtime of it, counted in the saving and not in the money to set aside, cents */
  readonly otherCents: number;
  /** what doing it a month later is expected to cost more, cents; below 0: waiting saves */
  readonly waitingMonthCents: Range;
  /** saving and cost of a month's wait by parameter draw, cents; draw d is the same draw for every unit of a fleet */
  readonly byDraw: { readonly saving: Float64Array; readonly waiting: Float64Array };
  /** renew: parts start anew; a number: what is left of the hazard afterwards */
  readonly effect: 'renew' | number;
  /** of a look: what may be found and what each finding leads to */
  readonly findings?: LookFindings;
}
