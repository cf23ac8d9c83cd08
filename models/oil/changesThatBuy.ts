import type { Coefficients } from '../schema/coefficient.ts';
import { aboutNumber, wholeNumber } from './bookInterval.ts';
import { coefficientValue } from './conditionCoefficients.ts';
import type { Exposure, OilEngine, OilFill } from './exposure.ts';
import type { IntervalQuestion } from './intervalQuestion.ts';
import { limitNames } from './intervalWords.ts';
import type { IntervalAdvice } from './recommendedInterval.ts';
import { recommendedInterval } from './recommendedInterval.ts';

/** What one change of duty or oil would do to the interval. */
export interface ChangeGain {
  readonly code:
    'halve_idling' | 'longer_trips' | 'halve_towing' | 'warm_parking' | 'full_sump' | 'better_oil';
  readonly gainKm: number;
  readonly gainHours: number;
  readonly gainDays: number;
  /** the change alone, as it begins a sentence */
  readonly change: string;
  readonly advice: IntervalAdvice;
  readonly words: string;
}

interface Change {
  readonly code: ChangeGain['code'];
  readonly words: string;
  readonly applies: boolean;
  readonly duty?: (exposure: Exposure) => Exposure;
  readonly engine?: OilEngine;
  readonly fill?: OilFill;
}

/** Less towing than this is not worth halving, share of the distance. */
const leastTowing = 0.05;

function changesFor(question: IntervalQuestion, coefficients: Coefficients): readonly Change[] {
  const { coming, engine, fill } = question;
  const parkingC = coefficientValue(coefficients, 'oil.change_parking_temperature');
  const liters = coefficientValue(coefficients, 'oil.change_sump');
  const dispersancy = coefficientValue(coefficients, 'oil.change_dispersancy');
  return [
    {
      code: 'halve_idling',
      words: 'Halving the idling',
      applies: coming.some((e) => e.idleHours > 0),
      duty: (e) => ({ ...e, idleHours: e.idleHours / 2 }),
    },
    {
      code: 'longer_trips',
      words: 'Trips twice as long with half as many starts from cold',
      applies: coming.some((e) => e.distanceKm > 0),
      duty: (e) => ({ ...e, tripKm: 2 * e.tripKm, soakedStartsPerDay: e.soakedStartsPerDay / 2 }),
    },
    {
      code: 'halve_towing',
      words: 'Half the towing',
      applies: coming.some((e) => e.towingShare >= leastTowing),
      duty: (e) => ({ ...e, towingShare: e.towingShare / 2 }),
    },
    {
      code: 'warm_parking',
      words: `Parking at ${parkingC} °C or an engine heater`,
      applies: coming.some((e) => e.ambientC < parkingC),
      duty: (e) => ({ ...e, ambientC: Math.max(parkingC, e.ambientC) }),
    },
    {
      code: 'full_sump',
      words: `${liters} L more oil in the sump, where the engine allows it`,
      applies: true,
      engine: { ...engine, sumpLiters: engine.sumpLiters + liters },
    },
    {
      code: 'better_oil',
      words: 'An oil with more dispersancy',
      applies: fill.dispersancyFactor < dispersancy,
      fill: { ...fill, dispersancyFactor: dispersancy },
    },
  ];
}

/**
 * What changes of duty or oil would buy in interval, each alone, most first.
 * @param question as for the recommended interval; recorded fuel is set aside, since a change of duty changes it
 * @returns per change the gain in km, engine hours and days (0 where book or calendar hold) and a sentence
 * Throws as `recommendedInterval`. Source: catalog `oil.change_*`.
 */
export function changesThatBuy(
  question: IntervalQuestion,
  coefficients: Coefficients,
): readonly ChangeGain[] {
  const plain = { ...question, coming: question.coming.map((e) => ({ ...e, fuelLiters: null })) };
  const now = recommendedInterval(plain, coefficients);
  return changesFor(plain, coefficients)
    .filter((change) => change.applies)
    .map((change): ChangeGain => {
      const changed = {
        ...plain,
        coming: change.duty ? plain.coming.map(change.duty) : plain.coming,
        engine: change.engine ?? plain.engine,
        fill: change.fill ?? plain.fill,
      };
      return {
        code: change.code,
        change: change.words,
        ...intervalGain(change.words, now, recommendedInterval(changed, coefficients)),
      };
    })
    .sort((a, b) => b.gainDays - a.gainDays);
}

/** What one advice has over another, in numbers and as a sentence that begins with what made the difference. */
export function intervalGain(
  change: string,
  now: IntervalAdvice,
  advice: IntervalAdvice,
): Omit<ChangeGain, 'code' | 'change'> {
  const base = now.interval;
  const gainKm = advice.interval.distanceKm - base.distanceKm;
  const gainHours = advice.interval.engineHours - base.engineHours;
  const gainDays = advice.interval.days - base.days;
  const size = base.distanceKm > 0 ? `${aboutNumber(gainKm)} km` : `${aboutNumber(gainHours)} engine hours`;
  const next = limitNames[advice.governing];
  const then = advice.governing === now.governing ? '' : `; then held by ${next}`;
  return {
    gainKm,
    gainHours,
    gainDays,
    advice,
    words:
      gainDays < 0.5
        ? `${change}: no gain, held by ${next}.`
        : `${change}: about ${size} (${wholeNumber(gainDays)} days) more${then}.`,
  };
}
