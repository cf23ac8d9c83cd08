import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Paths } from '../config.ts';

/** A built entry of worker threads, or null when the program runs from its sources. */
export function workerFile(
  paths: Paths,
  name: 'background' | 'sitePlanner' | 'fleetHand' = 'background',
): string | null {
  const file = join(paths.web, '..', 'server', `${name}.js`);
  return existsSync(file) ? file : null;
}
