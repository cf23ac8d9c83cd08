import type { FleetFit } from '../reliability/fleet/fleetFit.ts';
import type { UnitAssessment } from '../schema/assessment.ts';
import type { FleetHistory } from '../schema/history.ts';
import type { SiteRoom } from './siteRoom.ts';

/** What holds for the whole fleet: assumptions made, inputs that are missing, what the chances rest on. */
export function fleetMessages(
  fleet: FleetHistory,
  units: readonly UnitAssessment[],
  rooms: readonly SiteRoom[],
  fit: Pick<FleetFit, 'messages'>,
): string[] {
  const messages: string[] = [];
  const assumed = rooms.filter((room) => room.assumed).map((room) => room.site);
  if (assumed.length > 0)
    messages.push(
      `No site record for ${assumed.join(', ')}: one bay and one technician for 8 h on weekdays and a mild climate are assumed.`,
    );
  const described = new Set(fleet.engines.map((engine) => engine.engineFamily.trim().toLowerCase()));
  const unknown = [
    ...new Set(
      units
        .map((unit) => unit.engineFamily)
        .filter((family): family is string => family !== null && !described.has(family.trim().toLowerCase())),
    ),
  ];
  if (unknown.length > 0)
    messages.push(
      `Engine ${unknown.length === 1 ? 'family' : 'families'} ${unknown.slice(0, 8).join(', ')}${unknown.length > 8 ? ' …' : ''} ${unknown.length === 1 ? 'is' : 'are'} not described: book intervals, sump and timing drive are not known. Bring in an engines file.`,
    );
  const noDrain = units.filter((unit) => unit.oil !== null && unit.oil.kmSinceChange === null).length;
  if (noDrain > 0)
    messages.push(
      `${noDrain} of ${units.length} units have no oil change on record: their due dates are not known.`,
    );
  const inferred = units.filter((unit) => unit.duty.inferred.includes('idleShare')).length;
  if (inferred > 0)
    messages.push(
      `Idle share is inferred for ${inferred} of ${units.length} units from comparable units; their ranges are wider.`,
    );
  messages.push(...fit.messages);
  return messages;
}
