import loadHighs from 'highs';
import type { MilpSolver } from '../../../models/decisions/milpSolver.ts';

/** The real solver, loaded once for a test file. */
export const highs: MilpSolver = await loadHighs();
