import { utils, write, type WorkSheet } from '@e965/xlsx';
import { fieldGuide } from '../../models/schema/fieldGuide.ts';
import type { RecordKind } from '../../models/schema/kinds.ts';
import { csvText } from '../../models/intake/csvText.ts';
import { explanationMark } from './explanationMark.ts';

export const templateForms = ['csv', 'xlsx'] as const;
export type TemplateForm = (typeof templateForms)[number];

/** A sheet on which every cell is text, so that none can become a formula. */
function textSheet(rows: readonly (readonly string[])[], widths: readonly number[]): WorkSheet {
  const sheet = utils.aoa_to_sheet(rows.map((row) => row.map((cell) => ({ t: 's', v: cell }))));
  sheet['!cols'] = widths.map((wch) => ({ wch }));
  return sheet;
}

/**
 * An empty table of a kind. As CSV it is the line of column names; the workbook has a second sheet that says what each
 * column means and shows an example, and that intake passes over.
 */
export function templateFile(kind: RecordKind, form: TemplateForm): Buffer {
  const guide = fieldGuide(kind);
  const header = guide.map(({ name }) => name);
  if (form === 'csv') return Buffer.from(csvText(header, []));
  const book = utils.book_new();
  utils.book_append_sheet(
    book,
    textSheet(
      [header],
      header.map((name) => Math.max(10, name.length + 2)),
    ),
    kind,
  );
  utils.book_append_sheet(
    book,
    textSheet(
      [
        [explanationMark],
        [`Fill in the sheet "${kind}": a row for each record, columns in any order, empty where not known.`],
        ['Columns that you have no use for may be deleted.'],
        [],
        ['column', 'meaning', 'unit of measure', 'allowed', 'needed', 'example'],
        ...guide.map(({ name, meaning, unit, allowed, required, example }) => [
          name,
          meaning,
          unit,
          allowed,
          required ? 'yes' : 'no',
          example,
        ]),
      ],
      [28, 60, 28, 44, 8, 24],
    ),
    'How to fill in',
  );
  return write(book, { type: 'buffer', bookType: 'xlsx', compression: true }) as Buffer;
}
