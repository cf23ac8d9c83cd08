/** How stretches of days are solved as a whole. */
export interface WindowRules {
  /** most nodes of a window's tree */
  readonly nodes: number;
  /** where the room of a lane's day is worth more than this on average it is dear: stretches are shorter there, cents */
  readonly mostLaneCents: number;
  /** a gap of this share of what capacity adds is near enough */
  readonly gapShare: number;
  readonly slots: SlotRules;
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
  /** share of the gap that is hoped for where a day has one lane, less by the lanes where it has more: places of more regret are left out */
  readonly hopeShare: number;
  /** a window that lacks less than this share of all that the windows lack is left as it is */
  readonly leastShare: number;
  /** a window whose bound is still that much below what it had is given up after so many steps */
  readonly hopeSteps: number;
  /** most steps of the simplex method for a window */
  readonly windowSteps: number;
  /** steps for all windows of a site, as a multiple of those for a plan's windows */
  readonly times: number;
}

/** How slots of lanes change places. */
export interface SlotRules {
  /** where the room of a lane's day is worth more than this it is looked at, cents */
  readonly leastLaneCents: number;
  /** and so many days before and after */
  readonly daysBeside: number;
  /** a longer stretch of days is cut */
  readonly mostLanes: number;
  /** of a lane with more slots only so many are looked at */
  readonly mostSlots: number;
  /** exchanges that can not gain more than this are left out, cents */
  readonly leastGainCents: number;
  /** most exchanges of a stretch of days that are worked out */
  readonly tries: number;
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

/**
 * Takes the windows' values.
 * @param value of a name after `shop.search_`
 */
export function windowRules(value: (name: string) => number): WindowRules {
  return {
    nodes: value('window_nodes'),
    mostLaneCents: value('window_lane_cents'),
    gapShare: value('window_gap_share'),
    slots: {
      leastLaneCents: value('slot_lane_cents'),
      daysBeside: value('slot_days_beside'),
      mostLanes: value('slot_lanes'),
      mostSlots: value('slot_sets'),
      leastGainCents: value('slot_gain_cents'),
      tries: value('slot_tries'),
    },
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
      hopeShare: value('bound_hope_share'),
      leastShare: value('bound_least_share'),
      hopeSteps: value('bound_hope_steps'),
      windowSteps: value('bound_window_steps'),
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
  };
}
