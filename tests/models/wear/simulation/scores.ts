/** Ranks 1..n with ties shared. */
function ranks(values: readonly number[]): number[] {
  const order = values.map((value, index) => ({ value, index })).sort((a, b) => a.value - b.value);
  const found = new Array<number>(values.length);
  for (let i = 0; i < order.length;) {
    let j = i;
    while (j + 1 < order.length && order[j + 1].value === order[i].value) j++;
    for (let k = i; k <= j; k++) found[order[k].index] = (i + j) / 2 + 1;
    i = j + 1;
  }
  return found;
}

/** Spearman's rank correlation. */
export function spearman(a: readonly number[], b: readonly number[]): number {
  const x = ranks(a);
  const y = ranks(b);
  const mean = (a.length + 1) / 2;
  let xy = 0;
  let xx = 0;
  let yy = 0;
  for (let i = 0; i < x.length; i++) {
    xy += (x[i] - mean) * (y[i] - mean);
    xx += (x[i] - mean) ** 2;
    yy += (y[i] - mean) ** 2;
  }
  return xy / Math.sqrt(xx * yy);
}

/** Share of truths inside their ranges. */
export function coverage(
  ranges: readonly { readonly low: number; readonly high: number }[],
  truths: readonly number[],
): number {
  return (
    truths.filter((truth, i) => truth >= ranges[i].low && truth <= ranges[i].high).length / truths.length
  );
}

/** Root mean square of the logarithm of estimate against truth, both shifted up by `floor`. */
export function logError(estimates: readonly number[], truths: readonly number[], floor: number): number {
  const sum = truths.reduce(
    (total, truth, i) => total + Math.log((estimates[i] + floor) / (truth + floor)) ** 2,
    0,
  );
  return Math.sqrt(sum / truths.length);
}
