import loadHighs from 'highs';
import type { MilpSolver } from '../../models/decisions/milpSolver.ts';

let loaded: Promise<MilpSolver> | null = null;

/** The solver for linear and mixed-integer problems, loaded when it is first wanted. */
export function moneySolver(): Promise<MilpSolver> {
  loaded ??= loadHighs();
  return loaded;
}
