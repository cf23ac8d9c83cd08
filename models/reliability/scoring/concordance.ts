import { kaplanMeier, survivalAt } from '../nonparametric/kaplanMeier.ts';

export interface Concordance {
  /** share of comparable pairs in which the higher score failed first; ties in score count half */
  readonly concordance: number;
  /** infinitesimal jackknife standard error */
  readonly se: number;
  /** weighted pairs */
  readonly concordant: number;
  readonly discordant: number;
  readonly tiedScore: number;
}

/**
 * Harrell's concordance between a risk score and times to failure (Harrell, JAMA 247, 1982; standard error as in Therneau's
 * concordance vignette). A pair counts when it is known who failed first; at one time a failure comes before a censoring.
 * @param time 0 or above @param failed whether the time is a failure @param score higher means sooner
 * @returns 0.5 is no better than chance; lung on age, sex, ecog → 0.6371, se 0.0251
 * @throws RangeError when no pair is comparable
 */
export function harrellConcordance(
  time: ArrayLike<number>,
  failed: ArrayLike<boolean | number>,
  score: ArrayLike<number>,
): Concordance {
  return weightedConcordance(time, failed, score, () => 1, Infinity);
}

/**
 * Uno's concordance: pairs weighted by 1/G(t)², G the Kaplan–Meier curve of censoring, which takes the censoring pattern out of the
 * figure (Uno, Cai, Pencina, D'Agostino & Wei, Statistics in Medicine 30, 2011). Failures after `until` start no pair.
 * @returns as for {@link harrellConcordance}; lung → 0.6261
 */
export function unoConcordance(
  time: ArrayLike<number>,
  failed: ArrayLike<boolean | number>,
  score: ArrayLike<number>,
  until = Infinity,
): Concordance {
  // at one time failures leave before censorings do, so each time gets two ranks
  const rank = new Map([...new Set(Array.from(time))].sort((a, b) => a - b).map((t, k) => [t, 2 * k]));
  const rows = Array.from(time, (t, i) => ({ time: rank.get(t)! + (failed[i] ? 0 : 1), failed: !failed[i] }));
  const censoring = kaplanMeier(rows);
  const weightAt = (t: number) => survivalAt(censoring, rank.get(t)!, true) ** -2;
  return weightedConcordance(time, failed, score, weightAt, until);
}

function weightedConcordance(
  time: ArrayLike<number>,
  failed: ArrayLike<boolean | number>,
  score: ArrayLike<number>,
  weightAt: (time: number) => number,
  until: number,
): Concordance {
  const size = time.length;
  const wins = new Float64Array(size);
  const pairs = new Float64Array(size);
  let concordant = 0;
  let discordant = 0;
  let tiedScore = 0;
  for (let i = 0; i < size; i++) {
    if (!failed[i] || time[i] > until) continue;
    const weight = weightAt(time[i]);
    for (let j = 0; j < size; j++) {
      if (time[j] < time[i] || (time[j] === time[i] && (failed[j] || i === j))) continue;
      let win = 0;
      if (score[i] > score[j]) {
        win = 1;
        concordant += weight;
      } else if (score[i] === score[j]) {
        win = 0.5;
        tiedScore += weight;
      } else discordant += weight;
      wins[i] += win * weight;
      wins[j] += win * weight;
      pairs[i] += weight;
      pairs[j] += weight;
    }
  }
  const total = concordant + discordant + tiedScore;
  if (!(total > 0)) throw new RangeError('concordance: no two units can be compared');
  const concordance = (concordant + 0.5 * tiedScore) / total;
  let variance = 0;
  for (let i = 0; i < size; i++) variance += ((wins[i] - concordance * pairs[i]) / total) ** 2;
  return { concordance, se: Math.sqrt(variance), concordant, discordant, tiedScore };
}
