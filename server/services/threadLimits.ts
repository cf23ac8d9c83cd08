import { totalmem } from 'node:os';
import type { ResourceLimits } from 'node:worker_threads';

/** Share of the machine's memory that one thread may fill: a fleet of ten thousand units needs about 2.5 GB. */
const shareOfMemory = 0.6;
const leastMb = 2048;

/** What a thread that works a fleet through may use; by default it would be a quarter of the memory. */
export function fleetThreadLimits(): ResourceLimits {
  return { maxOldGenerationSizeMb: Math.max(leastMb, Math.floor((shareOfMemory * totalmem()) / 2 ** 20)) };
}
