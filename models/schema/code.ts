import { z } from 'zod';
import { commonFields, requiredDay, requiredText, text } from './fields.ts';

/** A fault code as SAE J2012 / ISO 15031-6 writes them, with the status the reader gave (stored, pending, permanent …). */
export const code = z.object({
  unitNumber: requiredText(),
  seenOn: requiredDay(),
  code: requiredText(),
  status: text(),
  ...commonFields,
});
export type Code = z.infer<typeof code>;
