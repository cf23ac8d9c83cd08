import type { FieldUnit } from '../schema/fields.ts';
import { fold } from './headerWords.ts';

/** A unit of measure as people write it, and how it becomes the unit that is stored: value × factor + offset. */
export interface UnitWord {
  /** the short name shown to people */
  readonly name: string;
  readonly to: FieldUnit;
  readonly factor: number;
  readonly offset: number;
}

type Row = readonly [to: FieldUnit, name: string, factor: number, spellings: string, offset?: number];

// Exact by definition: mile, US quart, gallon and pint, imperial gallon, inch (NIST SP 811); psi to 10 digits.
const rows: readonly Row[] = [
  [
    'km',
    'km',
    1,
    'km kms kilometer kilometers kilometre kilometres kilometros quilometros chilometri kilometern kilometry',
  ],
  ['km', 'mi', 1.609344, 'mi mile miles mls meile meilen milla millas milha milhas miglia mijl mijlen'],
  [
    'h',
    'h',
    1,
    'h hr hrs hour hours std stunde stunden heure heures hora horas ora ore uur uren timmar godz',
  ],
  ['h', 'min', 1 / 60, 'min mins minute minutes minuten minutos'],
  ['L', 'L', 1, 'l lt ltr ltrs liter liters litre litres litro litros litri litrow'],
  ['L', 'dL', 0.1, 'dl deciliter decilitre'],
  ['L', 'mL', 0.001, 'ml cc cm3 milliliter millilitre'],
  ['L', 'qt', 0.946352946, 'qt qts quart quarts us_qt'],
  ['L', 'pt', 0.473176473, 'pt pts pint pints'],
  ['L', 'gal', 3.785411784, 'gal gals gallon gallons us_gal usgal gal_us galones us_gallons'],
  ['L', 'imp gal', 4.54609, 'imp_gal impgal uk_gal gal_uk imperial_gallon imperial_gallons uk_gallons'],
  ['°C', '°C', 1, 'c degc deg_c celsius grad_c'],
  ['°C', '°F', 5 / 9, 'f degf deg_f fahrenheit', -160 / 9],
  ['mm²/s', 'mm²/s', 1, 'mm2_s mm2s cst centistokes'],
  ['mg KOH/g', 'mg KOH/g', 1, 'mg_koh_g mgkoh_g mgkohg mg_kohg'],
  ['%', '%', 1, 'percent pct prozent wt_percent percent_wt vol_percent percent_vol m_percent percent_m'],
  ['%', 'ppm', 1e-4, 'ppm mg_kg'],
  ['A/cm', 'A/cm', 1, 'a_cm abs_cm acm'],
  ['ppm', 'ppm', 1, 'ppm mg_kg parts_per_million'],
  ['ppm', '%', 1e4, 'percent wt_percent percent_wt pct'],
  ['mm', 'mm', 1, 'mm millimeter millimetre'],
  ['mm', 'cm', 10, 'cm'],
  ['mm', 'in', 25.4, 'in inch inches zoll'],
  ['s', 's', 1, 's sec secs second seconds sek sekunden'],
  ['s', 'ms', 0.001, 'ms'],
  ['s', 'min', 60, 'min minute minutes'],
  ['kPa', 'kPa', 1, 'kpa'],
  ['kPa', 'bar', 100, 'bar bars'],
  ['kPa', 'psi', 6.894757293, 'psi psig lbf_in2'],
  ['1/min', '1/min', 1, 'rpm 1_min min_1 u_min tr_min'],
  ['d', 'd', 1, 'd day days tag tage jour jours dia dias'],
  ['d', 'weeks', 7, 'week weeks wk wks woche wochen'],
  ['months', 'months', 1, 'mo mos month months monat monate mois mes meses'],
  ['months', 'years', 12, 'yr yrs year years jahr jahre'],
  ['share', 'share', 1, 'share fraction ratio'],
  ['share', '%', 0.01, 'percent pct prozent'],
  ['°', '°', 1, 'deg degree degrees grad crank_deg deg_crank kw'],
  ['count', 'pieces', 1, 'pcs pc ea each st stk piece pieces'],
];

const byUnit = new Map<FieldUnit, Map<string, UnitWord>>();
for (const [to, name, factor, spellings, offset] of rows) {
  const words = byUnit.get(to) ?? new Map<string, UnitWord>();
  byUnit.set(to, words);
  for (const spelling of spellings.split(' ')) words.set(spelling, { name, to, factor, offset: offset ?? 0 });
}

/** The text of a unit as it is looked up: `mm²/s` → `mm2_s`, `U.S. gal.` → `us_gal`, `°F` → `f`. */
export function unitKey(text: string): string {
  return fold(text)
    .replace(/%/g, ' percent ')
    .replace(/[²]/g, '2')
    .replace(/[³]/g, '3')
    .replace(/u\.s\.?/g, 'us')
    .replace(/[^a-z0-9]+/g, '_')
    .replace(/^_|_$/g, '');
}

/** The unit that a text names for a field stored in `to`; null when it names none that fits. */
export function unitFor(text: string, to: FieldUnit): UnitWord | null {
  const words = byUnit.get(to);
  if (words === undefined) return null;
  const quick = words.get(text);
  return quick ?? words.get(unitKey(text)) ?? null;
}

/** The unit that stands for a stored one when a file is in US measures and names none: mi, qt (oil), gal (fuel), °F. */
export function usualUnit(to: FieldUnit, field: string, measures: 'metric' | 'us'): UnitWord | null {
  const us = { km: 'mi', L: field === 'fuelL' ? 'gal' : 'qt', '°C': 'f' } as const;
  const key = measures === 'us' && (to === 'km' || to === 'L' || to === '°C') ? us[to] : null;
  if (key !== null) return byUnit.get(to)?.get(key) ?? null;
  return storedUnit(to);
}

/** The stored unit itself as a unit word, or null where the number has none to name (cents, count). */
export function storedUnit(to: FieldUnit): UnitWord | null {
  const words = byUnit.get(to);
  if (words === undefined) return null;
  for (const word of words.values()) if (word.factor === 1 && word.offset === 0) return word;
  return null;
}
