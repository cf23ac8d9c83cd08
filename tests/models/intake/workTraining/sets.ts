import { readdirSync, readFileSync } from 'node:fs';
import wordsFile from '../../../../data/catalog/work-words.json';
import { compileWorkWords, workWordsFile } from '../../../../models/intake/workWords.ts';
import type { ShopText } from './train.ts';

/** The catalog of words as the product reads it. */
export const catalog = workWordsFile.parse(wordsFile);
export const words = compileWorkWords(catalog);

/** Sets that nothing is learned from. */
const heldBack: ReadonlySet<string> = new Set(['set 24', 'set 25']);

const folder = new URL('../workTexts/', import.meta.url);
const textsIn = (file: string) =>
  JSON.parse(readFileSync(new URL(file, folder), 'utf8')) as readonly ShopText[];

/** All sets in the order of their numbers, "set 01" and on, each by its writer, see `../work-texts.md`. */
const allSets: readonly (readonly [string, readonly ShopText[]])[] = readdirSync(folder)
  .sort((one, other) => Number.parseInt(one, 10) - Number.parseInt(other, 10))
  .map((file) => [`set ${file.replace('.json', '')}`, textsIn(file)]);

type Sets = Readonly<Record<string, readonly ShopText[]>>;

/** The sets that the second reader learned from. */
export const learnedSets: Sets = Object.fromEntries(allSets.filter(([name]) => !heldBack.has(name)));

/** What texts never met may expect is measured on these. */
export const unmetSets: Sets = Object.fromEntries(allSets.filter(([name]) => heldBack.has(name)));
