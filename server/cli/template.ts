import { existsSync, writeFileSync } from 'node:fs';
import type { RecordKind } from '../../models/schema/kinds.ts';
import { templateFile, templateForms } from '../files/templateFile.ts';
import { printJson, Refusal } from './refusal.ts';

/** Writes an empty table of a kind, CSV or XLSX by the file's ending. */
export function template(kind: RecordKind, file: string, options: { json: boolean }): void {
  const form = templateForms.find((name) => file.toLowerCase().endsWith(`.${name}`));
  if (form === undefined) throw new Refusal(`template: the file must end in .csv or .xlsx, got ${file}`);
  if (existsSync(file)) throw new Refusal(`template: ${file} is there already; choose another name`);
  try {
    writeFileSync(file, templateFile(kind, form));
  } catch (error) {
    throw new Refusal(`template: ${file} can't be written: ${(error as Error).message}`);
  }
  if (options.json) printJson({ kind, file });
  else process.stdout.write(`${file} is an empty table of ${kind}.\n`);
}
