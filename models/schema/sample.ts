import { z } from 'zod';
import { commonFields, day, flag, quantity, requiredDay, requiredText, text } from './fields.ts';

const ppm = () => quantity('ppm', { min: 0, max: 100_000 });
const percent = () => quantity('%', { min: 0, max: 100 });

/** One used-oil sample as the laboratory reported it. */
export const sample = z.object({
  unitNumber: requiredText(),
  sampledOn: requiredDay(),
  odometerKm: quantity('km', { min: 0, max: 5e6 }),
  oilKm: quantity('km', { min: 0, max: 300_000 }),
  kv100Mm2S: quantity('mm²/s', { min: 1, max: 100 }),
  kv40Mm2S: quantity('mm²/s', { min: 2, max: 2000 }),
  baseNumberMgKohG: quantity('mg KOH/g', { min: 0, max: 100 }),
  acidNumberMgKohG: quantity('mg KOH/g', { min: 0, max: 100 }),
  fuelPercent: percent(),
  sootPercent: percent(),
  oxidationACm: quantity('A/cm', { min: 0, max: 500 }),
  nitrationACm: quantity('A/cm', { min: 0, max: 500 }),
  waterPercent: percent(),
  glycol: flag(),
  ironPpm: ppm(),
  copperPpm: ppm(),
  leadPpm: ppm(),
  aluminiumPpm: ppm(),
  siliconPpm: ppm(),
  oilHoursH: quantity('h', { min: 0, max: 20_000 }),
  labNumber: text(),
  reportedOn: day(),
  baseNumberMethod: text(),
  sodiumPpm: ppm(),
  potassiumPpm: ppm(),
  calciumPpm: ppm(),
  magnesiumPpm: ppm(),
  zincPpm: ppm(),
  phosphorusPpm: ppm(),
  boronPpm: ppm(),
  molybdenumPpm: ppm(),
  ...commonFields,
});
export type Sample = z.infer<typeof sample>;
