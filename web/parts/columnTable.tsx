import { columnsOf } from '../../models/schema/columns.ts';
import type { IntakeFileReport } from '../../models/schema/intake.ts';
import { recordKinds } from '../../models/schema/kinds.ts';
import { columnWords } from '../format/fieldWords.ts';
import { ColumnHeads } from './columnHeads.tsx';

interface ColumnTableProps {
  readonly file: IntakeFileReport;
  /** what the person told of this file's columns, by header */
  readonly told: Readonly<Record<string, { field: string | null }>>;
  /** name under which that is kept */
  readonly name: string;
  readonly onTell: (header: string, field: string | null) => void;
  readonly onName: (name: string) => void;
}

/** How the columns of a file were understood; what is wrong is chosen anew, and kept under a name if wanted. */
export function ColumnTable({ file, told, name: mapName, onTell, onName }: ColumnTableProps) {
  const kind = recordKinds.find((word) => word === file.kind);
  const fields = kind === undefined ? [] : columnsOf(kind);
  return (
    <div>
      {file.columnsBy !== undefined && <p>Columns by the map {file.columnsBy}.</p>}
      <div class="table-frame" tabIndex={0} role="region" aria-label={`Columns of ${file.file}`}>
        <table class="stacking">
          <caption>What the file said, and what was understood</caption>
          <ColumnHeads titles={['column', 'understood as', 'unit', 'why']} />
          <tbody>
            {(file.columns ?? []).map((column) => (
              <tr key={column.header}>
                <th scope="row">{column.header}</th>
                <td data-name="understood as">
                  {fields.length === 0 || column.header === '' ? (
                    (column.field ?? 'not known, kept with the row')
                  ) : (
                    <select
                      aria-label={`${column.header} is`}
                      value={column.field ?? ''}
                      onChange={(event) =>
                        onTell(
                          column.header,
                          event.currentTarget.value === '' ? null : event.currentTarget.value,
                        )
                      }
                    >
                      <option value="">not known, kept with the row</option>
                      {fields.map(({ field, name, unit }) => (
                        <option key={field} value={field}>
                          {columnWords({ name, unit })}
                        </option>
                      ))}
                    </select>
                  )}
                </td>
                <td data-name="unit">{column.unit ?? ''}</td>
                <td data-name="why">{Object.hasOwn(told, column.header) ? 'as you said' : column.why}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {Object.keys(told).length > 0 && (
        <label class="map-name">
          Keep these columns for files with the same column names, under the name
          <input
            value={mapName}
            maxLength={100}
            placeholder="empty: for this time only"
            onInput={(event) => onName(event.currentTarget.value)}
          />
        </label>
      )}
    </div>
  );
}
