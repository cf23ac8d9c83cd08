import { readdirSync, readFileSync } from 'node:fs';
import wordsFile from '../../../../data/catalog/work-words.json';
import { compileWorkWords, workWordsFile } from '../../../../models/intake/workWords.ts';
import type { ShopText } from './train.ts';

/** The catalog of words as the product reads it. */
export const catalog = workWordsFile.parse(wordsFile);
export const words = compileWorkWords(catalog);

/** Sets that nothing is learned from and no rule was mended by, as "set 33". */
const heldBack: ReadonlySet<string> = new Set([55, 56, 57, 58, 59, 60, 61, 62, 63].map((n) => `set ${n}`));

const folder = new URL('../workTexts/', import.meta.url);
const textsIn = (file: string) =>
  JSON.parse(readFileSync(new URL(file, folder), 'utf8')) as readonly ShopText[];

type Sets = Readonly<Record<string, readonly ShopText[]>>;

/** All sets in the order of their numbers, "set 01" and on, each by its writer, see `../work-texts.md`. */
export const allSets: Sets = Object.fromEntries(
  readdirSync(folder)
    .sort((one, other) => Number.parseInt(one, 10) - Number.parseInt(other, 10))
    .map((file) => [`set ${file.replace('.json', '')}`, textsIn(file)]),
);

/** The sets that the second reader learned from. */
export const learnedSets: Sets = Object.fromEntries(
  Object.entries(allSets).filter(([name]) => !heldBack.has(name)),
);

/** Texts that neither the rules nor the second reader ever met: how new texts are read. */
export const heldBackSets: Sets = Object.fromEntries(
  Object.entries(allSets).filter(([name]) => heldBack.has(name)),
);
