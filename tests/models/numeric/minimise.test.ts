import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  cholesky,
  inverseOfFactor,
  choleskyLogDeterminant,
  choleskySolve,
} from '../../../models/numeric/cholesky.ts';
import { minimise } from '../../../models/numeric/minimise.ts';
import type { SecondOrderFunction } from '../../../models/numeric/minimise.ts';

fc.configureGlobal({ seed: 20260331 });

/** Rosenbrock's valley, minimum 0 at (1, 1). */
const valley: SecondOrderFunction = (at, gradient, hessian) => {
  const [x, y] = at;
  const bend = y - x * x;
  gradient.set([-2 * (1 - x) - 400 * x * bend, 200 * bend]);
  hessian.set([2 - 400 * (bend - 2 * x * x), -400 * x, -400 * x, 200]);
  return (1 - x) ** 2 + 100 * bend * bend;
};

test('Cholesky of a 2 × 2 matrix worked by hand', () => {
  const factor = cholesky(Float64Array.of(4, 2, 2, 3), 2)!;
  expect([...factor]).toEqual([2, 0, 1, Math.sqrt(2)]);
  expect(choleskyLogDeterminant(factor, 2)).toBeCloseTo(Math.log(8), 14);
  expect([...choleskySolve(factor, 2, [8, 7])]).toEqual([1.25, 1.5].map((v) => expect.closeTo(v, 14)));
  expect([...inverseOfFactor(factor, 2)]).toEqual(
    [0.375, -0.25, -0.25, 0.5].map((v) => expect.closeTo(v, 14)),
  );
  expect(cholesky(Float64Array.of(1, 2, 2, 1), 2)).toBeNull();
});

test('the floor of Rosenbrock’s valley is found', () => {
  const newton = minimise(valley, [-1.2, 1]);
  expect(newton.converged).toBe(true);
  expect([...newton.at]).toEqual([expect.closeTo(1, 6), expect.closeTo(1, 6)]);
});

test('a slope without a floor ends, finite and not converged', () => {
  const slide: SecondOrderFunction = (at, gradient, hessian) => {
    gradient[0] = -1;
    hessian[0] = 0;
    return -at[0];
  };
  const ended = minimise(slide, [0], { maximumSteps: 30 });
  expect(ended.converged).toBe(false);
  expect(Number.isFinite(ended.value)).toBe(true);
  expect(() => minimise(() => NaN, [0])).toThrow('start must have a finite value');
});

test('Newton reaches the floor of any positive definite bowl', () => {
  const real = fc.double({ min: -5, max: 5, noNaN: true });
  fc.assert(
    fc.property(real, real, real, real, real, (a, b, c, x0, y0) => {
      const bowl: SecondOrderFunction = (at, gradient, hessian) => {
        const u = a * at[0] + b * at[1] - 1;
        const v = c * at[1] + 2;
        gradient.set([a * u + at[0], b * u + c * v + at[1]]);
        hessian.set([a * a + 1, a * b, a * b, b * b + c * c + 1]);
        return 0.5 * (u * u + v * v + at[0] * at[0] + at[1] * at[1]);
      };
      const found = minimise(bowl, [x0, y0]);
      expect(found.converged).toBe(true);
      expect(Math.hypot(...found.gradient)).toBeLessThan(1e-4);
    }),
  );
});
