/** A cumulative hazard with gradient and lower Hessian by an episode's local parameters. */
export interface HazardSums {
  value: number;
  readonly first: Float64Array;
  readonly second: Float64Array;
}

export function hazardSumsFor(localCount: number): HazardSums {
  return { value: 0, first: new Float64Array(localCount), second: new Float64Array(localCount * localCount) };
}

export function clearHazard(sums: HazardSums): void {
  sums.value = 0;
  sums.first.fill(0);
  sums.second.fill(0);
}

/** The log of (damage/scale)^shape at one stop, with derivatives by log shape, log scale, clock effects and log idle weight. */
export interface PowerStop {
  /** ln (damage/scale)^shape; −Infinity where nothing has run */
  log: number;
  logDamage: number;
  readonly first: Float64Array;
  /** lower triangle, without the part that the exponential adds */
  readonly second: Float64Array;
}

export function powerStopFor(q: number): PowerStop {
  return { log: 0, logDamage: 0, first: new Float64Array(2 + q), second: new Float64Array((2 + q) ** 2) };
}

/**
 * Derivatives of u = shape (ln D − logScale), for D with gradient `dFirst` and lower Hessian `dSecond` (offsets in arrays of all stops).
 */
export function setPowerStop(
  stop: PowerStop,
  shape: number,
  logScale: number,
  damage: number,
  dFirst: Float64Array,
  dSecond: Float64Array,
  q: number,
): void {
  const { first, second } = stop;
  const size = 2 + q;
  stop.logDamage = damage > 0 ? Math.log(damage) : -Infinity;
  stop.log = damage > 0 ? shape * (stop.logDamage - logScale) : -Infinity;
  if (!(damage > 0)) return;
  first[0] = stop.log;
  first[1] = -shape;
  second[0] = stop.log;
  second[size] = -shape;
  second[size + 1] = 0;
  for (let j = 0; j < q; j++) {
    const slope = dFirst[j] / damage;
    const row = (2 + j) * size;
    first[2 + j] = shape * slope;
    second[row] = shape * slope;
    second[row + 1] = 0;
    for (let k = 0; k <= j; k++)
      second[row + 2 + k] = shape * (dSecond[j * q + k] / damage - (slope * dFirst[k]) / damage);
  }
}

/** Adds weight × (damage/scale)^shape × e^(evidence effects), with the weight already holding the last factor. */
export function addHazard(
  sums: HazardSums,
  weight: number,
  stop: PowerStop,
  evidence: Float64Array,
  from: number,
  count: number,
  withDerivatives: boolean,
): void {
  if (stop.log === -Infinity) return;
  const value = weight * Math.exp(stop.log);
  sums.value += value;
  if (!withDerivatives) return;
  const inner = stop.first.length;
  const size = inner + count;
  const { first, second } = sums;
  for (let i = 0; i < inner; i++) {
    const slope = value * stop.first[i];
    first[i] += slope;
    for (let k = 0; k <= i; k++)
      second[i * size + k] += slope * stop.first[k] + value * stop.second[i * inner + k];
  }
  for (let j = 0; j < count; j++) {
    const part = value * evidence[from + j];
    if (part === 0) continue;
    const row = (inner + j) * size;
    first[inner + j] += part;
    for (let i = 0; i < inner; i++) second[row + i] += part * stop.first[i];
    for (let k = 0; k <= j; k++) second[row + inner + k] += part * evidence[from + k];
  }
}
