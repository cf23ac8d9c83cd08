import type { ShopJob } from './dueJob.ts';

/** Days from–to, both included, days since 1970-01-01. */
export interface DaySpan {
  readonly fromDay: number;
  readonly toDay: number;
}

/** Monday to Sunday: true where it holds. */
export type Weekdays = readonly [boolean, boolean, boolean, boolean, boolean, boolean, boolean];

/** A place with bays, as the plan sees it. */
export interface ShopSite {
  readonly site: string;
  /** names of the bays; none = no work can be done here */
  readonly bays: readonly string[];
  /** local wall time, minutes after midnight, 0..1440 */
  readonly opensAtMinute: number;
  readonly closesAtMinute: number;
  readonly weekdays: Weekdays;
  /** days on which it stays shut, days since 1970-01-01 */
  readonly holidays: readonly number[];
  /** name of the time zone, handed to the zone offset function as it stands */
  readonly timeZone: string;
  /** own labour, cents/h, 0 or more */
  readonly labourCentsPerHour: number;
}

/** A person who works in the bays of one site. */
export interface ShopTechnician {
  readonly technician: string;
  readonly site: string;
  readonly skills: readonly string[];
  /** h, 0 or more */
  readonly hoursPerDay: number;
  readonly away: readonly DaySpan[];
}

/** What the plan must know of a unit beside its jobs. */
export interface ShopUnit {
  readonly unitNumber: string;
  /** what a day without it costs, cents, 0 or more */
  readonly downtimeCentsPerDay: number;
  /** days on which it can't be spared */
  readonly blackouts: readonly DaySpan[];
  /** weekdays on which it can't be spared; null = none */
  readonly blackoutWeekdays: Weekdays | null;
}

/** Somebody else's shop, or a service that comes to the yard: a price, a turnaround, no bay of one's own. */
export interface OutsideShop {
  readonly name: string;
  /** comes to the unit: no turnaround, a day's downtime steps as in the own bay */
  readonly mobile: boolean;
  /** sites whose units it takes; null = all */
  readonly sites: readonly string[] | null;
  /** whole price with parts, cents; a job that is missing is not done there */
  readonly priceCents: Readonly<Partial<Record<ShopJob, number>>>;
  /** days until the unit is back, 0 = the same day */
  readonly turnaroundDays: number;
  /** notice it needs, days from the start of the plan */
  readonly leadDays: number;
  readonly weekdays: Weekdays;
}

/** An item on the shelf. */
export interface ShopStock {
  readonly item: string;
  /** null = one shelf for all sites */
  readonly site: string | null;
  /** 0 or more */
  readonly onHand: number;
  /** days from order to shelf; null = not known, so nothing beyond the shelf can be counted on */
  readonly leadTimeDays: number | null;
}
