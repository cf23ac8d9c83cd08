import { defaultSettings, type Settings } from '../../models/schema/settings.ts';

let measures: Settings['measures'] = defaultSettings.measures;

/** The shop's choice of measures, as it was last told; sentences of the models follow it. */
export function readerMeasures(): Settings['measures'] {
  return measures;
}

/** Tells which measures the shop has chosen, before anything is written in them. */
export function setReaderMeasures(chosen: Settings['measures']): void {
  measures = chosen;
}
