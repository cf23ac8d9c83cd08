import type { Coefficients } from '../schema/coefficient.ts';
import type { Sample } from '../schema/sample.ts';
import { comparableBaseNumber } from './baseNumberMethod.ts';
import { coefficientValue } from './conditionCoefficients.ts';
import type { SampleVerdict } from './sampleVerdicts.ts';
import type { ServiceCategory } from './serviceCategory.ts';

/** Something a sample says that changing the oil does not answer. */
export interface SampleWarning {
  readonly code: 'fuel_source' | 'water_source' | 'coolant' | 'acid_crossover' | 'wrong_fill' | 'dirt';
  /** coolant in oil is direct evidence for a stop; the others ask for a look */
  readonly stop: boolean;
  readonly words: string;
}

/** Additive metals of the fresh oil by name of the sample's column, ppm. */
export type AdditiveMetals = Partial<
  Record<'calciumPpm' | 'magnesiumPpm' | 'zincPpm' | 'phosphorusPpm' | 'boronPpm' | 'molybdenumPpm', number>
>;

/**
 * What a sample says beyond its limits: fuel and water ask for their source, glycol (or sodium with potassium) for
 * coolant, acid above base number for a change, additive metals for another oil than named.
 * @param verdicts of {@link sampleVerdicts}
 * @param freshMetals of the oil named, from a fresh sample; null: the category's phosphorus range is the only check
 * @param categories of the oil named; empty: not known
 * @returns warnings in words
 * Source: common practice, no source; thresholds from the condemning limits.
 */
export function sampleWarnings(
  sample: Sample,
  verdicts: readonly SampleVerdict[],
  freshMetals: AdditiveMetals | null,
  categories: readonly ServiceCategory[],
  coefficients: Coefficients,
): readonly SampleWarning[] {
  const warnings: SampleWarning[] = [];
  const add = (code: SampleWarning['code'], stop: boolean, words: string) =>
    warnings.push({ code, stop, words });
  const level = (name: SampleVerdict['measurand']) =>
    verdicts.find((verdict) => verdict.measurand === name)?.level ?? 'normal';
  if (level('fuelPercent') !== 'normal')
    add(
      'fuel_source',
      false,
      `Fuel ${sample.fuelPercent} %: find the source or change the duty; a change alone hides it, and diluted oil burns more easily.`,
    );
  if (sample.glycol === true)
    add(
      'coolant',
      true,
      'Glycol is in the oil: find the coolant leak before the engine runs on; a change alone hides it.',
    );
  else if (level('sodiumPpm') !== 'normal' && level('potassiumPpm') !== 'normal')
    add(
      'coolant',
      false,
      `Sodium ${sample.sodiumPpm} and potassium ${sample.potassiumPpm} ppm together tell of coolant: test for glycol.`,
    );
  if (level('waterPercent') !== 'normal')
    add('water_source', false, `Water ${sample.waterPercent} %: find the source; a change alone hides it.`);
  const { acidNumberMgKohG: acid, baseNumberMgKohG: base, baseNumberMethod } = sample;
  if (acid !== null && base !== null) {
    const comparable = comparableBaseNumber(base, baseNumberMethod, coefficients).value;
    if (acid >= comparable)
      add(
        'acid_crossover',
        false,
        `Acid number ${acid} has outgrown base number ${comparable.toFixed(1)}: change the oil.`,
      );
  }
  if (level('siliconPpm') !== 'normal' && level('aluminiumPpm') !== 'normal')
    add(
      'dirt',
      false,
      'Silicon and aluminium together tell of dirt: check air filter, hoses and filler cap.',
    );
  const wrong = wrongFill(sample, freshMetals, categories, coefficients);
  if (wrong !== null) add('wrong_fill', false, wrong);
  return warnings;
}

const metalNames: Readonly<Record<keyof AdditiveMetals, string>> = {
  calciumPpm: 'calcium',
  magnesiumPpm: 'magnesium',
  zincPpm: 'zinc',
  phosphorusPpm: 'phosphorus',
  boronPpm: 'boron',
  molybdenumPpm: 'molybdenum',
};
/** Metals too small in the fresh oil to judge by a share, ppm. */
const traces = 50;

function wrongFill(
  sample: Sample,
  freshMetals: AdditiveMetals | null,
  categories: readonly ServiceCategory[],
  coefficients: Coefficients,
): string | null {
  const share = coefficientValue(coefficients, 'oil.wrong_fill_share');
  if (freshMetals !== null) {
    const off: string[] = [];
    for (const name of Object.keys(freshMetals) as (keyof AdditiveMetals)[]) {
      const fresh = freshMetals[name];
      const found = sample[name];
      if (fresh === undefined || found === null) continue;
      // boron is used up in service, so only more of it tells another oil
      const less = name === 'boronPpm' ? 0 : fresh - found;
      if (Math.max(found - fresh, less) > share * Math.max(traces, fresh))
        off.push(`${metalNames[name]} ${found} ppm (fresh ${fresh})`);
    }
    if (off.length >= 2) return `Additive metals are not those of the oil named: ${off.join(', ')}.`;
    return null;
  }
  const found = sample.phosphorusPpm;
  if (found === null || categories.length === 0) return null;
  const low = Math.min(...categories.map((entry) => entry.phosphorusPpm[0]));
  const high = Math.max(...categories.map((entry) => entry.phosphorusPpm[1]));
  return found < low * (1 - share) || found > high * (1 + share)
    ? `Phosphorus ${found} ppm does not fit ${categories.map((entry) => entry.title).join(', ')} (${low} to ${high} ppm): another oil may be in.`
    : null;
}
