import type { Coefficients } from '../../schema/coefficient.ts';
import { windowRules, type SlotRules, type WindowRules } from './windowRules.ts';

/** How much a plan is worked on; more is nearer to the bound. */
export interface PlanEffort {
  /** steps for the prices of hours */
  readonly priceSteps: number;
  /** steps for the prices of visits, which raise the bound */
  readonly packingSteps: number;
  /** first and last of these, shares of what a visit pays for room */
  readonly firstStepShare: number;
  readonly lastStepShare: number;
  /** steps between two rounds of settling a first plan */
  readonly diveSteps: number;
  /** first plans that are made, the cheapest of which is kept */
  readonly dives: number;
  /** rounds of search for each group of jobs that may meet in a visit, over all tries */
  readonly roundsPerGroup: number;
  /** least and most rounds of search at a site */
  readonly leastRounds: number;
  readonly mostRounds: number;
  /** times that some visits of a few days are taken out, put back and change places with others */
  readonly kicks: number;
  /** steps of the simplex method for windows of days solved as a whole, for a site's plan and again for its bound; 0 = none is */
  readonly windowSteps: number;
}

/** Who asks for room in a round of search. */
export interface RoomRules {
  /** of so many groups the one that is farthest above its least cost */
  readonly groups: number;
  /** on so many better days, cheapest first */
  readonly days: number;
}

/** How a plan is kicked. */
export interface KickRules {
  /** within so many days */
  readonly days: number;
  /** most groups that are taken out */
  readonly mostGroups: number;
  /** share of the places for a visit that are passed over when it is put back */
  readonly skipShare: number;
  /** most exchanges of slots that are worked out after it, and which are left out */
  readonly slots: Pick<SlotRules, 'tries' | 'leastGainCents'>;
}

/** How plans are searched; each value stands in the catalog. */
export interface SearchRules {
  readonly first: PlanEffort;
  readonly many: PlanEffort;
  readonly again: PlanEffort;
  /** a first plan of more jobs is one of many, which takes fewer steps in the same ratio, down to `leastShare` of them */
  readonly fullJobs: number;
  readonly leastShare: number;
  /** sites up to which each gets all steps of its windows; more get fewer in the same ratio */
  readonly fullSites: number;
  /** a first plan's try settles by so many steps more than the one before */
  readonly moreDiveSteps: number;
  /**
   * A site with less work in a step of the prices takes more of them for a first plan, up to `mostSteps` times as many, and by
   * the root of that more tries.
   */
  readonly fullWork: number;
  readonly mostSteps: number;
  /** where a visit pays more than this for room, work waits for weeks, cents */
  readonly crowdedCents: number;
  /** first step of the prices where few are taken and between rounds of settling, share of what a visit pays for room */
  readonly stepShare: number;
  /** share of the newest imbalance in the direction of the prices */
  readonly smoothing: number;
  /** a visit that lies on a day in this share of the packings is settled there */
  readonly settledShare: number;
  /** least share of the open groups that is settled in a round */
  readonly settledLeast: number;
  /** a round of search that costs this much more is kept about every third time at first, cents */
  readonly heatCents: number;
  readonly room: RoomRules;
  readonly kick: KickRules;
  readonly windows: WindowRules;
}

/**
 * Takes the search's values from the catalog.
 * @param coefficients `shop.search_*`: steps, plans, rounds, jobs, cents, and shares 0..1
 * @throws RangeError when one is missing or below 0
 */
export function searchRules(coefficients: Coefficients): SearchRules {
  const value = (name: string): number => {
    const found = coefficients[`shop.search_${name}`];
    if (!(found >= 0)) throw new RangeError(`shop.search_${name} must be 0 or more, got ${found}`);
    return found;
  };
  // from there the prices settle in few steps
  const quick = { firstStepShare: value('step_share'), lastStepShare: value('step_share') / 150 };
  return {
    first: {
      priceSteps: value('hour_steps'),
      packingSteps: value('visit_steps'),
      firstStepShare: value('first_step_share'),
      lastStepShare: value('last_step_share'),
      diveSteps: value('settle_steps'),
      dives: value('tries'),
      roundsPerGroup: value('rounds_per_group'),
      leastRounds: value('least_rounds'),
      mostRounds: value('most_rounds'),
      kicks: value('kicks'),
      windowSteps: value('window_steps'),
    },
    many: {
      // quick, and where work waits for weeks the bound rests on them
      priceSteps: value('hour_steps'),
      packingSteps: value('many_visit_steps'),
      ...quick,
      // each round of settling leaves less to pack, so these cost little
      diveSteps: value('many_settle_steps'),
      dives: 1,
      roundsPerGroup: value('many_rounds_per_group'),
      leastRounds: 0,
      mostRounds: value('most_rounds'),
      kicks: value('many_kicks'),
      // the time is spent on the search
      windowSteps: 0,
    },
    again: {
      priceSteps: value('again_hour_steps'),
      packingSteps: value('again_visit_steps'),
      ...quick,
      diveSteps: 0,
      dives: 1,
      roundsPerGroup: value('again_rounds_per_group'),
      leastRounds: 0,
      mostRounds: value('again_most_rounds'),
      kicks: 0,
      windowSteps: 0,
    },
    fullJobs: value('full_jobs'),
    leastShare: value('least_share'),
    fullSites: value('full_sites'),
    moreDiveSteps: value('settle_more_steps'),
    fullWork: value('full_work'),
    mostSteps: value('most_steps'),
    crowdedCents: value('crowded_cents'),
    stepShare: value('step_share'),
    smoothing: value('smoothing'),
    settledShare: value('settled_share'),
    settledLeast: value('settled_least'),
    heatCents: value('heat_cents'),
    room: { groups: value('room_groups'), days: value('room_days') },
    kick: {
      days: value('kick_days'),
      mostGroups: value('kick_groups'),
      skipShare: value('kick_skip_share'),
      slots: { tries: value('kick_slot_tries'), leastGainCents: value('kick_slot_gain_cents') },
    },
    windows: windowRules(value),
  };
}

/**
 * Effort of a first plan: all of it up to `fullJobs`, then that of many jobs, in the ratio of the jobs.
 * @param jobCount due jobs of all sites, 0 or more
 * @param siteCount sites, which share the time for windows
 * @returns whole steps. Example: 5000 jobs in full, least 0.4: 10 000 jobs take half of the steps of many, 100 000 take 0.4
 */
export function firstEffort(
  { first, many, fullJobs, leastShare, fullSites }: SearchRules,
  jobCount: number,
  siteCount = 1,
): PlanEffort {
  if (jobCount <= fullJobs) {
    const windowSteps = Math.ceil(first.windowSteps * Math.min(1, fullSites / Math.max(1, siteCount)));
    return { ...first, windowSteps };
  }
  const share = Math.max(leastShare, fullJobs / jobCount);
  return {
    ...many,
    packingSteps: Math.ceil(share * many.packingSteps),
    roundsPerGroup: Math.ceil(share * many.roundsPerGroup),
  };
}
