import { editDistance } from './headerWords.ts';
import { alikeKey, type WorkWords } from './workWords.ts';

/** Short words are too alike for any other slip of the pen: `blet`. */
function swapped(word: string, words: WorkWords): string | null {
  const found = (words.alike.get(alikeKey(word, word.length)) ?? []).filter(
    (candidate) => words.core.has(candidate) && isSwap(word, candidate),
  );
  return found.length === 1 ? (found[0] ?? null) : null;
}

function isSwap(word: string, candidate: string): boolean {
  const letters = (text: string) => [...text].sort().join('');
  return letters(word) === letters(candidate) && editDistance(word, candidate, 1) === 1;
}

const consonants = (text: string) => text.replace(/[aeiou]/g, '');

/** A word written without its vowels: `slnd`, `tnsnr`, `rplcd`; null when it could be several. */
function withoutVowels(word: string, words: WorkWords): string | null {
  if (word.length < 4 || /[aeiou]/.test(word)) return null;
  const found = new Set([...words.core].filter((candidate) => consonants(candidate) === word));
  const [only] = found;
  return only !== undefined && (found.size === 1 || sameSign(found, words)) ? only : null;
}

/** The word that a misspelling stands for: one edit from five letters on, two from eleven; null when none or two fit. */
export function mended(word: string, words: WorkWords): string | null {
  const skeleton = withoutVowels(word, words);
  if (skeleton !== null) return skeleton;
  if (word.length === 4) return swapped(word, words);
  const limit = word.length >= 11 ? 2 : word.length >= 5 ? 1 : 0;
  for (let distance = 1; distance <= limit; distance += 1) {
    const found = new Set<string>();
    for (let length = word.length - distance; length <= word.length + distance; length += 1)
      for (const candidate of words.alike.get(alikeKey(word, length)) ?? [])
        if (candidate.length >= 5 && editDistance(word, candidate, distance) <= distance)
          found.add(candidate);
    const likely = [...found].filter((candidate) => words.core.has(candidate));
    const [only] = likely.length === 1 ? likely : found;
    if (only !== undefined && (found.size === 1 || likely.length === 1 || sameSign(found, words)))
      return only;
    if (found.size > 0) return null;
  }
  return null;
}

/** Several words within reach are fine when they mean the same: replace, replaced. */
function sameSign(found: ReadonlySet<string>, words: WorkWords): boolean {
  const meanings = new Set([...found].map((word) => JSON.stringify(words.signs.get(word) ?? word)));
  return meanings.size === 1;
}

/** Two words written as one: `timingchain`. */
export function twoWords(word: string, words: WorkWords): [string, string] | null {
  for (let at = 3; at <= word.length - 4; at += 1) {
    const pair: [string, string] = [word.slice(0, at), word.slice(at)];
    if (pair.every((part) => words.known.has(part)) && (words.core.has(pair[0]) || words.core.has(pair[1])))
      return pair;
  }
  return null;
}
