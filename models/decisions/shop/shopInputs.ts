import type { PlanItem, ShopJob } from '../../schema/shopPlan.ts';
import type { ShopRules } from './shopRules.ts';

/** Days from–to, both included, days since 1970-01-01. */
export interface DaySpan {
  readonly fromDay: number;
  readonly toDay: number;
}

/** Monday to Sunday: true where it holds. */
export type Weekdays = readonly boolean[];

/** One piece of work that one unit needs within the plan. */
export interface DueJob {
  /** unique, and the same in every plan for the same piece of work */
  readonly jobId: string;
  readonly unitNumber: string;
  readonly job: ShopJob;
  readonly words: string;
  /** in the bay, without the set-up of the visit, h, above 0 */
  readonly hours: number;
  /** what the technician must be able to do; null = anyone */
  readonly skill: string | null;
  readonly items: readonly PlanItem[];
  /** first day on which it may be done; null = any day */
  readonly notBeforeDay: number | null;
  /** 10 %, 50 % and 90 % points of the due date, days since 1970-01-01 */
  readonly earliestDay: number;
  readonly medianDay: number;
  readonly latestDay: number;
  /** expected extra cost of each day past due, cents, 0 or more */
  readonly latenessCentsPerDay: number;
  /** life thrown away by each day ahead of due, cents, 0 or more */
  readonly earlinessCentsPerDay: number;
}

/** What the plan must know of a unit beside its jobs. */
export interface ShopUnit {
  readonly unitNumber: string;
  readonly site: string;
  /** what a day without it costs, cents, 0 or more */
  readonly downtimeCentsPerDay: number;
  /** days on which it can't be spared */
  readonly blackouts: readonly DaySpan[];
  /** weekdays on which it can't be spared */
  readonly blackoutWeekdays: Weekdays;
}

/** A place with bays. */
export interface ShopSite {
  readonly site: string;
  readonly bays: readonly string[];
  /** local minutes after midnight */
  readonly opensAtMinute: number;
  readonly closesAtMinute: number;
  readonly weekdays: Weekdays;
  /** days on which it stays shut, days since 1970-01-01 */
  readonly holidays: readonly number[];
  /** name of the time zone, handed to {@link ShopInputs.offsetMinutes} as it stands */
  readonly timeZone: string;
}

/** A person who works in the bays of one site. */
export interface ShopTechnician {
  readonly technician: string;
  readonly site: string;
  /** null = can do everything */
  readonly skills: readonly string[] | null;
  readonly hoursPerDay: number;
  readonly away: readonly DaySpan[];
}

/** An outside shop, or a mobile service: takes no bay and no technician of one's own, brings its own parts. */
export interface OutsideShop {
  readonly name: string;
  readonly mobile: boolean;
  /** sites it serves; null = all */
  readonly sites: readonly string[] | null;
  /** price by job, cents; a job that is missing is not offered */
  readonly priceCents: Readonly<Partial<Record<ShopJob, number>>>;
  /** whole days away beside the first, 0 or more */
  readonly turnaroundDays: number;
  readonly weekdays: Weekdays;
}

/** What lies on the shelf of a site. */
export interface ShelfItem {
  readonly item: string;
  readonly site: string;
  readonly onHand: number;
  /** from ordering to the shelf, d; null = it can not be had */
  readonly leadTimeDays: number | null;
}

/** Where a job has its place in an earlier plan or by agreement. */
export interface FormerPlace {
  readonly visitId: string;
  readonly jobIds: readonly string[];
  readonly unitNumber: string;
  readonly site: string;
  readonly day: number;
  readonly lastDay: number;
  readonly bay: string | null;
  readonly technician: string | null;
  readonly outsideShop: string | null;
  /** local minutes after midnight of the first and of the last day */
  readonly startMinute: number;
  readonly endMinute: number;
}

/** Everything that a plan rests on. */
export interface ShopInputs {
  readonly asOfDay: number;
  /** first day of the plan */
  readonly fromDay: number;
  readonly weeks: number;
  readonly sites: readonly ShopSite[];
  readonly technicians: readonly ShopTechnician[];
  readonly units: readonly ShopUnit[];
  readonly jobs: readonly DueJob[];
  readonly outside: readonly OutsideShop[];
  readonly shelf: readonly ShelfItem[];
  /** visits that stay where they are */
  readonly locked: readonly FormerPlace[];
  readonly rules: ShopRules;
  /** what the inputs rest on, in words */
  readonly messages: readonly string[];
  /** offset of a zone's wall clock from UTC at a local day and minute, min */
  readonly offsetMinutes: (timeZone: string, day: number, minute: number) => number;
}
