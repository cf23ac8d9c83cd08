import { calls, type Assessment, type UnitAssessment } from '../schema/assessment.ts';
import type { Move } from '../schema/endpoints.ts';
import type { FleetHistory } from '../schema/history.ts';
import { recordLinks } from './recordLinks.ts';

/** Kinds of records that move a call by what they say, not by time and distance alone. */
const moving: ReadonlySet<string> = new Set(['service', 'samples', 'findings', 'codes']);
const shownRecords = 3;

/**
 * Units whose call or governing limit differs between two days, most urgent now first, each with the records dated
 * after the earlier day.
 * @param fleet as known on the later day
 * @param since ISO date of the earlier assessment
 */
export function fleetMoves(before: Assessment, now: Assessment, fleet: FleetHistory, since: string): Move[] {
  const earlier = new Map(before.units.map((unit) => [unit.unitNumber, unit]));
  const histories = new Map(fleet.units.map((history) => [history.unit.unitNumber, history]));
  const limitOf = (unit: UnitAssessment | undefined): string | null => unit?.dueReason ?? null;
  const moves: Move[] = [];
  for (const unit of now.units) {
    const old = earlier.get(unit.unitNumber);
    if (old !== undefined && old.call === unit.call && limitOf(old) === limitOf(unit)) continue;
    const history = histories.get(unit.unitNumber);
    moves.push({
      unitNumber: unit.unitNumber,
      from: old?.call ?? null,
      to: unit.call,
      fromLimit: limitOf(old),
      toLimit: limitOf(unit),
      because:
        history === undefined
          ? []
          : recordLinks(history)
              .filter((link) => link.on > since && moving.has(link.kind))
              .slice(-shownRecords),
    });
  }
  const present = new Set(now.units.map((unit) => unit.unitNumber));
  for (const unit of before.units)
    if (!present.has(unit.unitNumber))
      moves.push({
        unitNumber: unit.unitNumber,
        from: unit.call,
        to: null,
        fromLimit: limitOf(unit),
        toLimit: null,
        because: [],
      });
  const rank = (move: Move): number => (move.to === null ? calls.length : calls.indexOf(move.to));
  return moves.sort((a, b) => rank(a) - rank(b) || (a.unitNumber < b.unitNumber ? -1 : 1));
}
