import type { Measurand } from '../oil/condemningLimits.ts';

/** A measurand as people read it. */
export interface MeasurandWords {
  readonly label: string;
  /** unit of the laboratory's value */
  readonly unit: string;
  /** the fleet's alarm limits are worked out: per 1000 km for wear metals, as reported for the others; no: none */
  readonly alarm: 'per_1000_km' | 'as_reported' | 'no';
}

/**
 * Alarm limits are by distance for what wears off, as reported for what builds up with service. Water, sodium and
 * potassium are nil in a sound engine, and base number, acid number and viscosity are judged against the fresh oil.
 */
export const measurandWords: Readonly<Record<Measurand, MeasurandWords>> = {
  baseNumber: { label: 'base number', unit: 'mg KOH/g', alarm: 'no' },
  acidNumber: { label: 'acid number', unit: 'mg KOH/g', alarm: 'no' },
  kv100: { label: 'viscosity at 100 °C', unit: 'mm²/s', alarm: 'no' },
  fuelPercent: { label: 'fuel', unit: '%', alarm: 'as_reported' },
  sootPercent: { label: 'soot', unit: '%', alarm: 'as_reported' },
  oxidation: { label: 'oxidation', unit: 'A/cm', alarm: 'as_reported' },
  nitration: { label: 'nitration', unit: 'A/cm', alarm: 'as_reported' },
  waterPercent: { label: 'water', unit: '%', alarm: 'no' },
  ironPpm: { label: 'iron', unit: 'ppm', alarm: 'per_1000_km' },
  copperPpm: { label: 'copper', unit: 'ppm', alarm: 'per_1000_km' },
  leadPpm: { label: 'lead', unit: 'ppm', alarm: 'per_1000_km' },
  aluminiumPpm: { label: 'aluminium', unit: 'ppm', alarm: 'per_1000_km' },
  siliconPpm: { label: 'silicon', unit: 'ppm', alarm: 'per_1000_km' },
  sodiumPpm: { label: 'sodium', unit: 'ppm', alarm: 'no' },
  potassiumPpm: { label: 'potassium', unit: 'ppm', alarm: 'no' },
  sulfation: { label: 'sulfation', unit: 'A/cm', alarm: 'no' },
  insolublesPercent: { label: 'insolubles', unit: '%', alarm: 'no' },
  dispersancyBlotter: { label: 'dispersancy', unit: '1', alarm: 'no' },
};
