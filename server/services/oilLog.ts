import type { OilEntry } from '../../models/schema/shopEndpoints.ts';
import { listOilEntries, oilFilledByCards } from '../store/oilEntries.ts';
import type { Store } from '../store/openStore.ts';

const tidy = (liters: number): number => Number(liters.toFixed(2));

/** Used oil in the drums, and bulk oil drawn against what the cards filled; grades without a drawing are left out. */
export function oilLog(
  store: Store,
  site: string | null,
): {
  entries: OilEntry[];
  inDrums: { site: string | null; liters: number }[];
  bulk: { site: string | null; grade: string; drawnL: number; usedByCardsL: number; differenceL: number }[];
} {
  const entries = listOilEntries(store, site);
  const drums = new Map<string | null, number>();
  const drawn = new Map<string, { site: string | null; grade: string; liters: number }>();
  const keyOf = (place: string | null, grade: string): string =>
    `${(place ?? '').toLowerCase()}|${grade.toLowerCase()}`;
  for (const entry of entries) {
    if (entry.kind !== 'bulk_drawn')
      drums.set(
        entry.site,
        (drums.get(entry.site) ?? 0) + (entry.kind === 'collected' ? entry.liters : -entry.liters),
      );
    else if (entry.grade !== null) {
      const key = keyOf(entry.site, entry.grade);
      const sum = drawn.get(key) ?? { site: entry.site, grade: entry.grade, liters: 0 };
      drawn.set(key, { ...sum, liters: sum.liters + entry.liters });
    }
  }
  const filled = new Map(oilFilledByCards(store).map((row) => [keyOf(row.site, row.grade), row.liters]));
  return {
    entries,
    inDrums: [...drums].map(([place, liters]) => ({ site: place, liters: tidy(liters) })),
    bulk: [...drawn].map(([key, { site: place, grade, liters }]) => {
      const usedByCardsL = tidy(filled.get(key) ?? 0);
      return {
        site: place,
        grade,
        drawnL: tidy(liters),
        usedByCardsL,
        differenceL: tidy(liters - usedByCardsL),
      };
    }),
  };
}
