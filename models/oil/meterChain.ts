/**
 * The heaviest chain of meter points that only ever goes up and never faster than a limit: the fewest points are
 * left out. Points i, j may follow one another when v_i ≤ v_j and v_j − v_i ≤ limit·(d_j − d_i + slack). With
 * b = limit·d − v this is v_i ≤ v_j and b_i ≤ b_j + limit·slack: a longest increasing run in two orders, found in
 * n·log n steps with a tree of prefix maxima.
 * @param days whole days of the points, in any order
 * @param values meter values, same order
 * @param weights how often each point is on record
 * @param limitPerDay largest believable use a day, above 0, unit of the values per day
 * @param slackDays days that same-day readings may be apart beyond their dates, 0 up to below 1
 * @returns 1 for each point kept; (0, 100), (1, 900), (2, 120) at 100 a day keeps the first and the last
 * Source: longest increasing subsequence (Fredman, Discrete Mathematics 11 (1975), 29-35), prefix-maximum tree.
 */
export function heaviestChain(
  days: ArrayLike<number>,
  values: ArrayLike<number>,
  weights: ArrayLike<number>,
  limitPerDay: number,
  slackDays: number,
): Uint8Array {
  const count = days.length;
  const keep = new Uint8Array(count);
  if (count === 0) return keep;
  const slack = limitPerDay * slackDays;
  const order = Array.from({ length: count }, (_, i) => i).sort(
    (a, b) => values[a] - values[b] || days[a] - days[b],
  );
  const lag = new Float64Array(count);
  for (let i = 0; i < count; i++) lag[i] = limitPerDay * days[i] - values[i];
  const ranks = Float64Array.from(lag).sort();
  const upTo = (limit: number): number => {
    let low = 0;
    let high = count;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (ranks[middle] <= limit) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  const best = new Float64Array(count);
  const before = new Int32Array(count).fill(-1);
  const tree = new Int32Array(count + 1).fill(-1);
  for (const point of order) {
    let top = -1;
    for (let at = upTo(lag[point] + slack); at > 0; at -= at & -at) {
      const other = tree[at];
      if (other >= 0 && (top < 0 || best[other] > best[top])) top = other;
    }
    before[point] = top;
    best[point] = weights[point] + (top >= 0 ? best[top] : 0);
    for (let at = upTo(lag[point]); at <= count; at += at & -at) {
      const other = tree[at];
      if (other < 0 || best[point] > best[other]) tree[at] = point;
    }
  }
  let last = order[0];
  for (const point of order) if (best[point] > best[last]) last = point;
  for (let point = last; point >= 0; point = before[point]) keep[point] = 1;
  return keep;
}
