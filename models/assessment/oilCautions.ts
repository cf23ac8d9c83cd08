import { chanceWords } from '../decisions/chanceWords.ts';
import type { UnitTimeline } from '../oil/charge.ts';
import type { CondemningLimits } from '../oil/condemningLimits.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { isoFromDay } from '../schema/day.ts';
import type { UnitStates } from '../wear/states.ts';
import type { OilView } from './assessOil.ts';
import { fuelAhead, fuelCaution } from './fuelAhead.ts';
import { makeUpOf } from './makeUp.ts';
import { runningCharge } from './oilQuestion.ts';

interface CautionInputs {
  readonly timeline: UnitTimeline;
  readonly states: UnitStates;
  readonly limits: CondemningLimits;
  readonly coefficients: Coefficients;
}

/** What the oil asks to look into, in words: fuel and viscosity, faults that stand, changes not on record, consumption. */
export function oilCautions(
  oil: OilView | null,
  { timeline, states, limits, coefficients }: CautionInputs,
): string[] {
  if (oil === null) return [];
  const notes = oil.advice.notes.filter(({ code }) => /^(fuel|visc|open_fault)/.test(code));
  const ahead = notes.some(({ code }) => code === 'fuel_source')
    ? null
    : fuelCaution(
        fuelAhead(oil.question, states.ratesLogSd.fuel, limits, coefficients),
        timeline.asOfDay,
        coefficients,
      );
  return [
    ...notes.map(({ words }) => words),
    ...(ahead === null ? [] : [ahead]),
    ...hiddenDrainCaution(timeline, coefficients),
    ...makeUpCaution(timeline, coefficients),
  ];
}

/** A change of the oil now in that may be missing from the records: what the due date then rests on. */
function hiddenDrainCaution(timeline: UnitTimeline, coefficients: Coefficients): string[] {
  const charge = runningCharge(timeline);
  const asked = coefficients['assumed.hidden_drain_asked_chance'];
  if (charge === null || charge.hiddenDrains < 1 || charge.hiddenDrainChance < asked) return [];
  const many = charge.hiddenDrains === 1 ? 'an oil change' : `${charge.hiddenDrains} oil changes`;
  return [
    `chance ${chanceWords(charge.hiddenDrainChance)} that ${many} since ${isoFromDay(charge.startDay)} went unrecorded; the due date weighs both: find out and bring the record in`,
  ];
}

function makeUpCaution(timeline: UnitTimeline, coefficients: Coefficients): string[] {
  const found = makeUpOf(timeline);
  if (found === null || found.litersPer1000Km < coefficients['sample.make_up_caution']) return [];
  return [
    `make-up oil ${found.litersPer1000Km.toPrecision(2)} L per 1000 km: look for leaks, the crankcase ventilation and blue smoke; check the level between changes`,
  ];
}
