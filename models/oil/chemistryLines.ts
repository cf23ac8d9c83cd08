import type { GoverningLimit } from '../schema/assessment.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { Amounts } from './amounts.ts';
import { addAmounts, amountsOf, leadingMeasure, pointAhead } from './amounts.ts';
import type { IntervalNote } from './bookInterval.ts';
import { wholeNumber } from './bookInterval.ts';
import { coefficientValue } from './conditionCoefficients.ts';
import type { FuelVerdict } from './fuelVerdict.ts';
import type { IntervalLine } from './intervalLine.ts';
import { sinceChange } from './intervalLine.ts';
import { limitWords, measureWords } from './intervalWords.ts';
import { limitReach, oilLimits } from './limitReach.ts';
import type { LimitsAhead } from './limitsAhead.ts';
import { limitsAhead } from './limitsAhead.ts';
import type { IntervalQuestion } from './intervalQuestion.ts';

/**
 * The limits of chemistry on the way, with the share of them that is used and the severity factor of fuel.
 * Fuel that builds up over a charge (diesel) is a limit of its own, but never takes more than the stated share of what
 * the other limits leave: then a note asks to find the source.
 * @param so the charge so far
 * @param schedule the lines of book, hours and calendar
 */
export function chemistryLines(
  question: IntervalQuestion,
  so: Amounts,
  verdict: FuelVerdict,
  schedule: readonly IntervalLine[],
  coefficients: Coefficients,
): { readonly lines: readonly IntervalLine[]; readonly notes: readonly IntervalNote[] } {
  const { coming, engine, fill, rates, soFar } = question;
  const share = coefficientValue(coefficients, 'oil.interval_share');
  const ahead = limitsAhead(coming, engine, fill, rates, coefficients, soFar?.state);
  const past = soFar ? limitReach(soFar.exposure, engine, fill, rates, coefficients) : null;
  const measure = leadingMeasure(addAmounts(so, amountsOf(coming[coming.length - 1])));
  const lines: IntervalLine[] = [];
  const totalOf = (name: keyof LimitsAhead): number | null => {
    const found = ahead[name];
    if (found === null) return null;
    if (found.left[measure] > 0) return so[measure] + found.left[measure];
    const times = past === null || name === 'thinning' ? 1 : past.times[name];
    return so[measure] * Math.min(1, times);
  };
  const add = (limit: GoverningLimit, name: keyof LimitsAhead, scale: number, floor = 0): void => {
    const total = totalOf(name);
    if (total === null) return;
    const scaled = Math.max(floor, total * scale);
    const left = pointAhead(coming, measure, scaled - so[measure]);
    if (left === null) return;
    const held = scaled > total * scale;
    const words = limitWords(limit, total, measure, held ? null : scale, ahead[name]?.withoutIdling ?? false);
    lines.push({ limit, measure, left, at: sinceChange(so, left, measure, scaled), words });
  };
  const { factor } = verdict;
  for (const name of ['base_number', 'additive', 'oxidation', 'soot'] as const)
    add(name, name, share * factor);
  add('dispersancy', 'dispersancy', share);
  add('acid_number', 'acid_number', factor);
  const notes: IntervalNote[] = [];
  if (!verdict.settles) {
    const nearest = Math.min(...[...schedule, ...lines].map((line) => line.at[measure]));
    const floor = coefficientValue(coefficients, 'oil.fuel_severity_floor') * nearest;
    add('fuel', 'fuel', share, floor);
    add('viscosity', 'thinning', share, floor);
    const fuelAt = Math.min(totalOf('fuel') ?? Infinity, totalOf('thinning') ?? Infinity);
    if (share * fuelAt < nearest) {
      const limits = oilLimits(fill, engine.fuelSystem, coefficients);
      notes.push({
        code: 'fuel_source',
        numbers: {
          reached: fuelAt,
          limitPercent: limits.fuelPercent,
          limitKv100: limits.thinKv100,
          factor: 1,
        },
        words: `Fuel builds up in the oil and passes its limit (${limits.fuelPercent} %, or ${limits.thinKv100.toFixed(1)} mm²/s) at ${wholeNumber(fuelAt)} ${measureWords[measure]}, before any other. Changing oil only sets it back: find the source or change the duty; diluted oil burns more easily.`,
      });
    }
  }
  add('viscosity', 'viscosity', share * factor);
  return { lines, notes };
}
