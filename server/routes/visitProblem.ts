import type { FieldFault } from '../../models/cards/visitMoves.ts';
import { VisitConflict } from '../store/visits.ts';
import { Problem } from './problem.ts';

/** What stands against a request, by field. */
export function faultProblem(code: string, faults: readonly FieldFault[]): Problem {
  return new Problem(422, code, faults.map(({ message }) => message).join(' '), { fields: faults });
}

/** Tells the second writer what changed in the meantime. */
export async function toldConflict<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof VisitConflict)
      throw new Problem(409, 'changed_meanwhile', error.message, {
        visit: error.now,
        changes: error.changes,
      });
    throw error;
  }
}
