import type { Random } from '../../numeric/random.ts';
import type { DayWindow } from './dayWindows.ts';
import type { KickRules } from './planEffort.ts';
import { insertGroup, removeGroup, restoreGroup, type SiteState } from './siteState.ts';
import { slotSearch } from './slotSearch.ts';
import type { SlotRules } from './windowRules.ts';

/**
 * Iterated local search: some visits of a few days are taken out and put back in any order, then the slots of these days
 * change places; a change that does not gain is taken back. So a plan leaves the places where no exchange of two lanes gains,
 * though several together would.
 * @param state the plan; it only gets cheaper
 * @param stretches of days that are looked at
 * @param kicks how often
 * @param slots rules of the exchanges but for what a kick has of its own
 * Source: Lourenço, Martin and Stützle in Glover and Kochenberger (eds.), Handbook of Metaheuristics (2003), value from memory.
 */
export function kickPlan(
  state: SiteState,
  stretches: readonly DayWindow[],
  kicks: number,
  { days, mostGroups, skipShare, slots: own }: KickRules,
  slots: SlotRules,
  random: Random,
): void {
  const { problem, chosen, place, groupCents, dayBundles } = state;
  const { bundles } = problem;
  const all = stretches.reduce((sum, { fromDay, toDay }) => sum + toDay - fromDay, 0);
  if (all === 0) return;
  const skip = () => random() < skipShare;
  const rules = { ...slots, ...own };
  for (let kick = 0; kick < kicks; kick++) {
    const window = windowAround(stretches, Math.floor(random() * all), days);
    const groups = new Set<number>();
    for (let d = window.fromDay; d < window.toDay; d++)
      for (const b of dayBundles[d]) groups.add(bundles[b].group);
    if (groups.size < 2) continue;
    let before = 0;
    const former = [...groups].map((group) => {
      before += groupCents[group];
      return {
        group,
        visits: chosen[group],
        lanes: chosen[group].map((b) => place[b]),
        cents: groupCents[group],
      };
    });
    const out = shuffled([...groups], random).slice(0, 1 + Math.floor(random() * mostGroups));
    for (const group of out) removeGroup(state, group);
    for (const group of out) insertGroup(state, group, null, skip);
    slotSearch(state, window, rules);
    let after = 0;
    for (const group of groups) after += groupCents[group];
    // whole cents below: a difference in the last digits is no gain
    if (after < before - 0.5) continue;
    for (const group of groups) removeGroup(state, group);
    for (const { group, visits, lanes, cents } of former) restoreGroup(state, group, visits, lanes, cents);
  }
}

/** So many days around one of the stretches' days, within its stretch. */
function windowAround(stretches: readonly DayWindow[], at: number, days: number): DayWindow {
  let left = at;
  for (const { fromDay, toDay } of stretches) {
    if (left >= toDay - fromDay) {
      left -= toDay - fromDay;
      continue;
    }
    const first = Math.max(fromDay, Math.min(fromDay + left - Math.floor(days / 2), toDay - days));
    return { fromDay: first, toDay: Math.min(toDay, first + days) };
  }
  return { fromDay: 0, toDay: 0 };
}

function shuffled(values: number[], random: Random): number[] {
  for (let i = values.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [values[i], values[j]] = [values[j], values[i]];
  }
  return values;
}
