import type { CutRules } from './windowRules.ts';
import type { SiteProblem } from './siteProblem.ts';
import type { PlaceRegrets } from './placeRegrets.ts';
import { dayPlaces } from './windowEnds.ts';

/** Open days from … to before. */
export interface DayWindow {
  readonly fromDay: number;
  readonly toDay: number;
}

/**
 * Cuts the open days into windows of at most so many places, at days where room is worth little, so that few visits on one
 * side would rather be on the other.
 * @param mostPlaces by window; a day of its own may have more
 * @returns windows in order that cover all days
 */
export function dayWindows(
  { table }: SiteProblem,
  { places, dayCents, roomCents }: PlaceRegrets,
  mostPlaces: number,
  rules: CutRules,
): readonly DayWindow[] {
  const dayCount = table.days.length;
  const weight = dayPlaces({ table }, places, ({ lanes }) => lanes);
  for (let d = 0; d < dayCount; d++)
    if (dayCents[d] > rules.scarceCents * (table.laneStart[d + 1] - table.laneStart[d]))
      weight[d] *= rules.scarceWeight;
  const whole = roomCents(0, dayCount);
  const cut = (d: number) =>
    d === dayCount
      ? 0
      : rules.cents +
        roomCents(0, d) +
        roomCents(d, dayCount) -
        whole +
        rules.roomShare * (dayCents[d - 1] + dayCents[d]);
  const cuts = Float64Array.from({ length: dayCount + 1 }, (_, d) => (d === 0 ? 0 : cut(d)));
  const least = new Float64Array(dayCount + 1).fill(Infinity);
  const former = new Int32Array(dayCount + 1);
  least[0] = 0;
  for (let d = 0; d < dayCount; d++) {
    let sum = 0;
    for (let end = d + 1; end <= dayCount; end++) {
      sum += weight[end - 1];
      if (end > d + 1 && sum > mostPlaces) break;
      const cents = least[d] + cuts[end];
      if (cents >= least[end]) continue;
      least[end] = cents;
      former[end] = d;
    }
  }
  const windows: DayWindow[] = [];
  for (let end = dayCount; end > 0; end = former[end]) windows.unshift({ fromDay: former[end], toDay: end });
  return windows;
}
