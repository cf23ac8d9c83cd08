import type { CorrectedFile } from '../../models/schema/intake.ts';
import { counted } from '../format/words.ts';
import { ColumnHeads } from './columnHeads.tsx';

/** What a corrected file changes of the earlier one, row by row, before anything is kept. */
export function CorrectionTable({ file, corrects }: { file: string; corrects: CorrectedFile }) {
  const { batch, same, changed, added, gone, differences, goneRows } = corrects;
  return (
    <div class="correction">
      <p>
        Beside the file of this name in batch {batch}: {counted(same, 'row')} the same, {changed} changed,{' '}
        {added} new, {gone} gone.
      </p>
      {differences.length > 0 && (
        <div class="table-frame" tabIndex={0} role="region" aria-label={`Changed rows of ${file}`}>
          <table class="stacking">
            <caption>
              {differences.length < changed ? `The first ${differences.length} changed rows` : 'Changed rows'}
            </caption>
            <ColumnHeads titles={['Line', 'Row', 'Column', 'Was', 'Is']} />
            <tbody>
              {differences.flatMap(({ line, row, cells }) =>
                cells.map(({ column, was, is }) => (
                  <tr key={`${line} ${column}`}>
                    <td data-name="line">{line}</td>
                    <td data-name="row">{row}</td>
                    <td data-name="column">{column}</td>
                    <td data-name="was">{was === '' ? 'empty' : was}</td>
                    <td data-name="is">{is === '' ? 'empty' : is}</td>
                  </tr>
                )),
              )}
            </tbody>
          </table>
        </div>
      )}
      {goneRows.length > 0 && (
        <>
          <p>No longer in the file:</p>
          <ul>
            {goneRows.map(({ line, cells }) => (
              <li key={line}>
                line {line}: {cells.filter((cell) => cell !== '').join(', ')}
              </li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}
