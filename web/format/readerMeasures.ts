import { defaultSettings, type Settings } from '../../models/schema/settings.ts';

type Chosen = Pick<Settings, 'measures' | 'currency'>;
let chosen: Chosen = defaultSettings;

/** The shop's choice of measures, as it was last told; sentences of the models follow it. */
export function readerMeasures(): Settings['measures'] {
  return chosen.measures;
}

/** The shop's currency, as it was last told. */
export function readerCurrency(): string {
  return chosen.currency;
}

/** Tells which measures and currency the shop has chosen, before anything is written in them. */
export function setReaderMeasures(settings: Chosen): void {
  chosen = settings;
}
