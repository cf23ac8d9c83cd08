import type { DutyRules } from './dutyRules.ts';

/** A unit's duty as severe service looks at it. */
export interface SevereView {
  readonly tripKm: number;
  readonly speedKmh: number;
  /** of engine hours */
  readonly idleShare: number;
  readonly towingShare: number;
  readonly dustShare: number;
  /** January–December, °C */
  readonly ambientByMonthC: readonly number[];
}

/** One condition of severe service that is met. */
export interface SevereCriterion {
  readonly name: 'short_trip' | 'idle' | 'stop_go' | 'towing' | 'dust' | 'heat' | 'cold';
  /** share of distance, hours or time in the condition */
  readonly share: number;
  readonly limit: number;
  readonly words: string;
  /** severe interval against the normal one under this condition alone */
  readonly factor: number;
}

/** Severe or not, why, and how much shorter the interval is where the book has no severe one. */
export interface SevereClass {
  readonly severe: boolean;
  readonly criteria: readonly SevereCriterion[];
  /** 1 where not severe */
  readonly factor: number;
}

/**
 * Share of the distance driven in trips shorter than a length, for exponential trip lengths with a mean:
 * 1 − e^−x (1 + x), x = shortKm/meanKm. @example mean 5 km, short 8 km → 0.475
 */
export function shortTripDistanceShare(meanKm: number, shortKm: number): number {
  const x = shortKm / Math.max(0.1, meanKm);
  return 1 - Math.exp(-x) * (1 + x);
}

/** Chance that a day is beyond a temperature, days normal about the month's mean (logistic approximation). */
function beyond(meanC: number, limitC: number, sd: number): number {
  return 1 / (1 + Math.exp((-1.702 * (meanC - limitC)) / sd));
}

const percent = (share: number): string => `${Math.round(100 * share)} %`;
const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);

/**
 * Classes a duty as normal or severe: more than 15 % of distance, hours or time in any one condition. The factor is
 * that of the worst condition, a little less for each further one, never below the floor: factors are not multiplied freely.
 * @param view the duty
 * @param rules catalog values
 * @returns e.g. idle 0.41 → severe, `idling 41 % of engine hours (limit 25 %)`, factor 0.5
 * Source: shop notes on severe service; the factors are engineering judgement.
 */
export function severeClass(view: SevereView, rules: DutyRules): SevereClass {
  const months = view.ambientByMonthC;
  const short = mean(
    months.map((meanC) => {
      const frost = beyond(-meanC, 0, rules.ambientDaySdC);
      return (
        frost * shortTripDistanceShare(view.tripKm, rules.shortTripColdKm) +
        (1 - frost) * shortTripDistanceShare(view.tripKm, rules.shortTripKm)
      );
    }),
  );
  const hot = mean(months.map((meanC) => beyond(meanC, rules.severeHeatC, rules.ambientDaySdC)));
  const cold = mean(months.map((meanC) => beyond(-meanC, -rules.severeColdC, rules.ambientDaySdC)));
  const usual = rules.severeShare;
  const speed = Math.round(view.speedKmh);
  const all: SevereCriterion[] = [
    {
      name: 'short_trip',
      share: short,
      limit: usual,
      words: `short trips ${percent(short)} of distance, mean trip ${trip(view.tripKm)} km (limit ${percent(usual)})`,
      factor: rules.severityShortTrip,
    },
    {
      name: 'idle',
      share: view.idleShare,
      limit: rules.severeIdleShare,
      words: `idling ${percent(view.idleShare)} of engine hours (limit ${percent(rules.severeIdleShare)})`,
      factor: rules.severityIdle,
    },
    {
      name: 'stop_go',
      share: view.speedKmh < rules.severeStopGoSpeedKmh ? 1 : 0,
      limit: usual,
      words: `stop-and-go: mean driving speed ${speed} km/h (limit ${rules.severeStopGoSpeedKmh} km/h)`,
      factor: rules.severityStopGo,
    },
    {
      name: 'towing',
      share: view.towingShare,
      limit: usual,
      words: `towing ${percent(view.towingShare)} of distance (limit ${percent(usual)})`,
      factor: rules.severityTowing,
    },
    {
      name: 'dust',
      share: view.dustShare,
      limit: usual,
      words: `dust on ${percent(view.dustShare)} of distance (limit ${percent(usual)})`,
      factor: rules.severityDust,
    },
    {
      name: 'heat',
      share: hot,
      limit: usual,
      words: `above ${rules.severeHeatC} °C ${percent(hot)} of the time (limit ${percent(usual)})`,
      factor: rules.severityHeat,
    },
    {
      name: 'cold',
      share: cold,
      limit: usual,
      words: `below ${rules.severeColdC} °C ${percent(cold)} of the time (limit ${percent(usual)})`,
      factor: rules.severityCold,
    },
  ];
  const criteria = all.filter((one) => one.share > one.limit);
  if (criteria.length === 0) return { severe: false, criteria, factor: 1 };
  const worst = Math.min(...criteria.map((one) => one.factor));
  const factor = Math.max(rules.severityFloor, worst * rules.severityFurther ** (criteria.length - 1));
  return { severe: true, criteria, factor };
}

const trip = (km: number): string =>
  km < 10 ? (Math.round(10 * km) / 10).toFixed(1) : String(Math.round(km));
