import { expect, test } from 'vitest';
import { solveMilp, type MilpLimits, type MilpProblem } from '../../../models/decisions/milpSolver.ts';
import { seededRandom } from '../../../models/numeric/random.ts';
import { highs } from './highs.ts';

/** Forty things in five sacks that all would overfill: each of the sacks counts every thing anew. */
function sacks(): MilpProblem {
  const numCols = 40;
  const numRows = 5;
  const random = seededRandom(3);
  const values = Float64Array.from({ length: numCols * numRows }, () => 10 + Math.floor(90 * random()));
  return {
    numCols,
    numRows,
    colCost: Float64Array.from(
      { length: numCols },
      (_, i) =>
        -Array.from({ length: numRows }, (_, row) => values[row * numCols + i]).reduce((a, b) => a + b, 0),
    ),
    colLower: new Float64Array(numCols),
    colUpper: new Float64Array(numCols).fill(1),
    rowLower: new Float64Array(numRows).fill(-Infinity),
    rowUpper: new Float64Array(numRows).fill(1000),
    matrix: {
      format: 'csr',
      numRows,
      numCols,
      starts: Int32Array.from({ length: numRows + 1 }, (_, row) => row * numCols),
      indices: Int32Array.from({ length: numCols * numRows }, (_, i) => i % numCols),
      values,
    },
    integrality: new Int32Array(numCols).fill(1),
  };
}

test('a solve without hope is given up early, and what it says then still holds', () => {
  const limits: MilpLimits = { nodes: 400, steps: 1e6, absoluteGap: 0 };
  const solve = (hope?: MilpLimits['hope']) =>
    solveMilp(highs, sacks(), 0, Infinity, null, hope === undefined ? limits : { ...limits, hope });
  const whole = solve();
  expect(whole.values).not.toBeNull();
  expect(whole.steps).toBeGreaterThan(400);
  // no bound is that high
  const hopeless = solve({ steps: 100, bound: 0 });
  expect(hopeless.status).toBe('stopped');
  expect(hopeless.steps).toBeLessThan(whole.steps);
  expect(hopeless.bound).toBeLessThanOrEqual(whole.objective);
  // any bound will do: it goes on as if nothing had been asked
  const hopeful = solve({ steps: 100, bound: -1e9 });
  expect([hopeful.steps, hopeful.objective]).toEqual([whole.steps, whole.objective]);
});
