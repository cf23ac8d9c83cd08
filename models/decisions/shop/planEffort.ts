import type { Coefficients } from '../../schema/coefficient.ts';

/** How much a plan is worked on; more is nearer to the bound. */
export interface PlanEffort {
  /** steps for the prices of hours */
  readonly priceSteps: number;
  /** steps for the prices of visits, which raise the bound */
  readonly packingSteps: number;
  /** steps between two rounds of settling a first plan */
  readonly diveSteps: number;
  /** first plans that are made, the cheapest of which is kept */
  readonly dives: number;
  /** rounds of search for each group of jobs that may meet in a visit, over all tries */
  readonly roundsPerGroup: number;
  /** most rounds of search at a site */
  readonly mostRounds: number;
  /** steps of the simplex method for windows of days solved as a whole, for a site's plan and again for its bound; 0 = none is */
  readonly windowSteps: number;
}

/** How stretches of days are solved as a whole. */
export interface WindowRules {
  /** most nodes of a window's tree */
  readonly nodes: number;
  /** where the room of a lane's day is worth more than this on average it is dear: stretches are shorter there, cents */
  readonly mostLaneCents: number;
  /** a gap of this share of what capacity adds is near enough */
  readonly gapShare: number;
  readonly polish: PolishRules;
  readonly bound: BoundRules;
  readonly cut: CutRules;
  readonly roll: RollRules;
}

/** How a plan is polished stretch by stretch. */
export interface PolishRules {
  /** most places in a stretch whose lanes are filled by patterns, and in one whose lanes are counted in cells */
  readonly mostPlaces: number;
  readonly cellPlaces: number;
  /** of regret below this share of the gap; patterns of lanes that lose more than that are left out too */
  readonly share: number;
  /** share of a stretch's days after which the next begins */
  readonly keptShare: number;
  /** most patterns of a lane */
  readonly mostPatterns: number;
  /** most steps of the simplex method for a stretch */
  readonly windowSteps: number;
  /** steps for all stretches of a site, as a multiple of those for a plan's windows */
  readonly times: number;
  /** a stretch this near to its bound is good enough, cents */
  readonly gapCents: number;
}

/** How the bound is raised window by window. */
export interface BoundRules {
  /** most places of visits in a window */
  readonly mostPlaces: number;
  /** where room is dear and a day has one lane; fewer by the square of the lanes where it has more */
  readonly dearPlaces: number;
  /** a lane of more patterns is counted in cells alone */
  readonly mostPatterns: number;
  /** a window of more visits and patterns is not solved */
  readonly mostColumns: number;
  /** steps of the simplex method for all windows of a site, as a multiple of those for a plan's windows */
  readonly times: number;
}

/** Where days are cut into windows. */
export interface CutRules {
  /** a cut costs something even where room is worth nothing: visits may want to both sides, cents */
  readonly cents: number;
  /** of what the room on both sides is worth */
  readonly roomShare: number;
  /** places count more on days whose room is worth more than this for each lane, since the programmes are harder, cents */
  readonly scarceCents: number;
  readonly scarceWeight: number;
}

/** Who asks for room in a round of search. */
export interface RoomRules {
  /** of so many groups the one that is farthest above its least cost */
  readonly groups: number;
  /** on so many better days, cheapest first */
  readonly days: number;
}

/** How a plan is made anew from its first day on, where room is too dear for windows alone. */
export interface RollRules {
  /** only at sites with at most so many lanes a day, on average */
  readonly mostLanes: number;
  /** and where the room of a lane's day is worth at most this on average, cents */
  readonly mostLaneCents: number;
  /** most places in a window */
  readonly mostPlaces: number;
  /** of regret below this share of the gap */
  readonly regretShare: number;
  /** share of a window's days that is settled before it moves on */
  readonly keptShare: number;
  /** a window this near to its bound is good enough, cents */
  readonly gapCents: number;
  /** most steps of the simplex method for a window */
  readonly windowSteps: number;
  /** steps for all windows of a site, as a multiple of those for a plan's windows */
  readonly times: number;
  /** a group with fewer near places than this in a window gets so many farther ones */
  readonly fewPlaces: number;
  readonly morePlaces: number;
}

/** How plans are searched; each value stands in the catalog. */
export interface SearchRules {
  readonly first: PlanEffort;
  readonly again: PlanEffort;
  /** a first plan of more jobs takes fewer steps in the same ratio, down to `leastShare` of them */
  readonly fullJobs: number;
  readonly leastShare: number;
  /** sites up to which each gets all steps of its windows; more get fewer in the same ratio */
  readonly fullSites: number;
  /** first step of the prices, share of what a visit pays for room */
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
  return {
    first: {
      priceSteps: value('hour_steps'),
      packingSteps: value('visit_steps'),
      diveSteps: value('settle_steps'),
      dives: value('tries'),
      roundsPerGroup: value('rounds_per_group'),
      mostRounds: value('most_rounds'),
      windowSteps: value('window_steps'),
    },
    again: {
      priceSteps: value('again_hour_steps'),
      packingSteps: value('again_visit_steps'),
      diveSteps: 0,
      dives: 1,
      roundsPerGroup: value('again_rounds_per_group'),
      mostRounds: value('again_most_rounds'),
      windowSteps: 0,
    },
    fullJobs: value('full_jobs'),
    leastShare: value('least_share'),
    fullSites: value('full_sites'),
    stepShare: value('step_share'),
    smoothing: value('smoothing'),
    settledShare: value('settled_share'),
    settledLeast: value('settled_least'),
    heatCents: value('heat_cents'),
    room: { groups: value('room_groups'), days: value('room_days') },
    windows: {
      nodes: value('window_nodes'),
      mostLaneCents: value('window_lane_cents'),
      gapShare: value('window_gap_share'),
      polish: {
        mostPlaces: value('polish_places'),
        cellPlaces: value('polish_cell_places'),
        share: value('polish_share'),
        keptShare: value('polish_kept_share'),
        mostPatterns: value('polish_patterns'),
        windowSteps: value('polish_window_steps'),
        times: value('polish_times'),
        gapCents: value('polish_gap_cents'),
      },
      bound: {
        mostPlaces: value('bound_places'),
        dearPlaces: value('bound_dear_places'),
        mostPatterns: value('bound_patterns'),
        mostColumns: value('bound_columns'),
        times: value('bound_times'),
      },
      cut: {
        cents: value('cut_cents'),
        roomShare: value('cut_room_share'),
        scarceCents: value('cut_scarce_cents'),
        scarceWeight: value('cut_scarce_weight'),
      },
      roll: {
        mostLanes: value('roll_lanes'),
        mostLaneCents: value('roll_lane_cents'),
        mostPlaces: value('roll_places'),
        regretShare: value('roll_regret_share'),
        keptShare: value('roll_kept_share'),
        gapCents: value('roll_gap_cents'),
        windowSteps: value('roll_window_steps'),
        times: value('roll_times'),
        fewPlaces: value('roll_few_places'),
        morePlaces: value('roll_more_places'),
      },
    },
  };
}

/**
 * Effort of a first plan: all of it up to `fullJobs`, then less in the ratio of the jobs.
 * @param jobCount due jobs of all sites, 0 or more
 * @param siteCount sites, which share the time for windows
 * @returns whole steps. Example: 5000 jobs in full, least 0.4: 10 000 jobs take half the steps, 100 000 take 0.4 of them
 */
export function firstEffort(
  { first, fullJobs, leastShare, fullSites }: SearchRules,
  jobCount: number,
  siteCount = 1,
): PlanEffort {
  const share = Math.min(1, Math.max(leastShare, fullJobs / Math.max(1, jobCount)));
  return {
    // quick, and where work waits for weeks the bound rests on them
    priceSteps: first.priceSteps,
    packingSteps: Math.ceil(share * first.packingSteps),
    // each round of settling leaves less to pack, so these cost little
    diveSteps: first.diveSteps,
    dives: Math.max(1, Math.floor(share * first.dives)),
    roundsPerGroup: Math.ceil(share * first.roundsPerGroup),
    mostRounds: first.mostRounds,
    // of many jobs the time is spent on the search
    windowSteps:
      share < 1 ? 0 : Math.ceil(first.windowSteps * Math.min(1, fullSites / Math.max(1, siteCount))),
  };
}
