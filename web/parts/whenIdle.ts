/**
 * Calls back when the browser has nothing better to do, after `mostMs` at the latest; where it can't tell, after a fifth of
 * that. @returns what calls it off
 */
export function whenIdle(work: () => void, mostMs: number): () => void {
  if ('requestIdleCallback' in window) {
    const asked = window.requestIdleCallback(work, { timeout: mostMs });
    return () => window.cancelIdleCallback(asked);
  }
  const asked = setTimeout(work, mostMs / 5);
  return () => clearTimeout(asked);
}
