/** A source of numbers from 0 up to, not including, 1; passed in, so that a run can be repeated. */
export type Random = () => number;

/**
 * Small fast counting generator sfc32 (Chris Doty-Humphrey, PractRand, public domain): 128 bits of state with a counter,
 * period at least 2³². The seed fills one word; the others are fixed, and 20 rounds mix them before the first number.
 * @param seed any whole number, used modulo 2³²
 * @returns a function giving numbers in [0, 1) in steps of 2⁻³²; the same seed gives the same numbers
 * @throws RangeError when the seed is no whole number
 */
export function seededRandom(seed: number): Random {
  if (!Number.isInteger(seed)) throw new RangeError(`seed must be a whole number, got ${seed}`);
  let a = 0x9e3779b9 | 0;
  let b = 0x243f6a88 | 0;
  let c = seed | 0;
  let counter = 1;
  const next = () => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + sum;
    c |= 0;
    return (sum >>> 0) / 4294967296;
  };
  for (let round = 0; round < 20; round++) next();
  return next;
}

/**
 * Standard normal numbers by the polar method (Marsaglia & Bray, SIAM Review 6, 1964), two for each pair of uniforms.
 * @param random uniform numbers in [0, 1)
 * @returns a function giving standard normal deviates
 */
export function normalDraws(random: Random): () => number {
  let spare = Number.NaN;
  return () => {
    if (spare === spare) {
      const kept = spare;
      spare = Number.NaN;
      return kept;
    }
    let [x, y, square] = [0, 0, 0];
    do {
      x = 2 * random() - 1;
      y = 2 * random() - 1;
      square = x * x + y * y;
    } while (square >= 1 || square === 0);
    const factor = Math.sqrt((-2 * Math.log(square)) / square);
    spare = y * factor;
    return x * factor;
  };
}

/**
 * One standard normal number (Box and Muller 1958), for a few of them at a time.
 * @param random uniform numbers in [0, 1)
 */
export function normalDraw(random: Random): number {
  const radius = Math.sqrt(-2 * Math.log(1 - random()));
  return radius * Math.cos(2 * Math.PI * random());
}
