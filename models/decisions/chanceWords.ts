/**
 * A chance as a frequency that people can picture: 0.11 → "about 1 in 9", 0.3 → "about 3 in 10", 0.0004 → "fewer than 1 in
 * 1000"; two digits at most.
 * @param chance 0..1
 * Source: Gigerenzer and Hoffrage (1995), Psychological Review 102, for saying chances as frequencies.
 */
export function chanceWords(chance: number): string {
  if (chance <= 0.001) return 'fewer than 1 in 1000';
  if (chance >= 0.97) return 'nearly certain';
  if (chance >= 0.25) return `about ${Math.min(9, Math.round(10 * chance))} in 10`;
  const of = 1 / chance;
  return `about 1 in ${of < 20 ? Math.round(of) : Number(of.toPrecision(2))}`;
}

/** The ends of a chance's range: 0.05, 0.2 → "1 in 20 to 1 in 5"; one frequency where both are said alike. */
export function chanceRangeWords(low: number, high: number): string {
  const end = (value: number): string => chanceWords(value).replace('about ', '');
  return end(low) === end(high) ? chanceWords(low) : `${end(low)} to ${end(high)}`;
}

/** A chance as so many cases: 0.94 → "about 9 of 10 cases". */
export function casesWords(chance: number): string {
  return chance >= 0.97 ? 'nearly all cases' : `${chanceWords(chance).replace(' in ', ' of ')} cases`;
}

/** The span that a chance holds for: 365 → "within a year", 90 → "within 90 days". */
export function horizonWords(horizonDays: number): string {
  if (horizonDays >= 360 && horizonDays <= 370) return 'within a year';
  if (horizonDays >= 725 && horizonDays % 365 <= 2) return `within ${Math.round(horizonDays / 365)} years`;
  return `within ${horizonDays} days`;
}
