import type { DutyInputs } from '../decisions/policyCase.ts';
import type { DrainCosts } from '../decisions/drainInterval.ts';
import { unitCosts } from '../decisions/moneyUnit.ts';
import { fillFrom, type OilCatalog } from '../oil/oilFill.ts';
import { categoriesIn, categoryCovers } from '../oil/serviceCategory.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { bookKmOf } from './extensionApproval.ts';
import { requiredOilOf } from './fillsOfUnit.ts';
import { moneyUnitOf, evenDeviates } from './moneyUnitOf.ts';
import { dutyGroupName } from './standingPolicy.ts';
import { meanTable, readLifeTable, unitLifeTable, type LifeTable } from './policyWear.ts';
import type { UnitView } from './unitView.ts';

/** A duty group with what its policy is made from and in words what had to be assumed. */
export interface DutyGroup {
  readonly inputs: DutyInputs;
  readonly unitNumbers: readonly string[];
  /** km a year of the whole group */
  readonly kmPerYear: number;
  readonly assumptions: readonly string[];
}

/** Draws of what is not known of the wear. */
const drawCount = 5;
/** Units that stand for a group; their wear is averaged. */
const mostUnits = 4;
/** Intervals at which wear is worked out; between them it is read off. */
const tablePoints = 10;
/** Recorded costs of oil changes below this many say too little. */
const leastCosts = 5;

/**
 * The duty groups of a fleet as the interval policy sees them: what a change costs, what the book allows the group's
 * shortest-interval engine, what interval is kept, and what life each interval uses up.
 * @param views units in service
 * @returns one group a duty, in order of name; units without use or oil charge are counted but bring no wear
 */
export function dutyGroups(
  views: readonly UnitView[],
  oilCatalog: OilCatalog,
  serviceHours: number,
  coefficients: Coefficients,
): readonly DutyGroup[] {
  const byDuty = new Map<string, UnitView[]>();
  for (const view of views) {
    const duty = dutyGroupName(view.history.unit.duty);
    const key = [...byDuty.keys()].find((name) => name.toLowerCase() === duty.toLowerCase()) ?? duty;
    byDuty.set(key, [...(byDuty.get(key) ?? []), view]);
  }
  return [...byDuty]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .flatMap(([duty, members]) => groupOf(duty, members, oilCatalog, serviceHours, coefficients) ?? []);
}

function groupOf(
  duty: string,
  members: readonly UnitView[],
  oilCatalog: OilCatalog,
  serviceHours: number,
  c: Coefficients,
): DutyGroup | null {
  const assumptions: string[] = [];
  const books = known(members.map((view) => bookKmOf(view.ownBook, view.timeline.duty.severe, c)));
  const bookIntervalKm = books.length === 0 ? null : Math.min(...books);
  if (new Set(books).size > 1)
    assumptions.push(
      `the book of the shortest interval among ${members.length} units: ${Math.round(bookIntervalKm!)} km`,
    );
  const currentIntervalKm = median(
    known(
      members
        .filter(({ timeline }) => timeline.charges.some((charge) => charge.startBasis === 'drain'))
        .map(({ timeline }) => timeline.duty.usualIntervalKm ?? null),
    ),
  );
  const anchor = bookIntervalKm ?? currentIntervalKm ?? c['policy.anchor_km'];
  const fromKm = Math.min(c['policy.from_share'] * anchor, currentIntervalKm ?? Infinity);
  const toKm = Math.max(c['policy.to_share'] * anchor, currentIntervalKm ?? 0);
  const intervalsKm = Array.from(
    { length: tablePoints },
    (_, i) => fromKm * (toKm / fromKm) ** (i / (tablePoints - 1)),
  );
  const stand = standIns(members);
  const deviates = [...evenDeviates(drawCount)];
  const tableFor = (category: string | null): LifeTable | null => {
    const tables = stand.flatMap((view) => {
      const required = requiredOilOf(view.history.engine);
      const fill =
        category === null ? null : fillFrom(required.grade, category, required, oilCatalog, c).fill;
      return unitLifeTable(view, intervalsKm, deviates, fill, c) ?? [];
    });
    return tables.length === 0 ? null : meanTable(tables);
  };
  const table = tableFor(null);
  if (table === null) return null;
  const change = changeCost(members, serviceHours, c, assumptions);
  const costs = (life: LifeTable, dearerCents: number): DrainCosts => ({
    ...change,
    oilCents: change.oilCents + dearerCents,
    lifeSharePerKm: (intervalKm, draw) => readLifeTable(life, intervalKm, draw),
    draws: drawCount,
  });
  return {
    unitNumbers: members.map(({ history }) => history.unit.unitNumber),
    kmPerYear: members.reduce((sum, { timeline }) => sum + 365.25 * timeline.duty.kmPerDay, 0),
    assumptions,
    inputs: {
      duty,
      currentIntervalKm: currentIntervalKm === null ? null : Math.round(currentIntervalKm),
      bookIntervalKm,
      beyondBookApproved: members.every(({ standing }) => standing.approval !== null),
      oil: costs(table, 0),
      categories: otherCategories(members, oilCatalog).flatMap((category) => {
        const life = tableFor(category);
        const dearer =
          sumpLiters(members, c) * c['policy.oil_cents_per_liter'] * (c['policy.better_category_price'] - 1);
        return life === null ? [] : [{ category, oil: costs(life, dearer) }];
      }),
    },
  };
}

/** Units that stand for the group: evenly over their use. */
function standIns(members: readonly UnitView[]): readonly UnitView[] {
  const moving = members
    .filter(({ timeline }) => timeline.duty.kmPerDay > 0.5)
    .sort((a, b) => a.timeline.duty.kmPerDay - b.timeline.duty.kmPerDay);
  const count = Math.min(mostUnits, moving.length);
  return Array.from({ length: count }, (_, i) => moving[Math.floor(((i + 0.5) * moving.length) / count)]);
}

type ChangeCost = Omit<DrainCosts, 'lifeSharePerKm' | 'draws'>;

/** What one change costs: the median of recorded costs, else oil, filter and labour by default; and what a used-up life costs. */
function changeCost(
  members: readonly UnitView[],
  serviceHours: number,
  c: Coefficients,
  assumptions: string[],
): ChangeCost {
  const recorded = known(
    members.flatMap(({ history }) =>
      history.services
        .filter(
          ({ read }) =>
            read.works.includes('oil_change') &&
            read.works.every((work) => work === 'oil_change' || work === 'filter'),
        )
        .map(({ costCents }) => costCents),
    ),
  ).filter((cents) => cents > 0);
  const all = members.map((view) => {
    const costs = unitCosts(moneyUnitOf({ ...view, failure: null }, noRisk), c);
    const planned = costs.plannedCents + costs.plannedDowntimeCents;
    const failure = costs.failureCents + costs.failureDowntimeCents;
    return {
      renewalCents: planned + c['policy.failed_share'] * (failure - planned),
      perDayCents: view.history.engine?.downtimeCostPerDayCents ?? c['money.downtime_cents_per_day'],
      labourCentsPerHour: costs.labourCentsPerHour,
    };
  });
  const mean = (of: (entry: (typeof all)[number]) => number): number =>
    all.reduce((sum, entry) => sum + of(entry), 0) / all.length;
  const enough = recorded.length >= leastCosts;
  if (enough)
    assumptions.push(`a change at the median of ${recorded.length} recorded costs, oil and labour together`);
  else assumptions.push('oil, filter and labour of a change from the defaults: too few costs are on record');
  return {
    oilCents: enough
      ? Math.round(median(recorded)!)
      : Math.round(sumpLiters(members, c) * c['policy.oil_cents_per_liter'] + c['policy.filter_cents']),
    labourCents: enough ? 0 : Math.round(serviceHours * mean((entry) => entry.labourCentsPerHour)),
    downtimeCents: Math.round((serviceHours / c['policy.day_hours']) * mean((entry) => entry.perDayCents)),
    renewalCents: Math.round(mean((entry) => entry.renewalCents)),
  };
}

const noRisk = {
  horizonDays: 365,
  shape: 2,
  fleetDeviates: new Float64Array(1),
  fleetShare: 0,
  random: () => 0.5,
};

function sumpLiters(members: readonly UnitView[], c: Coefficients): number {
  return (
    median(known(members.map(({ history }) => history.engine?.sumpL ?? null))) ?? c['policy.sump_liters']
  );
}

/** Current categories of the same use that stand in for what most of the group asks for, the newest first. */
function otherCategories(members: readonly UnitView[], { categories }: OilCatalog): readonly string[] {
  const counts = new Map<string, number>();
  for (const { history } of members) {
    const asked = history.engine?.requiredCategory ?? null;
    if (asked !== null) counts.set(asked, (counts.get(asked) ?? 0) + 1);
  }
  const [most] = [...counts].sort((a, b) => b[1] - a[1]);
  const required = most === undefined ? undefined : categoriesIn(most[0], categories)[0];
  if (required === undefined) return [];
  return categories.categories
    .filter(
      (entry) =>
        entry.current &&
        entry.id !== required.id &&
        (entry.use === required.use || entry.use === 'both') &&
        categoryCovers(entry, required, categories),
    )
    .sort((a, b) => b.year - a.year)
    .slice(0, 2)
    .map(({ id }) => id);
}

function known(values: readonly (number | null | undefined)[]): number[] {
  return values.filter((value): value is number => typeof value === 'number' && Number.isFinite(value));
}

function median(values: readonly number[]): number | null {
  if (values.length === 0) return null;
  const sorted = values.toSorted((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}
