/** Nodes and weights with which a standard normal expectation becomes a weighted sum. */
export interface NormalRule {
  /** standard normal deviates */
  readonly nodes: Float64Array;
  /** probabilities, adding up to 1 */
  readonly weights: Float64Array;
}

/**
 * Gauss–Hermite rule for an expectation over a standard normal: E f(Z) ≈ Σ weight f(node), exact for polynomials up to
 * degree 2n − 1. Newton's method on the orthonormal Hermite recurrence (Abramowitz & Stegun 25.4.46, with x = node/√2).
 * @param points 1 to 64
 * @returns nodes in ascending order; three points: −√3, 0, √3 with weights 1/6, 2/3, 1/6
 * @throws RangeError when points is no whole number from 1 to 64
 */
export function gaussHermite(points: number): NormalRule {
  if (!(Number.isInteger(points) && points >= 1 && points <= 64))
    throw new RangeError(`points must be a whole number from 1 to 64, got ${points}`);
  const nodes = new Float64Array(points);
  const weights = new Float64Array(points);
  const slopes = interlacedRoots(points);
  for (let i = 0; i < points; i++) {
    nodes[i] = slopes[i];
    let before = 0;
    let value = 1;
    for (let degree = 0; degree < points - 1; degree++) {
      const next = (nodes[i] * value - Math.sqrt(degree) * before) / Math.sqrt(degree + 1);
      before = value;
      value = next;
    }
    // derivative of the orthonormal polynomial of degree n is √n times that of degree n − 1
    weights[i] = 1 / (points * value * value);
  }
  return { nodes, weights };
}

/** Roots of the probabilists' Hermite polynomial, found by bisection between the roots of the degree below. */
function interlacedRoots(points: number): Float64Array {
  let roots = Float64Array.of(0);
  for (let degree = 2; degree <= points; degree++) {
    const reach = Math.sqrt(4 * degree + 2);
    const edges = [-reach, ...roots, reach];
    const next = new Float64Array(degree);
    for (let i = 0; i < degree; i++) {
      let low = edges[i];
      let high = edges[i + 1];
      const lowSign = Math.sign(hermite(degree, low));
      for (let step = 0; step < 200 && high - low > 1e-16 * reach; step++) {
        const middle = 0.5 * (low + high);
        if (middle === low || middle === high) break;
        if (Math.sign(hermite(degree, middle)) === lowSign) low = middle;
        else high = middle;
      }
      next[i] = 0.5 * (low + high);
    }
    if (degree % 2 === 1) next[(degree - 1) / 2] = 0;
    roots = next;
  }
  return roots;
}

function hermite(degree: number, x: number): number {
  let before = 0;
  let value = 1;
  for (let k = 0; k < degree; k++) {
    const next = (x * value - Math.sqrt(k) * before) / Math.sqrt(k + 1);
    before = value;
    value = next;
  }
  return value;
}
