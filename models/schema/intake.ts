import { z } from 'zod';
import { recordKinds } from './kinds.ts';

/** A question that must be answered before a file can be taken in; nothing is guessed. */
export const intakeQuestion = z.object({
  file: z.string(),
  code: z.string().describe('stable name, e.g. date_order'),
  column: z.string().nullable(),
  field: z.string().nullable().describe('the field that it is about'),
  question: z.string(),
  choices: z.array(z.string()),
  answerWith: z.string().describe('the option that answers it, e.g. --date-order dmy'),
});
export type IntakeQuestion = z.infer<typeof intakeQuestion>;

/** How one column was understood. */
export const understoodColumn = z.object({
  header: z.string(),
  field: z.string().nullable().describe('null: not known, kept with the row'),
  unit: z.string().nullable().describe('unit of measure found for the column'),
  confidence: z.number().min(0).max(1),
  why: z.string(),
});

/** What a file changes of the file of the same name that came in before. */
export const correctedFile = z.object({
  batch: z.string().describe('batch of the earlier file'),
  same: z.number().int(),
  changed: z.number().int(),
  added: z.number().int(),
  gone: z.number().int().describe('rows of days that the new file covers, and that it no longer has'),
  differences: z
    .array(
      z.object({
        line: z.number().int(),
        earlierLine: z.number().int(),
        row: z.string().describe('the first cells, to know the row by'),
        cells: z.array(z.object({ column: z.string(), was: z.string(), is: z.string() })),
      }),
    )
    .describe('the first 200 changed rows'),
  goneRows: z.array(z.object({ line: z.number().int(), cells: z.array(z.string()) })),
});
export type CorrectedFile = z.infer<typeof correctedFile>;

/** What became of one file or sheet. */
export const intakeFileReport = z.object({
  file: z.string(),
  kind: z.string(),
  rowsRead: z.number().int(),
  accepted: z.number().int(),
  duplicates: z.number().int(),
  held: z.number().int(),
  rejected: z.number().int(),
  columns: z.array(understoodColumn).optional(),
  columnsBy: z.string().optional().describe('the kept column map that was used'),
  unknownColumns: z.array(z.string()).optional(),
  corrects: correctedFile.optional(),
  sampleRows: z
    .array(z.record(z.string(), z.unknown()))
    .optional()
    .describe('the first rows as they will be kept'),
});
export type IntakeFileReport = z.infer<typeof intakeFileReport>;

/** The document that `intake --json` prints. */
export const intakeReport = z.object({
  batch: z.string().nullable(),
  committed: z.boolean(),
  files: z.array(intakeFileReport),
  reasons: z.array(z.object({ code: z.string(), count: z.number().int(), message: z.string().optional() })),
  questions: z.array(intakeQuestion),
  triedAgain: z
    .object({ accepted: z.number().int(), stillHeld: z.number().int() })
    .optional()
    .describe('earlier held rows that were tried again'),
  refused: z.array(z.object({ file: z.string(), code: z.string(), message: z.string() })).optional(),
});
export type IntakeReport = z.infer<typeof intakeReport>;

/** Options of an intake, the same on the command line and over HTTP. */
export const intakeOptions = z.object({
  kind: z.enum(recordKinds).optional(),
  measures: z.enum(['metric', 'us']).optional(),
  dateOrder: z.enum(['ymd', 'dmy', 'mdy']).optional(),
  corrected: z
    .enum(['replace', 'add'])
    .optional()
    .describe('what a corrected version of an earlier file does: replace its rows, or add to them'),
  dryRun: z.boolean().default(false),
});
export type IntakeOptions = z.infer<typeof intakeOptions>;

/** One row that waits for a decision. */
export const heldRow = z.object({
  id: z.number().int(),
  file: z.string(),
  line: z.number().int(),
  kind: z.string(),
  unitNumber: z.string().nullable(),
  code: z.string(),
  message: z.string(),
  mend: z.string().nullable(),
  header: z.array(z.string()),
  cells: z.array(z.string()).describe('as they stand now, mended where a person mended them'),
  originalCells: z.array(z.string()).describe('as the file had them, kept forever'),
  mendCells: z.array(z.string()).nullable().describe('with the suggested mend written in; null without one'),
  state: z.enum(['held', 'accepted', 'rejected', 'skipped']),
  decidedAt: z.string().nullable(),
  decidedBy: z.string().nullable(),
  decisions: z
    .array(z.object({ action: z.string(), by: z.string(), at: z.string() }))
    .describe('every decision so far, oldest first'),
});
export type HeldRow = z.infer<typeof heldRow>;

/** What a person can do with a held row: take it in as it is or mended, not at all, or open it again. */
export const heldActions = ['accept', 'mend', 'reject', 'reopen'] as const;
export type HeldAction = (typeof heldActions)[number];

/** One batch with its files. */
export const intakeBatch = z.object({
  batch: z.string(),
  madeAt: z.string(),
  madeBy: z.string(),
  undoneAt: z.string().nullable(),
  files: z.array(intakeFileReport),
});
export type IntakeBatch = z.infer<typeof intakeBatch>;

/** The document that `verify --json` prints. */
export const verification = z.object({
  ok: z.boolean(),
  files: z.number().int(),
  rowsRead: z.number().int(),
  accepted: z.number().int(),
  duplicates: z.number().int(),
  held: z.number().int(),
  rejected: z.number().int(),
  problems: z.array(z.string()),
});
export type Verification = z.infer<typeof verification>;

/** Profile of one column of a sample of an uploaded file. */
/** number: can be added up; name: stands for a thing, in figures or not; date; text: free words; empty. */
const profileType = z.enum(['number', 'name', 'date', 'text', 'empty']);
export type ProfileType = z.infer<typeof profileType>;

export const columnProfile = z.object({
  column: z.string(),
  type: profileType,
  missing: z.number().int(),
  unread: z.number().int().describe('cells that are no number, or no date, in a column of those'),
  distinct: z.number().int(),
  lowest: z.union([z.number(), z.string()]).nullable().describe('of names the first in order'),
  highest: z.union([z.number(), z.string()]).nullable().describe('of names the last in order'),
  mean: z.number().nullable().describe('of numbers alone'),
  unit: z.string().nullable().describe('of numbers, where the column names it'),
  shortest: z.number().int().nullable().meta({ unit: 'characters' }),
  longest: z.number().int().nullable().meta({ unit: 'characters' }),
});
export type ColumnProfile = z.infer<typeof columnProfile>;
