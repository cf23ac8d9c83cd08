import type { MilpSolver } from '../milpSolver.ts';
import { isoFromDay } from '../../schema/day.ts';
import type { NotPlacedJob, ShopPlan } from '../../schema/shopPlan.ts';
import { dueCostCents } from './dueCost.ts';
import { firstEffort, type PlanEffort } from './planEffort.ts';
import { gapOf, type SiteDocument } from './planSite.ts';
import type { DueJob, ShopInputs } from './shopInputs.ts';
import { planPart, sitePart, type SiteWork } from './siteParts.ts';
import type { FormerSlot } from './siteProblem.ts';

/**
 * The shop plan: every due job in a visit with its bay, technician and time, or listed with the reason and its price, at an
 * expected cost of lateness, earliness, downtime and set-ups as low as found, beside a bound that no plan undercuts.
 * Sites share nothing and are planned each for itself.
 * @param inputs due work and resources; days since 1970-01-01, hours, cents
 * @param effort how much is searched
 * @param solver for stretches of days, or null: then the plan is a little dearer and the bound lower
 * @returns the document; the same inputs give the same plan
 * @throws RangeError when inputs are out of range, naming the field
 */
export function planShop(
  inputs: ShopInputs,
  effort?: PlanEffort,
  solver: MilpSolver | null = null,
): ShopPlan {
  const { parts, join } = planWork(inputs, effort);
  return join(parts.map((part) => planPart(part, inputs.offsetMinutes, solver)));
}

/** A first plan as work on its sites; how much is searched is settled beforehand, so that it does not hang on their order. */
export function planWork(
  inputs: ShopInputs,
  effort: PlanEffort = firstEffort(inputs.rules.search, inputs.jobs.length, inputs.sites.length),
): SiteWork {
  checkInputs(inputs);
  const { bySite, homeless } = jobsBySite(inputs);
  const parts = inputs.sites.map((site) =>
    sitePart(inputs, site, bySite.get(site.site) ?? [], new Map<string, FormerSlot>(), effort),
  );
  return { parts, join: (documents) => joinSites(inputs, documents, homeless) };
}

/** Jobs by site, and those whose unit or site is not known. */
export function jobsBySite(inputs: ShopInputs): {
  readonly bySite: ReadonlyMap<string, readonly DueJob[]>;
  readonly homeless: readonly NotPlacedJob[];
} {
  const siteOf = new Map(inputs.units.map((unit) => [unit.unitNumber, unit.site]));
  const bySite = new Map<string, DueJob[]>(inputs.sites.map(({ site }) => [site, []]));
  const homeless: NotPlacedJob[] = [];
  for (const job of inputs.jobs) {
    const site = siteOf.get(job.unitNumber);
    const own = site === undefined ? undefined : bySite.get(site);
    if (own !== undefined) own.push(job);
    else
      homeless.push({
        jobId: job.jobId,
        unitNumber: job.unitNumber,
        site: site ?? 'no site',
        job: job.job,
        words: job.words,
        dueOn: isoFromDay(job.medianDay),
        code: 'no_site',
        reason: 'the unit has no site with bays',
        costCents: dueCostCents(
          job,
          Math.max(job.medianDay, inputs.fromDay + 7 * inputs.weeks),
          inputs.rules,
        ),
      });
  }
  return { bySite, homeless };
}

/** One document from the sites'. */
export function joinSites(
  inputs: ShopInputs,
  sites: readonly SiteDocument[],
  homeless: readonly NotPlacedJob[],
): ShopPlan {
  const lost = homeless.reduce((sum, job) => sum + job.costCents, 0);
  const sum = (field: 'objectiveCents' | 'boundCents' | 'idealCents') =>
    sites.reduce((total, { site }) => total + site[field], lost);
  const [objectiveCents, boundCents, idealCents] = [
    sum('objectiveCents'),
    sum('boundCents'),
    sum('idealCents'),
  ];
  return {
    from: isoFromDay(inputs.fromDay),
    weeks: inputs.weeks,
    asOf: isoFromDay(inputs.asOfDay),
    objectiveCents,
    boundCents,
    idealCents,
    gap: gapOf(objectiveCents, boundCents, idealCents),
    sites: sites.map(({ site }) => site),
    visits: sites.flatMap(({ visits }) => visits),
    notPlaced: [...sites.flatMap(({ notPlaced }) => notPlaced), ...homeless],
    loads: sites.flatMap(({ loads }) => loads),
    supplies: sites.flatMap(({ supplies }) => supplies),
    downtime: sites.flatMap(({ downtime }) => downtime),
    differences: [],
    messages: [...inputs.messages, ...sites.flatMap(({ messages }) => messages)],
  };
}

/** Throws where a job or a span of days can't be worked with. */
export function checkInputs(inputs: ShopInputs): void {
  if (!(Number.isInteger(inputs.weeks) && inputs.weeks >= 1 && inputs.weeks <= 104))
    throw new RangeError(`weeks must be a whole number from 1 to 104, got ${inputs.weeks}`);
  const seen = new Set<string>();
  for (const job of inputs.jobs) {
    if (seen.has(job.jobId)) throw new RangeError(`jobId must be unique, got ${job.jobId} twice`);
    seen.add(job.jobId);
    if (!(job.hours > 0 && Number.isFinite(job.hours)))
      throw new RangeError(`hours of ${job.jobId} must be above 0, got ${job.hours}`);
    for (const field of ['latenessCentsPerDay', 'earlinessCentsPerDay'] as const)
      if (!(job[field] >= 0 && Number.isFinite(job[field])))
        throw new RangeError(`${field} of ${job.jobId} must be 0 or above, got ${job[field]}`);
    if (!(job.earliestDay <= job.medianDay && job.medianDay <= job.latestDay))
      throw new RangeError(
        `due days of ${job.jobId} must be in order, got ${job.earliestDay}, ${job.medianDay}, ${job.latestDay}`,
      );
  }
}
