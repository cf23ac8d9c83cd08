import { laneTakes } from './laneTable.ts';
import type { DayWindow } from './dayWindows.ts';
import type { PlaceRegrets, VisitPlace } from './placeRegrets.ts';
import type { RollRules } from './windowRules.ts';
import type { DueJob } from './shopInputs.ts';
import { leftUndone, placedCents, unitFree, type SiteState } from './siteState.ts';
import { cheapestSplit } from './visitSplits.ts';
import type { WindowChoice } from './windowChoice.ts';

/** A plan that is made from its first day on. */
export interface RollingPlan {
  /** what is settled so far */
  readonly made: SiteState;
  /** jobs of each group that no settled visit does */
  readonly open: readonly Set<DueJob>[];
  /** places with a regret, by group */
  readonly byGroup: readonly (readonly VisitPlace[])[];
  readonly visitCents: Float64Array;
  readonly regrets: PlaceRegrets;
  /** places of more regret are looked at only where a group has few others, cents */
  readonly nearCents: number;
  readonly rules: RollRules;
  /** whether the plan in hand has the visit there */
  readonly taken: (place: VisitPlace) => boolean;
}

// far above any cost, so that the cheapest split has the visits
const forced = 1e10;

/**
 * Choices of the groups that may begin in a window: a visit there gains what it is worth beyond its cost, and what waiting
 * would cost: the least regret of the places after the window. A job without any such place is owed, or stays undone.
 * @param visitCents in `rolling`: worth of each visit, cents
 */
export function rollChoices(rolling: RollingPlan, window: DayWindow): WindowChoice[] {
  return rolling.open.flatMap((jobs, group) =>
    jobs.size === 0 ? [] : groupChoices(rolling, group, jobs, window),
  );
}

function groupChoices(
  rolling: RollingPlan,
  group: number,
  jobs: ReadonlySet<DueJob>,
  window: DayWindow,
): WindowChoice[] {
  const { made, byGroup, visitCents, nearCents, rules, taken } = rolling;
  const { bundles, table } = made.problem;
  const splitRegret = splitRegrets(rolling, group, jobs);
  const places = byGroup[group].flatMap((place) => {
    const own = splitRegret.get(place.visit);
    if (own === undefined || !stillFree(made, place, window.fromDay)) return [];
    return [{ ...place, regretCents: place.regretCents - own.before + own.now }];
  });
  const waiting = new Map<DueJob, number>([...jobs].map((job) => [job, Infinity]));
  const inside: VisitPlace[] = [];
  for (const place of places) {
    if (place.lane >= 0 && table.laneDay[place.lane] < window.toDay) inside.push(place);
    else
      for (const job of bundles[place.visit].jobs)
        waiting.set(job, Math.min(waiting.get(job) ?? Infinity, place.regretCents));
  }
  const near = inside.filter((place) => place.regretCents <= nearCents || taken(place));
  if (near.length < rules.fewPlaces && Math.max(...waiting.values()) > nearCents)
    near.push(
      ...inside
        .filter((place) => !near.includes(place))
        .sort((a, b) => a.regretCents - b.regretCents || a.visit - b.visit || a.lane - b.lane)
        .slice(0, rules.morePlaces),
    );
  if (near.length === 0) return [];
  const choices = near.map((place): WindowChoice => {
    const { visit, lane, lanes, cents } = place;
    const { jobs: done, length } = bundles[visit];
    const wait = Math.max(...done.map((job) => waiting.get(job) ?? Infinity));
    const gain =
      visitCents[visit] - cents + (wait < Infinity ? wait : 0) - (splitRegret.get(visit)?.now ?? 0);
    const takes = lanes.flatMap((at, i) =>
      table.laneDay[at] < window.toDay
        ? [{ lane: at, cells: i < lanes.length - 1 ? table.laneCells[at] : length.lastCells }]
        : [],
    );
    return {
      visit,
      lane,
      takes,
      cents: -gain,
      worthCents: visitCents[visit] - cents,
      owed: false,
      taken: taken(place),
    };
  });
  for (const b of splitRegret.keys()) {
    const [job] = bundles[b].jobs;
    if (bundles[b].jobs.length > 1 || waiting.get(job) !== Infinity) continue;
    const cents = placedCents(bundles[b], made.problem, leftUndone) - visitCents[b];
    choices.push({ visit: b, lane: -1, takes: [], cents, worthCents: 0, owed: true, taken: false });
  }
  return choices;
}

/** Whether there is room at a place from a day on, and the unit is not elsewhere. */
function stillFree(made: SiteState, { visit, lane }: VisitPlace, fromDay: number): boolean {
  if (lane < 0) return true;
  const { bundles, table } = made.problem;
  const { length, type } = bundles[visit];
  const day = table.laneDay[lane];
  return (
    day >= fromDay &&
    laneTakes(table, made.free, lane, length, table.typeSkills[type]) &&
    unitFree(made, visit, day)
  );
}

/** What each visit of open jobs costs above the cheapest split, with nothing settled and with what is. */
function splitRegrets(
  { made, visitCents, regrets }: RollingPlan,
  group: number,
  jobs: ReadonlySet<DueJob>,
): ReadonlyMap<number, { readonly before: number; readonly now: number }> {
  const { bundles, splits } = made.problem;
  const trial = visitCents.slice();
  const above = (visit: number, base: number) => {
    trial[visit] -= forced;
    const cents = cheapestSplit(splits, group, trial) + forced - base;
    trial[visit] = visitCents[visit];
    return Math.max(0, cents);
  };
  const visits: number[] = [];
  for (let b = splits.bundleStart[group]; b < splits.bundleStart[group + 1]; b++)
    if (bundles[b].jobs.every((job) => jobs.has(job))) visits.push(b);
  const before = visits.map((visit) => above(visit, regrets.groupCents[group]));
  for (const b of made.chosen[group]) trial[b] -= forced;
  const base = cheapestSplit(splits, group, trial);
  return new Map(visits.map((visit, i) => [visit, { before: before[i], now: above(visit, base) }]));
}
