import { rangeOf, type Range } from './range.ts';

/** What one change costs and what the oil's age does to the engine, for one oil. */
export interface DrainCosts {
  /** oil and filter of one change, cents, 0 or more */
  readonly oilCents: number;
  /** labour of one change, cents, 0 or more */
  readonly labourCents: number;
  /** downtime of one change, cents, 0 or more */
  readonly downtimeCents: number;
  /** renewal brought forward when the engine's life is used up, downtime included, cents, 0 or more */
  readonly renewalCents: number;
  /** share of the engine's life used per km when changing at this interval, by parameter draw; 0 or more */
  readonly lifeSharePerKm: (intervalKm: number, draw: number) => number;
  /** number of parameter draws, 1 or more */
  readonly draws: number;
}

/** The cost of changing at one interval. */
export interface DrainCost {
  readonly intervalKm: number;
  readonly centsPer1000Km: number;
  /** of that: oil, labour and downtime of the changes */
  readonly changeCentsPer1000Km: number;
  /** of that: renewals brought forward */
  readonly wearCentsPer1000Km: number;
}

/** The cheapest interval and how sharply it matters. */
export interface DrainOptimum {
  readonly best: DrainCost;
  /** best interval of each draw: mean and 80 % range, km */
  readonly bestRangeKm: Range;
  /** part of the curve within `flatShare` of the best, km */
  readonly flatFromKm: number;
  readonly flatToKm: number;
  /** cost at evenly spread intervals, for a chart */
  readonly curve: readonly DrainCost[];
  readonly notes: readonly string[];
}

/** Points of the curve; the best is refined between them. */
const points = 121;

/**
 * Cost of changing at an interval, per 1 000 km, averaged over parameter draws:
 * 1000·(oil + labour + downtime)/interval + 1000·renewal·lifeShare(interval).
 * @param intervalKm above 0
 * @returns cents per 1 000 km; changes of 9 000 cents every 10 000 km and no wear → 900
 * @throws RangeError when the interval is not above 0 or the wear function gives no number from 0
 * Source: long-run cost of cyclic upkeep; common practice.
 */
export function drainCost(costs: DrainCosts, intervalKm: number): DrainCost {
  let share = 0;
  for (let draw = 0; draw < costs.draws; draw++) share += lifeShare(costs, intervalKm, draw);
  return costAt(costs, intervalKm, share / costs.draws);
}

function lifeShare(costs: DrainCosts, intervalKm: number, draw: number): number {
  if (!(intervalKm > 0 && Number.isFinite(intervalKm)))
    throw new RangeError(`intervalKm must be above 0, got ${intervalKm}`);
  const share = costs.lifeSharePerKm(intervalKm, draw);
  if (!(share >= 0 && Number.isFinite(share)))
    throw new RangeError(`lifeSharePerKm at ${intervalKm} km must be 0 or above, got ${share}`);
  return share;
}

function costAt(costs: DrainCosts, intervalKm: number, share: number): DrainCost {
  const change = (1000 * (costs.oilCents + costs.labourCents + costs.downtimeCents)) / intervalKm;
  const wear = 1000 * costs.renewalCents * share;
  return {
    intervalKm,
    centsPer1000Km: change + wear,
    changeCentsPer1000Km: change,
    wearCentsPer1000Km: wear,
  };
}

/**
 * The interval that is cheapest over the life of the engine, with its 80 % range over the draws and the flat part of the
 * curve around it.
 * @param costs of one oil
 * @param fromKm, toKm intervals looked at, above 0, rising
 * @param flatShare how much dearer still counts as flat, 0.02 = 2 %
 * @returns km and cents per 1 000 km; change 9 000, renewal 400 000 and life share 1e-6·interval/10 000 per km → 15 000 km
 * @throws RangeError for costs below 0, draws below 1 or intervals out of order
 * Source: long-run cost of cyclic upkeep; common practice.
 */
export function bestDrainInterval(
  costs: DrainCosts,
  fromKm: number,
  toKm: number,
  flatShare: number,
): DrainOptimum {
  for (const field of ['oilCents', 'labourCents', 'downtimeCents', 'renewalCents'] as const)
    if (!(costs[field] >= 0 && Number.isFinite(costs[field])))
      throw new RangeError(`${field} must be 0 or above, got ${costs[field]}`);
  if (!(Number.isInteger(costs.draws) && costs.draws >= 1))
    throw new RangeError(`draws must be a whole number from 1, got ${costs.draws}`);
  if (!(fromKm > 0 && toKm > fromKm && Number.isFinite(toKm)))
    throw new RangeError(`intervals must rise from above 0, got ${fromKm} to ${toKm}`);
  const ratio = (toKm / fromKm) ** (1 / (points - 1));
  const kilometres = Array.from({ length: points }, (_, i) => fromKm * ratio ** i);
  const shares = new Float64Array(points);
  const bestByDraw = new Float64Array(costs.draws);
  for (let draw = 0; draw < costs.draws; draw++) {
    let least = Infinity;
    kilometres.forEach((intervalKm, i) => {
      const share = lifeShare(costs, intervalKm, draw);
      shares[i]! += share / costs.draws;
      const cost = costAt(costs, intervalKm, share).centsPer1000Km;
      if (cost < least) [least, bestByDraw[draw]] = [cost, intervalKm];
    });
  }
  const curve = kilometres.map((intervalKm, i) => costAt(costs, intervalKm, shares[i]!));
  let place = 0;
  curve.forEach((cost, i) => {
    if (cost.centsPer1000Km < curve[place]!.centsPer1000Km) place = i;
  });
  const best = refine(costs, curve, place);
  const limit = best.centsPer1000Km * (1 + flatShare);
  const edge = (step: 1 | -1) => {
    let i = place;
    while (curve[i + step] && curve[i + step]!.centsPer1000Km <= limit) i += step;
    const next = curve[i + step];
    if (!next) return curve[i]!.intervalKm;
    const part = (limit - curve[i]!.centsPer1000Km) / (next.centsPer1000Km - curve[i]!.centsPer1000Km);
    return curve[i]!.intervalKm + Math.max(0, part) * (next.intervalKm - curve[i]!.intervalKm);
  };
  const notes =
    place === 0 || place === points - 1
      ? [
          `the cheapest interval lies at the edge of what was looked at (${Math.round(curve[place]!.intervalKm)} km)`,
        ]
      : [];
  return {
    best,
    bestRangeKm: rangeOf(bestByDraw),
    flatFromKm: Math.min(edge(-1), best.intervalKm),
    flatToKm: Math.max(edge(1), best.intervalKm),
    curve,
    notes,
  };
}

/** Narrows the best point of the curve between its neighbours by golden section. */
function refine(costs: DrainCosts, curve: readonly DrainCost[], place: number): DrainCost {
  const golden = (Math.sqrt(5) - 1) / 2;
  let low = curve[Math.max(0, place - 1)]!.intervalKm;
  let high = curve[Math.min(curve.length - 1, place + 1)]!.intervalKm;
  while (high - low > 1) {
    const [a, b] = [high - golden * (high - low), low + golden * (high - low)];
    if (drainCost(costs, a).centsPer1000Km <= drainCost(costs, b).centsPer1000Km) high = b;
    else low = a;
  }
  const refined = drainCost(costs, (low + high) / 2);
  return refined.centsPer1000Km < curve[place]!.centsPer1000Km ? refined : curve[place]!;
}
