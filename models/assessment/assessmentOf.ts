import type { FleetFit } from '../reliability/fleet/fleetFit.ts';
import type { Assessment, UnitAssessment } from '../schema/assessment.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { FleetHistory } from '../schema/history.ts';
import { fleetMessages } from './fleetMessages.ts';
import { modelVersion } from './modelVersion.ts';
import { capacitiesOf, siteRooms } from './siteRoom.ts';

/** Version of the models, and of what the fleet taught them. */
export function versionOfFit(fit: Pick<FleetFit, 'version'>): string {
  return `${modelVersion}-${fit.version}`;
}

/** The document of a fleet, from the lines of its units. */
export function assessmentOf(
  fleet: FleetHistory,
  units: UnitAssessment[],
  fit: Pick<FleetFit, 'version' | 'messages'>,
  expected: Assessment['expectedFailures'],
  horizonDays: number,
  coefficients: Coefficients,
): Assessment {
  const rooms = siteRooms(fleet, coefficients);
  return {
    asOf: fleet.asOf,
    horizonDays,
    modelVersion: versionOfFit(fit),
    newestRecordOn: newestOf(units),
    messages: fleetMessages(fleet, units, rooms, fit),
    expectedFailures: units.length === 0 ? null : expected,
    capacities: capacitiesOf(rooms, fleet.settings.oilServiceHours),
    units,
  };
}

function newestOf(units: readonly UnitAssessment[]): string | null {
  return units.reduce<string | null>(
    (latest, { lastRecordOn }) =>
      lastRecordOn !== null && (latest === null || lastRecordOn > latest) ? lastRecordOn : latest,
    null,
  );
}
