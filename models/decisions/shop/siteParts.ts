import type { MilpSolver } from '../milpSolver.ts';
import type { FormerSlot } from './siteProblem.ts';
import type { PlanEffort } from './planEffort.ts';
import { planSite, type SiteDocument } from './planSite.ts';
import type { DueJob, ShopInputs, ShopSite } from './shopInputs.ts';
import type { ShopPlan } from '../../schema/shopPlan.ts';

/** What one site is planned from: data alone, so that sites can be planned side by side. */
export interface SitePart {
  readonly inputs: Omit<ShopInputs, 'offsetMinutes'>;
  readonly site: ShopSite;
  readonly jobs: readonly DueJob[];
  /** where an earlier plan had a job; empty for a first plan */
  readonly former: ReadonlyMap<string, FormerSlot>;
  readonly effort: PlanEffort;
}

/** A plan as the sites that have to be worked on, and what makes one document of theirs. */
export interface SiteWork {
  readonly parts: readonly SitePart[];
  /** @param documents one for each part, in their order */
  readonly join: (documents: readonly SiteDocument[]) => ShopPlan;
}

/** Takes from the inputs what one site needs. */
export function sitePart(
  inputs: ShopInputs,
  site: ShopSite,
  jobs: readonly DueJob[],
  former: ReadonlyMap<string, FormerSlot>,
  effort: PlanEffort,
): SitePart {
  const own = <T extends { readonly site: string }>(list: readonly T[]) =>
    list.filter((entry) => entry.site === site.site);
  const { asOfDay, fromDay, weeks, outside, locked, rules } = inputs;
  return {
    inputs: {
      asOfDay,
      fromDay,
      weeks,
      sites: [site],
      technicians: own(inputs.technicians),
      units: own(inputs.units),
      jobs,
      outside,
      shelf: own(inputs.shelf),
      // a unit may be held at another site
      locked,
      rules,
      messages: [],
    },
    site,
    jobs,
    former,
    effort,
  };
}

/**
 * Plans one part; the same part gives the same document wherever it is worked on.
 * @param offsetMinutes as in {@link ShopInputs}
 * @param solver for stretches of days of a first plan, or null: then the plan is a little dearer
 */
export function planPart(
  { inputs, site, jobs, former, effort }: SitePart,
  offsetMinutes: ShopInputs['offsetMinutes'],
  solver: MilpSolver | null = null,
): SiteDocument {
  return planSite({ ...inputs, offsetMinutes }, site, jobs, former, effort, solver);
}
