import type { RefObject } from 'preact';
import { useEffect, useState } from 'preact/hooks';

/** Which rows of a long list are in the document. */
export interface RowSpan {
  readonly first: number;
  /** one past the last */
  readonly end: number;
  /** height of one row, px */
  readonly height: number;
}

const beyond = 10;
const few = 36;

/**
 * The rows of a long list that are near what the window shows; every row when there are few, and on paper. Rows must all
 * have the same height, that of the custom property `--row` of the list's frame.
 * @param count rows of the whole list
 */
export function useRows(frame: RefObject<HTMLElement | null>, count: number): RowSpan {
  const [span, setSpan] = useState<RowSpan>({ first: 0, end: Math.min(count, few), height: 0 });
  useEffect(() => {
    const body = frame.current?.querySelector('tbody');
    if (body === null || body === undefined) return undefined;
    let asked = 0;
    const paper = window.matchMedia('print');
    const onPaper = (): void => setSpan({ first: 0, end: count, height: 0 });
    const look = (): void => {
      asked = 0;
      if (paper.matches) {
        onPaper();
        return;
      }
      const row = body.querySelector<HTMLElement>('tr.line');
      const height = row?.offsetHeight ?? 0;
      if (height === 0) return;
      const top = -body.getBoundingClientRect().top;
      const all = count <= few;
      const first = all ? 0 : Math.max(0, Math.min(count - few, Math.floor(top / height) - beyond));
      const end = all ? count : Math.min(count, Math.ceil((top + window.innerHeight) / height) + beyond);
      setSpan((before) =>
        before.first === first && before.end === end && before.height === height
          ? before
          : { first, end: Math.max(end, Math.min(count, first + few)), height },
      );
    };
    const soon = (): void => {
      if (asked === 0) asked = requestAnimationFrame(look);
    };
    look();
    window.addEventListener('scroll', soon, { passive: true });
    window.addEventListener('resize', soon);
    paper.addEventListener('change', look);
    window.addEventListener('beforeprint', onPaper);
    window.addEventListener('afterprint', soon);
    return () => {
      cancelAnimationFrame(asked);
      window.removeEventListener('scroll', soon);
      window.removeEventListener('resize', soon);
      paper.removeEventListener('change', look);
      window.removeEventListener('beforeprint', onPaper);
      window.removeEventListener('afterprint', soon);
    };
  }, [frame, count]);
  return span.end > count || span.first >= count ? { ...span, first: 0, end: Math.min(count, few) } : span;
}
