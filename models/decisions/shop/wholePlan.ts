import { removeGroup, restoreGroup, type SiteState } from './siteState.ts';

/** Makes the state the other plan. */
export function takeOver(state: SiteState, { chosen, place, groupCents }: SiteState): void {
  for (let group = 0; group < chosen.length; group++) removeGroup(state, group);
  chosen.forEach((visits, group) =>
    restoreGroup(
      state,
      group,
      visits,
      visits.map((b) => place[b]),
      groupCents[group],
    ),
  );
}

/** Search cost of the whole plan, cents. */
export function planCents({ groupCents }: SiteState): number {
  return groupCents.reduce((sum, cents) => sum + cents, 0);
}
