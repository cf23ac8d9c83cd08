const latin: Readonly<Record<string, string>> = {
  а: 'a',
  б: 'b',
  в: 'v',
  г: 'g',
  ґ: 'g',
  д: 'd',
  е: 'e',
  є: 'e',
  ж: 'zh',
  з: 'z',
  и: 'i',
  і: 'i',
  к: 'k',
  л: 'l',
  м: 'm',
  н: 'n',
  о: 'o',
  п: 'p',
  р: 'r',
  с: 's',
  т: 't',
  у: 'u',
  ф: 'f',
  х: 'h',
  ц: 'c',
  ч: 'ch',
  ш: 'sh',
  щ: 'shch',
  ъ: '',
  ы: 'y',
  ь: '',
  э: 'e',
  ю: 'yu',
  я: 'ya',
};

/**
 * Writes Russian and Ukrainian letters in Latin ones by their sound: `замена масла` becomes `zamena masla`. Common
 * practice, no standard's table; the words of the catalog go through the same.
 * @param folded lower case without accents, see fold
 */
export function latinLetters(folded: string): string {
  return folded.replace(/[а-яґєі]/g, (letter) => latin[letter] ?? letter);
}
