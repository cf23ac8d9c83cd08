/** What is needed of a unit to weigh it: how long it was watched, and whether that was to the end of its window. */
export interface Watched {
  /** days from the origin to failure, renewal, disposal or the end of the window */
  readonly days: number;
  /** chance that it ended in a failure, 0..1 */
  readonly failed: number;
  /** ran to the end of its window */
  readonly ranThrough: boolean;
}

export interface ObservationWeight {
  /** weight with which it counts as a failure */
  readonly asFailed: number;
  /** weight with which it counts as having run through */
  readonly asSurvived: number;
}

/**
 * Inverse chance of still being under observation, for units whose end is known; a unit renewed as planned, sold or left by the records before its
 * window ended has no weight of its own and is stood for by those that ran on (Graf, Schmoor, Sauerbrei & Schumacher, Statistics in Medicine 18,
 * 1999). A renewal that was a failure with chance f counts f as a failure and 1 − f as censored on that day.
 * G(t) = Π over days before t of 1 − censored / under observation; weight = 1 / G.
 * @returns one per unit; two units, one sold on day 100, the other run through 365: weights 0 and 2
 */
export function observationWeights(units: readonly Watched[]): ObservationWeight[] {
  const order = units.map((_, i) => i).sort((a, b) => units[a].days - units[b].days);
  const weights = new Array<ObservationWeight>(units.length);
  let observed = 1;
  let watched = units.length;
  for (let k = 0; k < order.length;) {
    const { days } = units[order[k]];
    let censored = 0;
    const from = k;
    for (; k < order.length && units[order[k]].days === days; k += 1) {
      const unit = units[order[k]];
      const weight = 1 / observed;
      weights[order[k]] = {
        asFailed: unit.failed * weight,
        asSurvived: unit.ranThrough ? (1 - unit.failed) * weight : 0,
      };
      if (!unit.ranThrough) censored += 1 - unit.failed;
    }
    // nobody is left to stand for the last ones
    if (watched > censored) observed *= 1 - censored / watched;
    watched -= k - from;
  }
  return weights;
}
