/** What a look-up compares of a unit. */
export interface SearchedUnit {
  readonly unitNumber: string;
  readonly vin: string | null;
  readonly description: string | null;
  readonly site: string | null;
  readonly engineFamily: string | null;
}

const leastVinPart = 4;
/** shorter ones stand in older papers, and would be found within other codes */
const leastVinLength = 11;

/** Letters and digits alone, in capitals: how a number is written on a door or in a list makes no difference. */
const keyOf = (text: string | null): string => (text ?? '').toUpperCase().replace(/[^\p{L}\p{N}]/gu, '');

/** How well a unit answers to a typed key: 0 best, null not at all. */
function rankOf(unit: SearchedUnit, key: string, words: string): number | null {
  const number = keyOf(unit.unitNumber);
  const vin = keyOf(unit.vin);
  if (number === key) return 0;
  if (vin !== '' && vin === key) return 1;
  if (number.startsWith(key)) return 2;
  if (key.length >= leastVinPart && vin.endsWith(key)) return 3;
  if (number.includes(key)) return 4;
  if (key.length >= leastVinPart && vin.includes(key)) return 5;
  const told = [unit.description, unit.engineFamily, unit.site].filter((part) => part !== null);
  return told.join(' ').toLowerCase().includes(words) ? 6 : null;
}

/**
 * Units that answer to what was typed, best first: the number, the VIN or its last characters, then words of the
 * description, family or site.
 */
export function searchUnits<T extends SearchedUnit>(text: string, units: readonly T[]): T[] {
  const key = keyOf(text);
  if (key === '') return [];
  const words = text.trim().toLowerCase();
  return units
    .flatMap((unit) => {
      const rank = rankOf(unit, key, words);
      return rank === null ? [] : [{ unit, rank }];
    })
    .sort((a, b) => a.rank - b.rank)
    .map(({ unit }) => unit);
}

/**
 * The one unit that a code on a door, a key tag or a plate names: its number, its VIN alone or within the code (a plate's
 * code may begin with a letter of its own), or the address of its page. Null where none or several answer.
 */
export function unitOfCode<T extends SearchedUnit>(code: string, units: readonly T[]): T | null {
  const page = /\/units\/([^/?#]+)/.exec(code);
  let number = code;
  try {
    if (page !== null) number = decodeURIComponent(page[1]);
  } catch {
    return null;
  }
  const key = keyOf(number);
  if (key === '') return null;
  const exact = units.filter((unit) => keyOf(unit.unitNumber) === key);
  if (exact.length === 1) return exact[0];
  const byVin = units.filter(
    (unit) => keyOf(unit.vin).length >= leastVinLength && key.includes(keyOf(unit.vin)),
  );
  return byVin.length === 1 ? byVin[0] : null;
}
