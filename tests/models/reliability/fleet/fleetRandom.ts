/** A source of numbers from 0 up to, not including, 1. */
export type Random = () => number;

/**
 * Repeatable random numbers from a seed (the mulberry32 mixing of a 32-bit counter, public domain, value from memory).
 * @param seed any whole number
 * @returns a function giving numbers in [0, 1)
 */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/**
 * One standard normal number (Box and Muller 1958).
 * @param random uniform numbers in [0, 1)
 */
export function normalDraw(random: Random): number {
  const radius = Math.sqrt(-2 * Math.log(1 - random()));
  return radius * Math.cos(2 * Math.PI * random());
}
