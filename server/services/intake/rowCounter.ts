/** How often each row (known by its fingerprint) is there already, and how often the file now being read has it. */
export interface RowCounter {
  /** counts one more row that is in the store */
  addKnown(fingerprint: number): void;
  /** whether no row was counted as being in the store */
  readonly isEmpty: boolean;
  /** whether such a row is in the store */
  has(fingerprint: number): boolean;
  /** counts one more row of the file now being read; read `before` and `seen` right after */
  meet(fingerprint: number): void;
  /** how many such rows were there when the file began, of the last row met */
  readonly before: number;
  /** how many such rows the file had before the last row met */
  readonly seen: number;
  /** ends a file: its rows count as known for the files after it */
  endFile(): void;
}

const most = 0xffff;

/** A counter in typed arrays (open addressing, common practice): about 24 bytes a row, no allocation per row. */
export function rowCounter(): RowCounter {
  let size = 1 << 12;
  let used = 0;
  let keys = new Float64Array(size).fill(-1);
  let known = new Uint16Array(size);
  let inFile = new Uint16Array(size);

  const place = (fingerprint: number): number => {
    const mask = size - 1;
    let at = (Math.imul((fingerprint / 0x100000) | 0, 0x9e3779b1) >>> 7) & mask;
    for (;;) {
      const key = keys[at];
      if (key === fingerprint || key === -1) return at;
      at = (at + 1) & mask;
    }
  };
  const grow = (): void => {
    const [oldKeys, oldKnown, oldInFile] = [keys, known, inFile];
    size *= 2;
    keys = new Float64Array(size).fill(-1);
    known = new Uint16Array(size);
    inFile = new Uint16Array(size);
    for (let at = 0; at < oldKeys.length; at += 1) {
      if (oldKeys[at] === -1) continue;
      const to = place(oldKeys[at]);
      keys[to] = oldKeys[at];
      known[to] = oldKnown[at];
      inFile[to] = oldInFile[at];
    }
  };
  const slot = (fingerprint: number): number => {
    const at = place(fingerprint);
    if (keys[at] === fingerprint) return at;
    if (used >= size * 0.6) {
      grow();
      return slot(fingerprint);
    }
    keys[at] = fingerprint;
    used += 1;
    return at;
  };
  const counter = {
    before: 0,
    seen: 0,
    isEmpty: true,
    addKnown(fingerprint: number): void {
      const at = slot(fingerprint);
      if (known[at] < most) known[at] += 1;
      counter.isEmpty = false;
    },
    has: (fingerprint: number): boolean => known[place(fingerprint)] > 0,
    meet(fingerprint: number): void {
      const at = slot(fingerprint);
      counter.before = known[at];
      counter.seen = inFile[at];
      if (inFile[at] < most) inFile[at] += 1;
    },
    endFile(): void {
      for (let at = 0; at < size; at += 1) if (inFile[at] > known[at]) known[at] = inFile[at];
      inFile.fill(0);
    },
  };
  return counter;
}
