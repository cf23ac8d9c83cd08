import { isOpen, spanHolds } from './calendar.ts';
import { compileBundles } from './compileBundles.ts';
import { openCellsOf, workCells, type SiteInput } from './siteInput.ts';
import type { HeldCells, SiteProblem } from './siteProblem.ts';

/** Turns a site's records into the arrays that bound and search work on. */
export function compileSite(input: SiteInput): SiteProblem {
  const { site, rules, technicians, fromDay } = input;
  const openCells = openCellsOf(site, rules);
  const days: number[] = [];
  for (let day = fromDay; day < fromDay + input.weeks * 7; day++)
    if (openCells > 0 && site.bays.length > 0 && technicians.length > 0 && isOpen(site, day)) days.push(day);
  const technicianCells = new Int32Array(days.length * technicians.length);
  days.forEach((day, d) =>
    technicians.forEach((person, k) => {
      const cells = spanHolds(person.away, day) ? 0 : workCells(person, openCells, rules);
      technicianCells[d * technicians.length + k] = cells;
    }),
  );
  return {
    days: Int32Array.from(days),
    openCells,
    bayCount: site.bays.length,
    technicians,
    technicianCells,
    held: heldCells(input, days, openCells),
    ...compileBundles(input, days),
  };
}

function heldCells(input: SiteInput, days: readonly number[], openCells: number): HeldCells[] {
  const { site, rules } = input;
  return input.locked.flatMap((slot) => {
    const bay = slot.bay === null ? -1 : site.bays.indexOf(slot.bay);
    const technician = input.technicians.findIndex((person) => person.technician === slot.technician);
    const from = (slot.startMinute - site.opensAtMinute) / rules.cellMinutes;
    const to = (slot.endMinute - site.opensAtMinute) / rules.cellMinutes;
    const firstCell = Math.max(0, Math.floor(from + 1e-9));
    const endCell = Math.min(openCells, Math.ceil(to - 1e-9));
    const dayIndex = days.indexOf(slot.span.fromDay);
    if (dayIndex < 0 || endCell <= firstCell || (bay < 0 && technician < 0)) return [];
    return [{ dayIndex, bay, technician, firstCell, endCell }];
  });
}
