import type { RecordLink } from '../../models/schema/story.ts';
import { Loading, Notice } from './notice.tsx';
import { useRead } from './useRead.ts';

/** One record as it came: file, line, and each cell under its header. */
export function RecordDetail({ link, onClose }: { link: RecordLink; onClose: () => void }) {
  const { data, error } = useRead<'record'>(`/api/records/${link.kind}/${link.id}`);
  return (
    <aside class="record" aria-label="Record">
      <h3>
        {link.file}, line {link.line}
      </h3>
      {data === null && error === null && <Loading what="the record" />}
      {error !== null && <Notice kind="fault" words={error.message} />}
      {data !== null && (
        <dl class="facts">
          {data.header.map((name, index) => (
            <>
              <dt key={name}>{name}</dt>
              <dd>{data.cells[index] === '' ? <span class="muted">empty</span> : data.cells[index]}</dd>
            </>
          ))}
          <dt>Batch</dt>
          <dd>{data.batch}</dd>
        </dl>
      )}
      <button type="button" onClick={onClose}>
        Close
      </button>
    </aside>
  );
}
