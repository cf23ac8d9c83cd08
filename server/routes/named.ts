import { namesSomeone } from '../../models/assessment/extensionApproval.ts';
import { Problem } from './problem.ts';

/**
 * The name of whoever did something.
 * @throws Problem when it names nobody
 */
export function named(name: string, field = 'by'): string {
  if (namesSomeone(name)) return name;
  throw new Problem(422, 'no_name', `${field} must be the name of a person, got "${name}"`);
}
