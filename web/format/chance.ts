import { rounded } from './measures.ts';

/** A chance as a frequency people can picture: "about 1 in 9", "fewer than 1 in 1 000", "about 3 in 4". */
export function oneIn(probability: number): string {
  if (probability <= 0.001) return 'fewer than 1 in 1 000';
  if (probability >= 0.97) return 'nearly certain';
  if (probability > 0.4) {
    const of = [2, 3, 4, 5, 10].reduce((best, candidate) =>
      Math.abs(Math.round(probability * candidate) / candidate - probability) <
      Math.abs(Math.round(probability * best) / best - probability) - 0.02
        ? candidate
        : best,
    );
    return `about ${Math.max(1, Math.round(probability * of))} in ${of}`;
  }
  return `about 1 in ${rounded(1 / probability)}`;
}

/** A chance with its 80 % range: "about 1 in 9; 1 in 20 to 1 in 5". */
export function chanceWithRange(probability: number, low: number, high: number): string {
  const end = (value: number): string => oneIn(value).replace('about ', '');
  return `${oneIn(probability)}; ${end(low)} to ${end(high)}`;
}
