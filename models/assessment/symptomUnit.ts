import { isoFromDay } from '../schema/day.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { DeskUnit } from '../schema/deskEndpoints.ts';
import { chainLimitOf, driveOfEngine } from '../wear/phaseGeometry.ts';
import type { UnitView } from './unitView.ts';

/** What the symptom desk weighs of one unit. */
export function symptomUnit(view: UnitView, coefficients: Coefficients): DeskUnit {
  const { history, timeline, states, call } = view;
  const { unit, engine } = history;
  return {
    unitNumber: unit.unitNumber,
    engineFamily: unit.engineFamily,
    site: unit.site,
    call: call.call,
    asOf: isoFromDay(timeline.asOfDay),
    inServiceOn: unit.inServiceOn,
    odometerKm: timeline.odometerKm === null ? null : Math.round(timeline.odometerKm),
    interference: engine?.interference ?? null,
    drive: driveOfEngine(engine),
    chainLimit: chainLimitOf(engine, coefficients),
    now: states.now,
    stops: [...states.stops],
    renewals: states.renewals.map(({ day, part }) => ({ on: isoFromDay(day), part })),
  };
}
