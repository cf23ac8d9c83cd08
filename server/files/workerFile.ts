import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Paths } from '../config.ts';

/** The built entry of worker threads, or null when the program runs from its sources. */
export function workerFile(paths: Paths): string | null {
  const file = join(paths.web, '..', 'server', 'background.js');
  return existsSync(file) ? file : null;
}
