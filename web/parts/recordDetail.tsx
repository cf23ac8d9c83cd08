import { Fragment } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { RecordLink } from '../../models/schema/story.ts';
import { ReadFault } from './readFault.tsx';
import { Loading } from './notice.tsx';
import { useRead } from './useRead.ts';

/** Which record; its file and line are shown before the rest is there, where they are known. */
export type RecordPlace = Pick<RecordLink, 'kind' | 'id'> & Partial<Pick<RecordLink, 'file' | 'line'>>;

/** One record as it came: file, line, and each cell under its header. Takes the focus, and gives it back when closed. */
export function RecordDetail({ link, onClose }: { link: RecordPlace; onClose: () => void }) {
  const { data, error, again } = useRead<'record'>(`/api/records/${link.kind}/${link.id}`);
  const { file, line } = data ?? link;
  const box = useRef<HTMLElement>(null);
  useEffect(() => {
    const before = document.activeElement;
    const shown = box.current;
    shown?.focus();
    shown?.scrollIntoView({ block: 'nearest' });
    return () => {
      if (shown?.contains(document.activeElement) !== true) return;
      if (before instanceof HTMLElement && before.isConnected) before.focus();
    };
  }, [link]);
  return (
    <aside
      class="record"
      aria-label="Record"
      tabIndex={-1}
      ref={box}
      onKeyDown={(event) => {
        if (event.key === 'Escape') onClose();
      }}
    >
      <h3>{file === undefined ? 'Record' : `${file}, line ${String(line)}`}</h3>
      {data === null && error === null && <Loading what="the record" />}
      {error !== null && <ReadFault error={error} again={again} />}
      {data !== null && (
        <dl class="facts">
          {data.header.map((name, index) => (
            <Fragment key={name}>
              <dt>{name}</dt>
              <dd>
                {(data.cells[index] ?? '') === '' ? <span class="muted">empty</span> : data.cells[index]}
              </dd>
            </Fragment>
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
