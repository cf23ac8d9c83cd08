import { crossing } from './ageReplacement.ts';
import { normalQuantile } from '../numeric/normal.ts';
import type { Random } from '../numeric/random.ts';
import type { RiskDraws } from './risk.ts';

/** What a forecast says of one unit, in the form every assessment has. */
export interface ChanceForecast {
  /** chance of failing within the horizon when run without a planned renewal, strictly between 0 and 1 */
  readonly probability: number;
  /** its 80 % range, strictly between 0 and 1 */
  readonly low: number;
  readonly high: number;
  /** months of use ahead that the chance is for, above 0 */
  readonly horizonMonths: number;
  /** months of use on the part in place, 0 or more; null = not known */
  readonly ageMonths: number | null;
  /** Weibull shape of the parts on the wear clock, above 0 */
  readonly shape: number;
  /** log hazard that leaves with the part in place (codes, rattle, looks), 0 = none; a new part is without it */
  readonly leavesWithPart?: number;
}

const rangeDeviate = 1.2815515655446004;

/**
 * Standard normal deviates, evenly spread over their quantiles and shuffled.
 * @param count 1 or more
 * @throws RangeError when count is no whole number from 1
 */
export function shuffledDeviates(count: number, random: Random): Float64Array {
  if (!(Number.isInteger(count) && count >= 1))
    throw new RangeError(`count must be a whole number from 1, got ${count}`);
  const deviates = Float64Array.from({ length: count }, (_, i) => normalQuantile((i + 0.5) / count));
  for (let i = count - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [deviates[i], deviates[j]] = [deviates[j]!, deviates[i]!];
  }
  return deviates;
}

/**
 * Draws of how a unit may fail from a forecast's chance and range: the cumulative hazard over the horizon is log-normal with
 * the range's spread, its mean chance is the forecast's, and a Weibull of the given shape carries it before and beyond:
 * scale = [((age + horizon)^shape − age^shape)/H]^(1/shape), one month of use a month.
 * @param forecast chances, months, shape
 * @param fleetDeviates one standard normal for each draw, the same for all units: what is not known of the whole fleet
 * @param fleetShare share of the log-variance that all units have in common, 0..1
 * @param random for the unit's own part
 * @returns draws for {@link RiskDraws}, or null when the age is not known (a renewal can not be judged then)
 * @throws RangeError for a chance outside (0, 1), a range out of order, or a shape, horizon or age out of range
 * Source: log-normal hazard with shared parameter error, common practice, no source.
 */
export function riskFromForecast(
  forecast: ChanceForecast,
  fleetDeviates: Float64Array,
  fleetShare: number,
  random: Random,
): RiskDraws | null {
  const { probability, low, high, horizonMonths, ageMonths, shape, leavesWithPart = 0 } = forecast;
  for (const [name, value] of Object.entries({ probability, low, high }))
    if (!(value > 0 && value < 1)) throw new RangeError(`${name} must lie between 0 and 1, got ${value}`);
  if (low > high) throw new RangeError(`low must not be above high, got ${low} and ${high}`);
  for (const [name, value] of Object.entries({ shape, horizonMonths }))
    if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${name} must be above 0, got ${value}`);
  if (!(fleetShare >= 0 && fleetShare <= 1))
    throw new RangeError(`fleetShare must lie in 0..1, got ${fleetShare}`);
  if (ageMonths === null) return null;
  if (!(ageMonths >= 0 && Number.isFinite(ageMonths)))
    throw new RangeError(`ageMonths must be 0 or above, got ${ageMonths}`);
  const count = fleetDeviates.length;
  const logHazard = (chance: number) => Math.log(-Math.log1p(-chance));
  const logSd = (logHazard(high) - logHazard(low)) / (2 * rangeDeviate);
  const own = shuffledDeviates(count, random);
  const [shared, alone] = [Math.sqrt(fleetShare), Math.sqrt(1 - fleetShare)];
  const spread = fleetDeviates.map((deviate, draw) => logSd * (shared * deviate + alone * own[draw]!));
  const meanChance = (centre: number) =>
    spread.reduce((sum, shift) => sum - Math.expm1(-Math.exp(centre + shift)), 0) / count;
  const near = logHazard(probability);
  const centre = crossing((at) => meanChance(at) - probability, near - 10 - 5 * logSd, near + 10 + 5 * logSd);
  const span = (ageMonths + horizonMonths) ** shape - ageMonths ** shape;
  if (!Number.isFinite(leavesWithPart))
    throw new RangeError(`leavesWithPart must be finite, got ${leavesWithPart}`);
  const scale = spread.map((shift) => (span / Math.exp(centre + shift)) ** (1 / shape));
  const longer = Math.exp(leavesWithPart / shape);
  return {
    kind: 'wear',
    parts: [
      {
        shape: new Float64Array(count).fill(shape),
        scale,
        age: new Float64Array(count).fill(ageMonths),
        renewedScale: scale.map((months) => months * longer),
      },
    ],
    usePerMonth: new Float64Array(count).fill(1),
  };
}
