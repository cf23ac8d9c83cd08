/**
 * Several arrays of one length in one piece of memory; a piece each would cost more than what is worked out in them.
 * @returns a function that hands out the next array, all 0, `count` times
 */
export function arraysOf(count: number, length: number): () => Float64Array {
  const buffer = new ArrayBuffer(count * length * 8);
  let next = 0;
  return () => {
    if (next >= count) throw new Error(`arrays must be asked for ${count} times at most, got one more`);
    return new Float64Array(buffer, next++ * length * 8, length);
  };
}
