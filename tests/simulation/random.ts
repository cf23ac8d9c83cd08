/** A seeded stream of numbers: the same on every machine, independent of the clock and the locale. */
export interface Random {
  /** 0 (included) to 1 (excluded) */
  readonly uniform: () => number;
  /** mean 0, sd 1, within ±6 */
  readonly normal: () => number;
  /** exp(sd × normal): median 1 */
  readonly logNormal: (sd: number) => number;
  /** whole number from low to high, both included */
  readonly integer: (low: number, high: number) => number;
  readonly chance: (probability: number) => boolean;
  readonly pick: <T>(list: readonly T[]) => T;
}

/**
 * A stream for one purpose of one seed (Chris Doty-Humphrey's small fast counter generator, sfc32). Streams with other
 * labels are independent, so a change in one unit leaves the others as they were.
 */
export function randomFrom(seed: number, label: string): Random {
  let [a, b, c, d] = wordsOf(`${seed}|${label}`);
  const uniform = () => {
    const t = (((a + b) | 0) + d) | 0;
    d = (d + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (c << 21) | (c >>> 11);
    c = (c + t) | 0;
    return (t >>> 0) / 4294967296;
  };
  for (let i = 0; i < 15; i++) uniform();
  // a sum of twelve uniform numbers: additions only, so no library function can differ between machines
  const normal = () => {
    let sum = -6;
    for (let i = 0; i < 12; i++) sum += uniform();
    return sum;
  };
  const integer = (low: number, high: number) => low + Math.floor(uniform() * (high - low + 1));
  return {
    uniform,
    normal,
    logNormal: (sd) => Math.exp(sd * normal()),
    integer,
    chance: (probability) => uniform() < probability,
    pick: (list) => {
      if (list.length === 0) throw new Error('pick: list must not be empty, got 0 entries');
      return list[integer(0, list.length - 1)]!;
    },
  };
}

/** Four 32-bit words from a text (FNV-1a with four offsets). */
function wordsOf(text: string): [number, number, number, number] {
  const words: [number, number, number, number] = [2166136261, 3339675911, 2806480373, 1];
  for (let w = 0; w < 3; w++) {
    let hash = words[w]!;
    for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 16777619);
    words[w] = hash | 0;
  }
  return words;
}
