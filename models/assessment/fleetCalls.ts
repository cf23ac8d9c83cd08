import { limitBooked, type CalledUnit } from '../decisions/bookingLimit.ts';
import type { CallResult } from '../decisions/calls.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso } from '../schema/day.ts';
import type { FleetHistory } from '../schema/history.ts';
import type { Settings } from '../schema/settings.ts';
import { siteRooms } from './siteRoom.ts';
import type { UnitView } from './unitView.ts';

/** What the fleet's room is shared out by: a unit's own call and its urgency. Plain data. */
export function calledUnitOf(view: UnitView, settings: Settings): CalledUnit {
  return {
    unitNumber: view.history.unit.unitNumber,
    site: view.history.unit.site,
    result: view.call,
    dueDayMedian: view.oil?.due?.dueDay ?? null,
    chancePastNow: view.oil?.due?.chancePastNow ?? 0,
    failureProbability: view.failure?.probability ?? null,
    visitHours: settings.oilServiceHours,
  };
}

/** Calls of all units in service once the room of their sites is looked at, in their order. */
export function fleetCalls(
  fleet: FleetHistory,
  called: readonly CalledUnit[],
  coefficients: Coefficients,
): readonly CallResult[] {
  return limitBooked(
    called,
    siteRooms(fleet, coefficients),
    fleet.settings,
    dayFromIso(fleet.asOf),
    coefficients['shop.default_site_hours'],
  );
}
