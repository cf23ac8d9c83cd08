/** The work a shop plan knows, in the words of service records and findings. */
export const shopJobs = [
  'oil_change',
  'screen_look',
  'cover_view',
  'sample',
  'timing_set',
  'phaser',
  'oil_control_solenoid',
  'check',
] as const;
export type ShopJob = (typeof shopJobs)[number];

/** What has to lie ready for a job. */
export interface JobPart {
  readonly item: string;
  /** in the measure beside it, above 0 */
  readonly quantity: number;
  /** l = litres */
  readonly measure: 'l' | 'pieces';
}

/** When a job falls due: the 10 %, 50 % and 90 % points of the due date, days since 1970-01-01. */
export interface DueWindow {
  readonly earliestDay: number;
  readonly medianDay: number;
  readonly latestDay: number;
}

/** One piece of work that one unit needs within the horizon or soon after. */
export interface DueJob {
  /** tells jobs apart; unique within a plan and stable between plans */
  readonly jobId: string;
  readonly unitNumber: string;
  readonly site: string;
  readonly job: ShopJob;
  /** labour, h, above 0, without the set-up of the visit */
  readonly hours: number;
  /** time in the bay, h, 0 or more; where it is shorter than the labour, the labour counts */
  readonly bayHours: number;
  /** skill the technician must have; null = anyone */
  readonly skill: string | null;
  readonly parts: readonly JobPart[];
  /** first day on which it may be done; null = any day */
  readonly notBeforeDay: number | null;
  readonly due: DueWindow;
  /** expected extra cost of failure and oil for each day past due, cents, 0 or more */
  readonly latenessCentsPerDay: number;
  /** life thrown away for each day ahead of due, cents, 0 or more */
  readonly earlinessCentsPerDay: number;
}
