import { chanceRangeWords, chanceWords } from '../../models/decisions/chanceWords.ts';
import { plain } from './measures.ts';

/** The one number of four digits that chances are said with, as the reader groups it. */
const grouped = (words: string): string => words.replace('1000', plain(1000));

/** A chance as a frequency people can picture: "about 1 in 9", "about 3 in 10", "fewer than 1 in 1,000". */
export function oneIn(probability: number): string {
  return grouped(chanceWords(probability));
}

/** The 80 % range of a chance alone: "1 in 20 to 1 in 5". */
export function chanceRange(low: number, high: number): string {
  return grouped(chanceRangeWords(low, high));
}

/** A chance with its 80 % range: "about 1 in 9; 1 in 20 to 1 in 5". */
export function chanceWithRange(probability: number, low: number, high: number): string {
  return `${oneIn(probability)}; ${chanceRange(low, high)}`;
}
