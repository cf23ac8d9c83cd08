import { useState } from 'preact/hooks';
import type { RecordLink } from '../../models/schema/story.ts';
import { date } from '../format/dates.ts';
import { modelWords } from '../format/modelWords.ts';
import { ColumnHeads } from './columnHeads.tsx';
import { RecordDetail } from './recordDetail.tsx';

const firstRows = 25;

/** The unit's records, newest first, each with its file and line. */
export function RecordList({ records }: { records: readonly RecordLink[] }) {
  const [all, setAll] = useState(false);
  const [open, setOpen] = useState<RecordLink | null>(null);
  const ordered = [...records].sort((a, b) => (a.on < b.on ? 1 : -1));
  const shown = all ? ordered : ordered.slice(0, firstRows);
  return (
    <section aria-labelledby="records-title">
      <h2 id="records-title">Records</h2>
      {records.length === 0 && <p>There is no dated record of this unit yet.</p>}
      {open !== null && <RecordDetail link={open} onClose={() => setOpen(null)} />}
      {records.length > 0 && (
        <div class="table-frame" tabIndex={0} role="region" aria-label="List of records">
          <table class="stacking">
            <ColumnHeads titles={['Day', 'Kind', 'What it says', 'File and line']} />
            <tbody>
              {shown.map((record) => (
                <tr key={`${record.kind}${record.id}`}>
                  <td>{date(record.on)}</td>
                  <td>{record.kind}</td>
                  <td>{modelWords(record.text)}</td>
                  <td>
                    <button type="button" class="link" onClick={() => setOpen(record)}>
                      {record.file} line {record.line}
                    </button>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {!all && ordered.length > shown.length && (
        <button type="button" onClick={() => setAll(true)}>
          Show the other {ordered.length - shown.length} records
        </button>
      )}
    </section>
  );
}
