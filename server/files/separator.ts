import type { Separator } from './csvRows.ts';

const separators: readonly Separator[] = [',', ';', '\t', '|'];

/** Separators per row of the first rows, leaving out what stands in quotes. */
function countsPerRow(text: string, separator: Separator, rows: number): number[] {
  const counts: number[] = [];
  let count = 0;
  let quoted = false;
  let blank = true;
  for (let at = 0; at < text.length && counts.length < rows; at += 1) {
    const letter = text[at];
    if (letter === '"') quoted = !quoted;
    else if (!quoted && letter === separator) count += 1;
    else if (!quoted && (letter === '\n' || letter === '\r')) {
      if (!blank) counts.push(count);
      count = 0;
      blank = true;
      continue;
    }
    if (letter !== ' ') blank = false;
  }
  if (!blank && counts.length < rows) counts.push(count);
  return counts;
}

function mostCommon(counts: readonly number[]): { value: number; share: number } {
  const tally = new Map<number, number>();
  for (const count of counts) if (count > 0) tally.set(count, (tally.get(count) ?? 0) + 1);
  let value = 0;
  let times = 0;
  for (const [count, seen] of tally)
    if (seen > times || (seen === times && count > value)) {
      value = count;
      times = seen;
    }
  return { value, share: counts.length === 0 ? 0 : times / counts.length };
}

/**
 * The separator that splits most rows into the same number of cells; a comma when nothing does (one column). A first
 * line `sep=;`, as spreadsheet programs write it, settles it.
 * @param text the beginning of the file
 */
export function detectSeparator(text: string): Separator {
  const told = /^sep=([,;\t|])\r?\n/i.exec(text)?.[1];
  if (told !== undefined) return told as Separator;
  let best: Separator = ',';
  let bestScore = 0;
  for (const separator of separators) {
    const { value, share } = mostCommon(countsPerRow(text, separator, 60));
    const score = share * share * Math.log2(1 + value);
    if (score > bestScore * 1.0001) {
      best = separator;
      bestScore = score;
    }
  }
  return best;
}
