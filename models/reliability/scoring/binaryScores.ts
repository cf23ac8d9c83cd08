/** A predicted chance and what happened: 1 failed, 0 did not. */
export interface Scored {
  readonly probability: number;
  readonly outcome: 0 | 1;
}

/**
 * Mean squared error of predicted chances (Brier, Monthly Weather Review 78, 1950).
 * @returns 0 perfect, 0.25 for always saying one half; NaN never: throws on an empty list
 */
export function brierScore(scored: readonly Scored[]): number {
  requireSome(scored);
  return (
    scored.reduce((sum, { probability, outcome }) => sum + (probability - outcome) ** 2, 0) / scored.length
  );
}

/**
 * Mean negative log likelihood of what happened (Good, JRSS B 14, 1952). Chances of exactly 0 or 1 that were wrong are taken as
 * 1e-12 and 1 − 1e-12, so that one of them can't make the mean infinite.
 * @returns nats, 0 perfect
 */
export function logScore(scored: readonly Scored[]): number {
  requireSome(scored);
  const sum = scored.reduce((total, { probability, outcome }) => {
    const said = outcome === 1 ? probability : 1 - probability;
    return total - Math.log(Math.max(said, 1e-12));
  }, 0);
  return sum / scored.length;
}

function requireSome(scored: readonly Scored[]): void {
  if (scored.length === 0) throw new RangeError('scored must hold at least one prediction, got 0');
}
