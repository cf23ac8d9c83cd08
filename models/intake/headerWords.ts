const foldings: Readonly<Record<string, string>> = {
  ß: 'ss',
  ø: 'o',
  ł: 'l',
  æ: 'ae',
  œ: 'oe',
  đ: 'd',
  ı: 'i',
};

/** Lower case without accents: `Kilométrage` → `kilometrage`, `Öl` → `ol`. */
export function fold(text: string): string {
  return text
    .toLowerCase()
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .replace(/[ßøłæœđı]/g, (letter) => foldings[letter] ?? letter);
}

/** The words of a column name: `OilGrade` → oil, grade; `Unit #` → unit, no. */
export function headerWords(header: string): string[] {
  return fold(header.replace(/([a-z])([A-Z])/g, '$1 $2'))
    .replace(/#|№|n[°º]/g, ' no ')
    .replace(/%/g, ' percent ')
    .replace(/[^a-z0-9]+/g, ' ')
    .trim()
    .split(' ')
    .filter((word) => word !== '');
}

/**
 * Edits between two words (insert, drop, change, swap neighbours), given up past a limit.
 * @returns the number of edits, or `limit + 1` when there are more
 */
export function editDistance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1;
  let before: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, at) => at);
  for (let i = 1; i <= a.length; i += 1) {
    const next = [i];
    let best = i;
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1];
      let value = Math.min((row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1, (row[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        value = Math.min(value, (before[j - 2] ?? 0) + 1);
      next.push(value);
      best = Math.min(best, value);
    }
    if (best > limit) return limit + 1;
    before = row;
    row = next;
  }
  return Math.min(row[b.length] ?? 0, limit + 1);
}
