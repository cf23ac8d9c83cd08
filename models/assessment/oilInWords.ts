import { aboutNumber } from '../oil/bookInterval.ts';
import { intervalGain } from '../oil/changesThatBuy.ts';
import type { OilCharge, UnitTimeline } from '../oil/charge.ts';
import type { CondemningLimits } from '../oil/condemningLimits.ts';
import { fillFrom, type OilCatalog } from '../oil/oilFill.ts';
import { recommendedInterval } from '../oil/recommendedInterval.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { monthNames } from '../schema/day.ts';
import { fillNow } from './assessUnit.ts';
import { comingMonths } from './dutyExposure.ts';
import { requiredOilOf } from './fillsOfUnit.ts';
import { fuelAhead } from './fuelAhead.ts';
import { makeUpOf } from './makeUp.ts';
import { freshOilQuestion } from './oilQuestion.ts';
import type { UnitView } from './unitView.ts';

const one = (value: number): string => String(Math.round(value * 10) / 10);

/** Oil added to one charge, by amount and other grades; none: no words. */
export function topUpWords({ topUps, grade }: OilCharge): string[] {
  if (topUps.length === 0) return [];
  const liters = topUps.reduce((sum, topUp) => sum + topUp.liters, 0);
  const others = new Set(topUps.flatMap((topUp) => topUp.grade ?? []).filter((other) => other !== grade));
  const times = topUps.length === 1 ? 'once' : `${topUps.length} times`;
  return [
    `topped up ${times}, ${one(liters)} L${others.size === 0 ? '' : `, of it ${[...others].join(', ')}`}`,
  ];
}

/** Oil added between changes per distance, as a line of the unit; null: none on record. */
export function makeUpWords(timeline: UnitTimeline): string | null {
  const found = makeUpOf(timeline);
  return found === null
    ? null
    : `${one(found.liters)} L in ${aboutNumber(found.distanceKm)} km, ${found.litersPer1000Km.toPrecision(2)} L per 1000 km; base number and metals of samples are read with it`;
}

/** Start months whose intervals differ by less than this share say nothing. */
const leastSeason = 0.05;
/** How far a fresh fill would carry by the month it is put in, and where fuel settles, where the season moves them. */
export function seasonWords(view: UnitView, limits: CondemningLimits, coefficients: Coefficients): string[] {
  const { timeline, states, oil } = view;
  if (oil === null) return [];
  const question = { ...oil.question, soFar: undefined };
  const starts = monthNames.map((name, month) => {
    // mid-month days of a year that begins on 1 January 2001, a common one
    const coming = comingMonths(timeline.duty, 11_323 + 15 + Math.round((month * 365.25) / 12));
    return { name, ...recommendedInterval({ ...question, coming }, coefficients).interval };
  });
  const far = starts.reduce((best, next) => (next.days > best.days ? next : best));
  const near = starts.reduce((least, next) => (next.days < least.days ? next : least));
  const size = (at: typeof far): string =>
    at.distanceKm > 0 ? `${aboutNumber(at.distanceKm)} km` : `${aboutNumber(at.engineHours)} engine hours`;
  const words: string[] = [];
  if (far.days >= (1 + leastSeason) * near.days)
    words.push(
      `The season counts: fresh oil of ${far.name} carries about ${size(far)}, of ${near.name} about ${size(near)}. Both are middle values.`,
    );
  const fuel = fuelAhead(oil.question, states.ratesLogSd.fuel, limits, coefficients);
  if (fuel !== null && fuel.mostPercent >= 1 && fuel.mostPercent >= (1 + leastSeason) * fuel.leastPercent)
    words.push(
      `Fuel in the oil settles between ${fuel.leastPercent.toFixed(1)} and ${fuel.mostPercent.toFixed(1)} % over the year (caution ${fuel.cautionPercent} %, limit ${fuel.condemnPercent} %).`,
    );
  return words;
}

/** What the oil that the engine asks for would change, when another one is in: interval and wear. */
export function rightOilEffect(view: UnitView, catalog: OilCatalog, coefficients: Coefficients): string[] {
  const { timeline, states, history, rightOil } = view;
  const filled = fillNow(timeline, view.fillOf);
  const off = rightOil?.verdicts.some(
    ({ topic, verdict }) => topic !== 'season' && (verdict === 'wrong' || verdict === 'differs'),
  );
  if (filled === null || off !== true) return [];
  const required = requiredOilOf(history.engine);
  const asked = fillFrom(null, null, required, catalog, coefficients);
  const name = [required.grade, required.category].filter((text) => text !== null).join(', ');
  const question = freshOilQuestion(timeline, states, view.book, filled, coefficients);
  const now = recommendedInterval(question, coefficients);
  const then = recommendedInterval({ ...question, fill: asked.fill }, coefficients);
  const gain = intervalGain(`Interval with the oil asked for (${name})`, now, then);
  const less = 1 - asked.fill.chainWearFactor / filled.fill.chainWearFactor;
  const sludge = asked.fill.dispersancyFactor / filled.fill.dispersancyFactor - 1;
  const wear = [
    ...(less >= 0.01 ? [`chain wear about ${Math.round(100 * less)} % less`] : []),
    ...(sludge >= 0.01 ? [`dispersancy about ${Math.round(100 * sludge)} % more, against sludge`] : []),
  ];
  return [
    gain.gainDays < -3
      ? `The oil in would carry further than the one asked for (${name}), by about ${aboutNumber(-gain.gainDays)} days; the maker's choice still comes first.`
      : gain.words,
    `Wear with the oil asked for: ${wear.length === 0 ? 'no difference that the model knows of' : wear.join('; ')}.`,
  ];
}
