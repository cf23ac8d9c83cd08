import { z } from 'zod';
import { commonFields, money, quantity, requiredText, text } from './fields.ts';

const monthly = () => quantity('°C', { min: -60, max: 60 });

/** A place with bays, people and a climate. */
export const site = z.object({
  site: requiredText(),
  bays: quantity('count', { min: 0, max: 500 }),
  technicians: quantity('count', { min: 0, max: 1000 }),
  hoursPerDay: quantity('h', { min: 0, max: 24 }),
  weekdays: text().describe('`mon-fri` or `mon,tue,sat`'),
  meanTemperatureJanC: monthly(),
  meanTemperatureFebC: monthly(),
  meanTemperatureMarC: monthly(),
  meanTemperatureAprC: monthly(),
  meanTemperatureMayC: monthly(),
  meanTemperatureJunC: monthly(),
  meanTemperatureJulC: monthly(),
  meanTemperatureAugC: monthly(),
  meanTemperatureSepC: monthly(),
  meanTemperatureOctC: monthly(),
  meanTemperatureNovC: monthly(),
  meanTemperatureDecC: monthly(),
  timeZone: text(),
  opensAt: text(),
  labourRatePerHourCents: money('labour_rate_per_hour'),
  ...commonFields,
});
export type Site = z.infer<typeof site>;

/** Mean temperatures January to December, °C; null where a month is not known. */
export function monthlyMeansC(place: Site): readonly (number | null)[] {
  return [
    place.meanTemperatureJanC,
    place.meanTemperatureFebC,
    place.meanTemperatureMarC,
    place.meanTemperatureAprC,
    place.meanTemperatureMayC,
    place.meanTemperatureJunC,
    place.meanTemperatureJulC,
    place.meanTemperatureAugC,
    place.meanTemperatureSepC,
    place.meanTemperatureOctC,
    place.meanTemperatureNovC,
    place.meanTemperatureDecC,
  ];
}
