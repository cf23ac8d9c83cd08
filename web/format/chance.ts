import { plain, rounded } from './measures.ts';

/** A chance as a frequency people can picture: "about 1 in 9", "about 3 in 10", "fewer than 1 in 1,000". */
export function oneIn(probability: number): string {
  if (probability <= 0.001) return `fewer than 1 in ${plain(1000)}`;
  if (probability >= 0.97) return 'nearly certain';
  if (probability >= 0.25) return `about ${Math.min(9, Math.round(10 * probability))} in 10`;
  const of = 1 / probability;
  return `about 1 in ${of < 20 ? String(Math.round(of)) : rounded(of)}`;
}

/** The 80 % range of a chance alone: "1 in 20 to 1 in 5". */
export function chanceRange(low: number, high: number): string {
  const end = (value: number): string => oneIn(value).replace('about ', '');
  return end(low) === end(high) ? oneIn(low) : `${end(low)} to ${end(high)}`;
}

/** A chance with its 80 % range: "about 1 in 9; 1 in 20 to 1 in 5". */
export function chanceWithRange(probability: number, low: number, high: number): string {
  return `${oneIn(probability)}; ${chanceRange(low, high)}`;
}

/** The span that a chance holds for, in words: "within a year", "within 90 days". */
export function horizonWords(horizonDays: number): string {
  if (horizonDays >= 360 && horizonDays <= 370) return 'within a year';
  if (horizonDays >= 725 && horizonDays % 365 <= 2) return `within ${Math.round(horizonDays / 365)} years`;
  return `within ${plain(horizonDays)} days`;
}
