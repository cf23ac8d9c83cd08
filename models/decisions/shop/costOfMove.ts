import { dayFromIso, isoFromDay } from '../../schema/day.ts';
import type { MoveCost, MoveTarget, ShopPlan } from '../../schema/shopPlan.ts';
import { earlyCents, lateCents } from './dueCost.ts';
import { placeOf, targetPlace } from './formerPlace.ts';
import { conflictsOf } from './lockedVisits.ts';
import { partsReady } from './partsReady.ts';
import type { ShopInputs } from './shopInputs.ts';

/**
 * What it costs to put one visit elsewhere while all others stay, and what speaks against it. Quick enough for dragging:
 * nothing is searched.
 * @returns difference in cents and its parts; `possible` is false where something speaks against it
 * @throws RangeError when the plan does not have the visit
 */
export function costOfMove(inputs: ShopInputs, plan: ShopPlan, visitId: string, to: MoveTarget): MoveCost {
  const visit = plan.visits.find(({ id }) => id === visitId);
  if (visit === undefined) throw new RangeError(`visitId must be in the plan, got ${visitId}`);
  const site = inputs.sites.find((entry) => entry.site === visit.site);
  const unit = inputs.units.find((entry) => entry.unitNumber === visit.unitNumber);
  if (site === undefined || unit === undefined)
    return {
      visitId,
      possible: false,
      conflicts: ['the unit or its site is not known any more'],
      costCents: 0,
      parts: [],
    };
  const moved = { ...visit, ...targetPlace(inputs, plan, visit, to) };
  const place = placeOf(moved);
  const near = plan.visits.filter(
    (other) =>
      other.on <= moved.lastDay &&
      other.lastDay >= moved.on &&
      (other.site === visit.site || other.unitNumber === visit.unitNumber),
  );
  const conflicts = conflictsOf(inputs, site, unit, place, near.map(placeOf));
  const ids = new Set(visit.jobDetails.map(({ jobId }) => jobId));
  const own = inputs.units.filter((entry) => entry.site === visit.site);
  const here = new Set(own.map(({ unitNumber }) => unitNumber));
  const jobs = inputs.jobs.filter((job) => here.has(job.unitNumber));
  const ready = partsReady({ ...inputs, jobs }, () => visit.site);
  const doing = jobs.filter(({ jobId }) => ids.has(jobId));
  const person = inputs.technicians.find(
    ({ technician, site: at }) => technician === place.technician && at === visit.site,
  );
  for (const job of doing) {
    const from = Math.max(ready.get(job.jobId) ?? 0, job.notBeforeDay ?? 0);
    if (place.day < from && visit.place === 'bay')
      conflicts.push(
        from === Infinity
          ? `parts for ${job.words} can not be had`
          : `${job.words} can not be done before ${isoFromDay(from)}`,
      );
    if (
      job.skill !== null &&
      person !== undefined &&
      person.skills !== null &&
      !person.skills.includes(job.skill)
    )
      conflicts.push(`${person.technician} can not do ${job.skill}`);
  }
  const before = dayFromIso(visit.on);
  const weights = inputs.rules.dueWeights;
  const sum = (cents: (job: (typeof doing)[number], day: number) => number) =>
    doing.reduce((total, job) => total + cents(job, place.day) - cents(job, before), 0);
  const parts = [
    { words: 'chance of being past due', cents: sum((job, day) => lateCents(job, day, weights)) },
    { words: 'life thrown away by being early', cents: sum((job, day) => earlyCents(job, day, weights)) },
  ].filter(({ cents }) => cents !== 0);
  return {
    visitId,
    possible: conflicts.length === 0,
    conflicts,
    costCents: parts.reduce((total, { cents }) => total + cents, 0),
    parts,
  };
}
