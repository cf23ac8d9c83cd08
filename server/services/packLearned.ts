import { deserialize, serialize } from 'node:v8';
import type { FleetLearned } from '../../models/assessment/fleetLearned.ts';

/** What a fleet taught as text, maps and typed arrays included. */
export function packLearned(learned: FleetLearned): string {
  return serialize(learned).toString('base64');
}

/** @throws Error for a text that another kind of program wrote */
export function unpackLearned(text: string): FleetLearned {
  return deserialize(Buffer.from(text, 'base64')) as FleetLearned;
}
