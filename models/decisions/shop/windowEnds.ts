import type { VisitPlace } from './placeRegrets.ts';
import type { SiteProblem } from './siteProblem.ts';

/**
 * First day after a window that begins on a day and has at most so many places, two days at least.
 * @param places a visit counts once for each day on which it may begin, however many lanes could take it
 */
export function windowEnds(
  { table }: SiteProblem,
  places: readonly VisitPlace[],
  mostPlaces: number,
): (fromDay: number) => number {
  const weight = dayPlaces({ table }, places, ({ lane }) => [lane]);
  const days = table.days.length;
  return (fromDay) => {
    let end = fromDay;
    for (let sum = 0; end < days && (end < fromDay + 2 || sum + weight[end] <= mostPlaces); end++)
      sum += weight[end];
    return end;
  };
}

/** Places by open day: of the lanes that count, each visit once a day. */
export function dayPlaces(
  { table }: Pick<SiteProblem, 'table'>,
  places: readonly VisitPlace[],
  counted: (place: VisitPlace) => readonly number[],
): Float64Array {
  const days = table.days.length;
  const weight = new Float64Array(days);
  const seen = new Set<number>();
  for (const place of places)
    for (const lane of counted(place)) {
      if (lane < 0) continue;
      const key = place.visit * days + table.laneDay[lane];
      if (seen.has(key)) continue;
      seen.add(key);
      weight[table.laneDay[lane]] += 1;
    }
  return weight;
}
