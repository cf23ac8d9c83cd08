/**
 * How a repair sets back age. Kijima I: only the age gained since the last repair is undone in part. Kijima II: all age is.
 * (Kijima, J. Appl. Prob. 26, 1989.)
 */
export type VirtualAgeKind = 'kijima1' | 'kijima2';

/**
 * Virtual age after a repair: I: v + q x, II: q (v + x).
 * @param restoration q; 0 is as good as new, 1 as bad as old
 * @param virtualAge v, right after the repair before
 * @param since x, time run since then
 * @returns virtual age right after this repair; ('kijima2', 0.5, 100, 60) → 80
 */
export function virtualAgeAfter(
  kind: VirtualAgeKind,
  restoration: number,
  virtualAge: number,
  since: number,
): number {
  return kind === 'kijima1' ? virtualAge + restoration * since : restoration * (virtualAge + since);
}
