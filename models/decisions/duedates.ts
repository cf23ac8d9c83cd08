import { isoFromDay, type IsoDate } from '../schema/day.ts';
import { normalCdf } from '../numeric/normal.ts';
import { gaussLegendre } from '../numeric/quadrature.ts';

/** One limit running down: distance, engine hours or calendar days since the last change. */
export interface DueClock {
  /** which limit this is; carried through to the result, e.g. "base_number", "hours", "calendar" */
  readonly name: string;
  /** used up since the change, in the clock's unit (km, h or days), 0 or more */
  readonly used: number;
  /** median left until the limit, same unit; negative = past the limit */
  readonly remaining: number;
  /** standard deviation of the logarithm of the limit (used + remaining); 0 = known exactly */
  readonly limitLogSd: number;
  /** median use per day, same unit per day; 1 for a calendar clock */
  readonly perDay: number;
  /** standard deviation of the logarithm of the use per day; 0 = known exactly (calendar) */
  readonly perDayLogSd: number;
}

/** When a unit falls due, as a distribution. */
export interface DueDates {
  /** median day, days since 1970-01-01; null when it lies more than ten years off or no clock runs */
  readonly dueDay: number | null;
  readonly earliestDay: number | null;
  readonly latestDay: number | null;
  readonly dueOn: IsoDate | null;
  /** start of the 80 % range */
  readonly earliestOn: IsoDate | null;
  /** end of the 80 % range */
  readonly latestOn: IsoDate | null;
  /** probability that the limit has been passed by the as-of day, 0..1 */
  readonly chancePastNow: number;
  /** probability of falling due in week 1..13 after the as-of day, each 0..1 */
  readonly weeklyProbability: readonly number[];
  /** probability of falling due after the 13 weeks, 0..1; past + weeks + later = 1 */
  readonly laterProbability: number;
  /** the clock whose median comes first; null when none runs */
  readonly governing: string | null;
  /** why something is not known */
  readonly reasons: readonly string[];
}

const farDays = 3650;
/** a quantile is known well enough this near, d: dates are whole days */
const nearDays = 0.01;
const weeks = 13;
const { nodes, weights } = gaussLegendre(16);
const rootTwoPi = Math.sqrt(2 * Math.PI);

/**
 * Due date of the first of several limits. The limit of clock i is log-normal about used + remaining, use per day is
 * log-normal about perDay, and one common factor z moves the use of all clocks (a busier unit runs up kilometres and
 * hours alike): P(due within t) = 1 − ∫ φ(z) ∏ [1 − Φ(ln((used + perDay·e^(sd·z)·t)/limit)/limitLogSd)] dz.
 * Days before the as-of day are reached with the same use per day, so a past date is known as well as a coming one.
 * @param clocks limits with units as in {@link DueClock}
 * @param asOfDay days since 1970-01-01
 * @returns dates, chance of being past, weekly probabilities; a clock of 3 000 km left at 60 km a day, nothing
 * uncertain, falls due 50 days on
 * @throws RangeError when a spread, a use or the used amount is negative or not finite
 * Source: log-normal limits and use, common practice, no source; the rest is probability calculus.
 */
export function dueDateDistribution(clocks: readonly DueClock[], asOfDay: number): DueDates {
  return dueDateMixture([{ chance: 1, clocks }], asOfDay);
}

/** One account of what happened, with the clocks that would then run. */
export interface DueCase {
  /** 0..1; the chances of all cases sum to 1 */
  readonly chance: number;
  readonly clocks: readonly DueClock[];
}

/**
 * Due date where the records allow more than one account of the past: P(due within t) = Σ chance · P(due within t | case).
 * @param cases at least one; the clocks of each as in {@link dueDateDistribution}
 * @returns as {@link dueDateDistribution}; `governing` is that of the likeliest case
 * @throws RangeError as {@link dueDateDistribution}, and when the chances do not sum to 1
 * Source: law of total probability.
 */
export function dueDateMixture(cases: readonly DueCase[], asOfDay: number): DueDates {
  const total = cases.reduce((sum, { chance }) => sum + chance, 0);
  if (!(Math.abs(total - 1) < 1e-9)) throw new RangeError(`chance of all cases must sum to 1, got ${total}`);
  for (const { clocks } of cases) for (const clock of clocks) checkClock(clock);
  const runningOf = ({ clocks }: DueCase) =>
    clocks.filter((clock) => clock.perDay > 0 || clock.remaining <= 0);
  const parts = cases.map((entry) => ({ chance: entry.chance, clocks: runningOf(entry) }));
  const likeliest = parts.reduce((best, next) => (next.chance > best.chance ? next : best));
  const running = likeliest.clocks;
  const within = (days: number) =>
    parts.reduce((sum, part) => sum + part.chance * chanceDueWithin(part.clocks, days), 0);
  const past = within(0);
  const weekly: number[] = [];
  const known: Reached[] = [{ days: 0, share: past }];
  let reached = past;
  for (let week = 1; week <= weeks; week++) {
    const next = Math.max(reached, within(7 * week));
    weekly.push(next - reached);
    known.push({ days: 7 * week, share: next });
    reached = next;
  }
  const day = (share: number) => {
    const days = quantileDays(within, share, known);
    return days === null ? null : Math.floor(asOfDay + days + 1e-6);
  };
  const [earliestDay, dueDay, latestDay] = [day(0.1), day(0.5), day(0.9)];
  const on = (value: number | null) => (value === null ? null : isoFromDay(value));
  const reasons: string[] = [];
  if (running.length === 0) reasons.push('no limit is running down: use per day is not known or is nil');
  else if (dueDay === null) reasons.push('the due date lies more than ten years off');
  return {
    dueDay,
    earliestDay,
    latestDay,
    dueOn: on(dueDay),
    earliestOn: on(earliestDay),
    latestOn: on(latestDay),
    chancePastNow: past,
    weeklyProbability: weekly,
    laterProbability: 1 - reached,
    governing: governingClock(running),
    reasons,
  };
}

function checkClock(clock: DueClock): void {
  for (const field of ['used', 'limitLogSd', 'perDay', 'perDayLogSd'] as const)
    if (!(clock[field] >= 0 && Number.isFinite(clock[field])))
      throw new RangeError(`${clock.name}.${field} must be 0 or above, got ${clock[field]}`);
  if (!Number.isFinite(clock.remaining))
    throw new RangeError(`${clock.name}.remaining must be a number, got ${clock.remaining}`);
}

/** Days to the median of each clock by itself; the smallest governs. */
function governingClock(clocks: readonly DueClock[]): string | null {
  let first: string | null = null;
  let fewest = Infinity;
  for (const clock of clocks) {
    const days = clock.perDay > 0 ? clock.remaining / clock.perDay : clock.remaining <= 0 ? 0 : Infinity;
    if (days < fewest) [first, fewest] = [clock.name, days];
  }
  return first;
}

/** Edges where the integrand over the common use factor bends: each clock's crossing and its width either side. */
function bends(clocks: readonly DueClock[], days: number): number[] {
  const edges = [-6, 0, 6];
  for (const { used, remaining, limitLogSd, perDay, perDayLogSd } of clocks) {
    if (perDayLogSd === 0 || days === 0 || perDay === 0) continue;
    const ratio = remaining / (perDay * days);
    if (!(ratio > 0)) continue;
    const crossing = Math.log(ratio) / perDayLogSd;
    const slope = (perDayLogSd * Math.abs(remaining)) / Math.max(used + remaining, 1e-9);
    const width = (4 * limitLogSd) / slope;
    if (width < 2) edges.push(crossing - width, crossing, crossing + width);
  }
  return edges.filter((edge) => edge >= -6 && edge <= 6).sort((a, b) => a - b);
}

/** Probability that some clock has reached its limit by then: what is left of 1 after the chance that none has. */
function chanceDueWithin(clocks: readonly DueClock[], days: number): number {
  if (clocks.length === 0) return 0;
  const spread = days !== 0 && clocks.some((clock) => clock.perDayLogSd > 0);
  const edges = spread ? bends(clocks, days) : [0, 0];
  let notYet = 0;
  for (let i = 1; i < edges.length; i++) {
    const half = (edges[i]! - edges[i - 1]!) / 2;
    if (spread && half < 5e-13) continue;
    const middle = edges[i - 1]! + half;
    for (let k = 0; k < (spread ? nodes.length : 1); k++) {
      const z = middle + half * nodes[k]!;
      let chance = spread ? (half * weights[k]! * Math.exp((-z * z) / 2)) / rootTwoPi : 1;
      // chance that no clock has reached its limit, given the common use factor; written out, since it is asked a lot
      for (const { used, remaining, limitLogSd, perDay, perDayLogSd } of clocks) {
        const level = used + perDay * (perDayLogSd === 0 ? 1 : Math.exp(perDayLogSd * z)) * days;
        const limit = used + remaining;
        if (limit <= 0) chance *= days >= 0 ? 0 : 1;
        else if (level <= 0) continue;
        else if (limitLogSd === 0) chance *= level >= limit ? 0 : 1;
        else {
          const beyond = Math.log(level / limit) / limitLogSd;
          // further out the chance is 1 to the last digit
          if (beyond > -8.3) chance *= 1 - normalCdf(beyond);
        }
        if (chance === 0) break;
      }
      notYet += chance;
    }
  }
  return Math.min(1, Math.max(0, 1 - notYet));
}

/** Share of the chance reached by a day, counted from the as-of day. */
interface Reached {
  readonly days: number;
  readonly share: number;
}

/** Two days about the one on which the share is reached: weeks worked out already, else ever further off; null beyond ten years. */
function bracketOf(
  within: (days: number) => number,
  share: number,
  known: readonly Reached[],
): readonly [Reached, Reached] | null {
  const at = (days: number): Reached => ({ days, share: within(days) });
  const next = known.findIndex((reached) => reached.share >= share);
  if (next > 0) return [known[next - 1]!, known[next]!];
  if (next === 0) {
    let [before, after] = [at(-7), known[0]!];
    while (before.share >= share) {
      if (before.days <= -farDays) return [{ days: -farDays, share: 0 }, before];
      [before, after] = [at(Math.max(-farDays, before.days * 4)), before];
    }
    return [before, after];
  }
  let [before, after] = [known[known.length - 1]!, known[known.length - 1]!];
  while (after.share < share) {
    if (after.days >= farDays) return null;
    [before, after] = [after, at(Math.min(farDays, after.days * 4))];
  }
  return [before, after];
}

/** Day by which the given share is reached, by false position kept safe by bisection; null beyond ten years. */
function quantileDays(
  within: (days: number) => number,
  share: number,
  known: readonly Reached[],
): number | null {
  const bracket = bracketOf(within, share, known);
  if (bracket === null) return null;
  let [{ days: low, share: atLow }, { days: high, share: atHigh }] = bracket;
  for (let step = 0; high - low > nearDays; step++) {
    const guess = low + ((share - atLow) / (atHigh - atLow)) * (high - low);
    const inside = step % 3 < 2 && guess > low && guess < high;
    // a step past the guess closes the bracket from the other side once the guess is near enough
    const middle = inside
      ? Math.min(high - nearDays / 2, guess + ((step % 3) * nearDays) / 2)
      : (low + high) / 2;
    const value = within(middle);
    if (value >= share) [high, atHigh] = [middle, value];
    else [low, atLow] = [middle, value];
  }
  return high;
}
