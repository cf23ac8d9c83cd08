/** A unit number of a file, looked up once per spelling. */
export interface UnitSpelling {
  /** as the units file spells it, else as it was first written */
  readonly spelling: string;
  isKnown: boolean;
  isTouched: boolean;
}

const most = 100_000;

/**
 * Looks unit numbers up by any spelling of their letters' case.
 * @param unitNumbers spellings of the units file by lower case; a unit that becomes known is added
 */
export function unitSpellings(unitNumbers: Map<string, string>): (written: string) => UnitSpelling {
  const found = new Map<string, UnitSpelling>();
  return (written) => {
    const before = found.get(written);
    if (before !== undefined) return before;
    const key = written.toLowerCase();
    // a copy of its own: a part of a longer text would keep all of that text in memory
    const own = Buffer.from(written).toString();
    let known = unitNumbers.get(key);
    const unit = {
      isTouched: false,
      get spelling() {
        known ??= unitNumbers.get(key);
        return known ?? own;
      },
      get isKnown() {
        known ??= unitNumbers.get(key);
        return known !== undefined;
      },
      set isKnown(_) {
        if (!unitNumbers.has(key)) unitNumbers.set(key, own);
      },
    };
    if (found.size >= most) found.clear();
    found.set(own, unit);
    return unit;
  };
}
