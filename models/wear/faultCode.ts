import { z } from 'zod';
import { evidenceKind } from '../schema/coefficient.ts';

/** What a code speaks of first. */
export const faultGroups = [
  'chain_phase',
  'phaser',
  'actuator_circuit',
  'cam_sensor',
  'crank_sensor',
  'pressure_circuit',
  'pressure_low',
] as const;
export type FaultGroup = (typeof faultGroups)[number];

/** One fault code of the catalog. */
export const faultCode = z.object({
  code: z.string(),
  words: z.string(),
  group: z.enum(faultGroups),
  bank: z.string().nullable(),
  cam: z.enum(['A', 'B']).nullable(),
  kind: evidenceKind,
  source: z.string(),
});
export type FaultCode = z.infer<typeof faultCode>;
export const faultCodeFile = z.object({ title: z.string(), codes: z.array(faultCode) });

/** Codes by their text, as the models take them. */
export type FaultCodes = ReadonlyMap<string, FaultCode>;

/** The table of a catalog file by code. Throws on a code that stands twice. */
export function faultCodeTable(file: z.infer<typeof faultCodeFile>): FaultCodes {
  const table = new Map<string, FaultCode>();
  for (const entry of file.codes) {
    if (table.has(entry.code)) throw new Error(`code ${entry.code} stands twice in the catalog`);
    table.set(entry.code, entry);
  }
  return table;
}

/** The five characters of a code as a reader wrote it (` p0016-00 ` → `P0016`), or null when there are none. */
export function codeText(raw: string): string | null {
  const found = /^[\s]*([PBCU][0-3][0-9A-F]{3})/i.exec(raw);
  return found === null ? null : found[1].toUpperCase();
}
