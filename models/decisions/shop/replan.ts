import { dayFromIso } from '../../schema/day.ts';
import type { PlanChange, PlanVisit, ShopPlan } from '../../schema/shopPlan.ts';
import { placeOf, targetPlace } from './formerPlace.ts';
import { planDifferences } from './planDifferences.ts';
import { checkInputs, jobsBySite, joinSites } from './planShop.ts';
import type { PlanEffort } from './planEffort.ts';
import type { SiteDocument } from './planSite.ts';
import type { ShopInputs } from './shopInputs.ts';
import { planPart, sitePart, type SiteWork } from './siteParts.ts';

/**
 * The plan after a change, with as little moved as pays: locked visits stay, the others keep their place unless moving saves
 * more than the price of a move. Sites that the change does not touch are taken over as they are. A moved visit is locked.
 * @param inputs as they are now
 * @param earlier the plan so far, made of the same sites
 * @returns the plan with its differences; objective and bound are without the price of moves
 * @throws RangeError when the change names a visit that the plan does not have
 */
export function replan(
  inputs: ShopInputs,
  earlier: ShopPlan,
  change: PlanChange,
  effort?: PlanEffort,
): ShopPlan {
  const { parts, join } = replanWork(inputs, earlier, change, effort);
  return join(parts.map((part) => planPart(part, inputs.offsetMinutes)));
}

/** The plan after a change as work on the sites that it touches. */
export function replanWork(
  inputs: ShopInputs,
  earlier: ShopPlan,
  change: PlanChange,
  effort: PlanEffort = inputs.rules.search.again,
): SiteWork {
  checkInputs(inputs);
  const visits = changed(inputs, earlier, change);
  const touched = change.kind === 'records' ? (change.site ?? null) : siteOfVisit(earlier, change.visitId);
  const kept = new Set(inputs.locked.map(({ visitId }) => visitId));
  const locked = [
    ...inputs.locked,
    ...visits.filter((visit) => visit.locked && !kept.has(visit.id)).map(placeOf),
  ];
  const former = new Map(
    visits.flatMap((visit) =>
      visit.jobDetails.map(({ jobId }) => [
        jobId,
        {
          day: dayFromIso(visit.on),
          bay: visit.bay,
          technician: visit.technician,
          startMinute: visit.startMinute,
        },
      ]),
    ),
  );
  const { bySite, homeless } = jobsBySite(inputs);
  const standing = new Map(
    inputs.sites.flatMap(({ site }) => {
      const before = touched === null || site === touched ? null : asItStands(earlier, site);
      return before === null ? [] : [[site, before] as const];
    }),
  );
  const worked = inputs.sites.filter(({ site }) => !standing.has(site));
  const parts = worked.map((site) =>
    sitePart({ ...inputs, locked }, site, bySite.get(site.site) ?? [], former, effort),
  );
  return {
    parts,
    join: (documents) => {
      const fresh = new Map(documents.map((document) => [document.site.site, document]));
      const sites = inputs.sites.flatMap(({ site }) => standing.get(site) ?? fresh.get(site) ?? []);
      const plan = joinSites(inputs, sites, homeless);
      return { ...plan, differences: planDifferences(earlier, plan) };
    },
  };
}

function siteOfVisit(plan: ShopPlan, visitId: string): string {
  const visit = plan.visits.find(({ id }) => id === visitId);
  if (visit === undefined) throw new RangeError(`visitId must be in the plan, got ${visitId}`);
  return visit.site;
}

function changed(inputs: ShopInputs, earlier: ShopPlan, change: PlanChange): readonly PlanVisit[] {
  if (change.kind === 'records') return earlier.visits;
  siteOfVisit(earlier, change.visitId);
  return earlier.visits.map((visit) => {
    if (visit.id !== change.visitId) return visit;
    if (change.kind !== 'move') return { ...visit, locked: change.kind === 'lock' };
    return { ...visit, ...targetPlace(inputs, earlier, visit, change.to), locked: true };
  });
}

/** One site of an earlier plan; null where that plan does not have it. */
function asItStands(plan: ShopPlan, name: string): SiteDocument | null {
  const site = plan.sites.find((entry) => entry.site === name);
  if (site === undefined) return null;
  const own = <T extends { readonly site: string }>(list: readonly T[]) =>
    list.filter((entry) => entry.site === name);
  return {
    site,
    visits: own(plan.visits),
    notPlaced: own(plan.notPlaced).filter(({ code }) => code !== 'no_site'),
    loads: own(plan.loads),
    supplies: own(plan.supplies),
    downtime: own(plan.downtime),
    messages: [],
  };
}
