import type { OutsideShop } from '../decisions/shop/shopInputs.ts';
import { weekdaysFromText } from '../decisions/shop/weekCalendar.ts';
import { dayFromIso } from '../schema/day.ts';
import type { ShopResource } from '../schema/shopRecordEndpoints.ts';
import { usualWeek } from './planInputsPlaces.ts';

/** Days on which a site is shut, days since 1970-01-01: its own holidays and those of every site. */
export function holidaysOf(resources: readonly ShopResource[], site: string): number[] {
  const days = new Set<number>();
  for (const entry of resources) {
    if (entry.kind !== 'holiday') continue;
    if (entry.site !== null && entry.site.toLowerCase() !== site.toLowerCase()) continue;
    const from = dayFromIso(entry.on);
    const through = entry.through === null ? from : dayFromIso(entry.through);
    // a slip of the year in the last day must not shut a site for a century
    for (let day = from; day <= Math.min(through, from + 366); day += 1) days.add(day);
  }
  return [...days].sort((a, b) => a - b);
}

/** Outside shops and mobile services as the plan takes them. @param nameOf the site as its own record spells it */
export function outsideShopsOf(
  resources: readonly ShopResource[],
  nameOf: (site: string | null) => string | null,
): OutsideShop[] {
  return resources.flatMap((entry): OutsideShop[] =>
    entry.kind !== 'outside_shop'
      ? []
      : [
          {
            name: entry.name,
            mobile: entry.mobile,
            sites: entry.site === null ? null : [nameOf(entry.site) ?? entry.site],
            priceCents: Object.fromEntries(entry.prices.map(({ job, cents }) => [job, cents])),
            turnaroundDays: entry.turnaroundDays,
            weekdays: weekdaysFromText(entry.weekdays) ?? usualWeek,
          },
        ],
  );
}
