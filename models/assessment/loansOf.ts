import { dayFromIso } from '../schema/day.ts';
import type { PlanVisit } from '../schema/shopPlan.ts';
import type { ShopResource } from '../schema/shopRecordEndpoints.ts';

/** A loan unit that stands in while a unit is in the shop. */
export interface Loan {
  readonly loanUnit: string;
  readonly visitId: string;
  readonly unitNumber: string;
  readonly from: string;
  readonly through: string;
  /** downtime less the loan unit's own cost, cents, above 0 */
  readonly savedCents: number;
}

/**
 * Gives loan units of a site to the visits whose downtime costs most, each to one visit at a time: by saving, the greatest
 * first, to the first loan unit that is free on every day of the visit and cheaper than the downtime.
 * @returns loans in order of day; a visit that is done at the unit's own place needs none
 * @example two visits on one day, one loan unit → it goes to the one whose downtime costs more
 * Source: common practice, no source; greedy, so a better share-out may exist when visits of several days overlap.
 */
export function loansOf(visits: readonly PlanVisit[], resources: readonly ShopResource[]): Loan[] {
  const days = ({ on, lastDay }: PlanVisit): number => dayFromIso(lastDay) - dayFromIso(on) + 1;
  const loanUnits = resources.flatMap((entry) => (entry.kind === 'loan_unit' ? [{ ...entry }] : []));
  const taken = new Map<string, PlanVisit[]>();
  const wishes = visits
    .filter(({ place }) => place !== 'mobile')
    .flatMap((visit) => {
      const downtime = visit.costParts.find(({ part }) => part === 'downtime')?.cents ?? 0;
      return loanUnits
        .filter(({ site }) => site.toLowerCase() === (visit.unitSite ?? visit.site).toLowerCase())
        .map(({ name, centsPerDay }) => ({ visit, name, saved: downtime - centsPerDay * days(visit) }))
        .filter(({ saved }) => saved > 0);
    })
    .sort((a, b) => b.saved - a.saved || (a.visit.id + a.name < b.visit.id + b.name ? -1 : 1));
  const loans: Loan[] = [];
  for (const { visit, name, saved } of wishes) {
    const held = taken.get(name) ?? [];
    if (loans.some(({ visitId }) => visitId === visit.id)) continue;
    if (held.some(({ on, lastDay }) => on <= visit.lastDay && visit.on <= lastDay)) continue;
    taken.set(name, [...held, visit]);
    loans.push({
      loanUnit: name,
      visitId: visit.id,
      unitNumber: visit.unitNumber,
      from: visit.on,
      through: visit.lastDay,
      savedCents: Math.round(saved),
    });
  }
  return loans.sort((a, b) => (a.from + a.loanUnit < b.from + b.loanUnit ? -1 : 1));
}
