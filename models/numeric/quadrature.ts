/** Nodes and weights of an n-point Gauss–Legendre rule on [−1, 1]. */
export interface QuadratureRule {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

/**
 * Gauss–Legendre rule by Newton's method on the Legendre recurrence (Abramowitz & Stegun 25.4.30).
 * @param points number of nodes, 1 or more
 * @returns nodes and weights on [−1, 1]; two points stand at ±0.5773502692 with weight 1
 * @throws RangeError when points is below 1 or no whole number
 */
export function gaussLegendre(points: number): QuadratureRule {
  if (!(Number.isInteger(points) && points >= 1))
    throw new RangeError(`points must be a whole number from 1, got ${points}`);
  const nodes = new Float64Array(points);
  const weights = new Float64Array(points);
  for (let i = 0; i < points; i++) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (points + 0.5));
    let slope = 1;
    for (let step = 0; step < 100; step++) {
      let value = 1;
      let before = 0;
      for (let degree = 1; degree <= points; degree++) {
        const next = ((2 * degree - 1) * x * value - (degree - 1) * before) / degree;
        before = value;
        value = next;
      }
      slope = (points * (x * value - before)) / (x * x - 1);
      const change = value / slope;
      x -= change;
      if (Math.abs(change) < 1e-15) break;
    }
    nodes[i] = x;
    weights[i] = 2 / ((1 - x * x) * slope * slope);
  }
  return { nodes, weights };
}

const rule = gaussLegendre(16);

/**
 * Integral of a smooth function over [from, to] by composite 16-point Gauss–Legendre.
 * @param panels equal parts the range is cut into, 1 or more
 * @returns the integral; integrate(Math.exp, 0, 1) → 1.718281828459045
 */
export function integrate(integrand: (x: number) => number, from: number, to: number, panels = 1): number {
  const half = (to - from) / panels / 2;
  let sum = 0;
  for (let panel = 0; panel < panels; panel++) {
    const middle = from + (2 * panel + 1) * half;
    for (let i = 0; i < rule.nodes.length; i++)
      sum += rule.weights[i]! * integrand(middle + half * rule.nodes[i]!);
  }
  return sum * half;
}
