import type { RefObject } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';

/** Width of an element in pixels, kept up to date; `before` until it is measured. */
export function useWidth<E extends Element>(before: number): [RefObject<E | null>, number] {
  const element = useRef<E | null>(null);
  const [width, setWidth] = useState(before);
  useEffect(() => {
    if (element.current === null) return undefined;
    const observer = new ResizeObserver(([entry]) => setWidth(Math.round(entry.contentRect.width)));
    observer.observe(element.current);
    return () => observer.disconnect();
  }, []);
  return [element, width];
}
