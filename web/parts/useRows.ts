import type { RefObject } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { fewRows, rowSpan, type RowSpan } from './rowSpan.ts';

/** Heights of rows as they were seen, kept while the list has the same width. */
interface Seen {
  width: number;
  heights: WeakMap<object, number>;
}

/**
 * The rows of a long list that are near what the window shows; every row when there are few, and on paper. Rows have one
 * height; where the list's custom property `--rows` is `own` each has its own, told once it was drawn.
 * @param lines the whole list; a line's row carries its place as `aria-rowindex`, the head being 1
 */
export function useRows(frame: RefObject<HTMLElement | null>, lines: readonly object[]): RowSpan {
  const count = lines.length;
  const [span, setSpan] = useState<RowSpan>({ first: 0, end: Math.min(count, fewRows), above: 0, below: 0 });
  const seen = useRef<Seen>({ width: 0, heights: new WeakMap() });
  const now = useRef(lines);
  now.current = lines;
  const look = useRef<() => void>(() => undefined);
  useEffect(() => {
    const body = frame.current?.querySelector('tbody');
    if (body === null || body === undefined) return undefined;
    let asked = 0;
    const paper = window.matchMedia('print');
    const set = (next: RowSpan): void =>
      setSpan((before) =>
        before.first === next.first &&
        before.end === next.end &&
        Math.abs(before.above - next.above) < 1 &&
        Math.abs(before.below - next.below) < 1
          ? before
          : next,
      );
    const onPaper = (): void => set({ first: 0, end: now.current.length, above: 0, below: 0 });
    look.current = (): void => {
      asked = 0;
      if (paper.matches) {
        onPaper();
        return;
      }
      const heightOf = measured(body, now.current, seen.current);
      if (heightOf === null) return;
      const top = -body.getBoundingClientRect().top;
      set(rowSpan({ count: now.current.length, heightOf, from: top, to: top + window.innerHeight }));
    };
    const soon = (): void => {
      if (asked === 0) asked = requestAnimationFrame(look.current);
    };
    const onChange = (): void => look.current();
    window.addEventListener('scroll', soon, { passive: true });
    window.addEventListener('resize', soon);
    paper.addEventListener('change', onChange);
    window.addEventListener('beforeprint', onPaper);
    window.addEventListener('afterprint', soon);
    return () => {
      cancelAnimationFrame(asked);
      window.removeEventListener('scroll', soon);
      window.removeEventListener('resize', soon);
      paper.removeEventListener('change', onChange);
      window.removeEventListener('beforeprint', onPaper);
      window.removeEventListener('afterprint', soon);
    };
  }, [frame]);
  // rows that were drawn tell their height
  useEffect(() => look.current(), [lines, span]);
  return span.end > count || span.first >= count
    ? { first: 0, end: Math.min(count, fewRows), above: 0, below: 0 }
    : span;
}

/** The height of each row: that of the first where all have one; null while none is drawn. */
function measured(body: HTMLElement, lines: readonly object[], seen: Seen): ((row: number) => number) | null {
  const one = body.querySelector<HTMLElement>('tr.line')?.offsetHeight ?? 0;
  if (one === 0) return null;
  if (getComputedStyle(body).getPropertyValue('--rows').trim() !== 'own') return () => one;
  if (seen.width !== body.offsetWidth) {
    seen.width = body.offsetWidth;
    seen.heights = new WeakMap();
  }
  for (const row of body.querySelectorAll('tr.line')) {
    const line = lines[Number(row.getAttribute('aria-rowindex')) - 2];
    if (line !== undefined) seen.heights.set(line, row.getBoundingClientRect().height);
  }
  const known = lines.flatMap((line) => seen.heights.get(line) ?? []);
  const usual = known.reduce((sum, height) => sum + height, 0) / Math.max(1, known.length);
  return (row) => seen.heights.get(lines[row]!) ?? usual;
}
