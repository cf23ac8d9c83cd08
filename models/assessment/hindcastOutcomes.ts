import type { WindowOutcome } from '../reliability/hindcast/hindcastTypes.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso } from '../schema/day.ts';
import type { FleetHistory, UnitHistory } from '../schema/history.ts';
import type { RecordKind } from '../schema/kinds.ts';
import type { Unit } from '../schema/unit.ts';
import type { FaultCodes } from '../wear/faultCode.ts';
import { disposalFailureOf, renewalsOf } from '../wear/renewals.ts';
import { endingParts } from './failureEpisodes.ts';

/** What became of a unit's timing set between an origin and the end of its window. */
export interface UnitOutcome {
  readonly outcome: WindowOutcome;
  /** chance that it was a failure: 1, 0, or between where the records leave it open */
  readonly failureChance: number;
  readonly day: number;
  /** the record that says so; null where none does */
  readonly record: { readonly kind: RecordKind; readonly id: number } | null;
}

/** What happened later, by unit. */
export interface Later {
  readonly historyOf: (unit: Unit) => UnitHistory | undefined;
}

const nameOf = (unitNumber: string): string => unitNumber.trim().toLowerCase();

/** Finds the unit of an earlier day among the records of a later one: same number and in-service day, else the holder of the number then. */
export function laterHistories(later: FleetHistory, originIso: string): Later {
  const byNumber = new Map<string, UnitHistory[]>();
  for (const history of later.units) {
    const key = nameOf(history.unit.unitNumber);
    byNumber.set(key, [...(byNumber.get(key) ?? []), history]);
  }
  return {
    historyOf: (unit) => {
      const holders = byNumber.get(nameOf(unit.unitNumber)) ?? [];
      return (
        holders.find((holder) => holder.unit.inServiceOn === unit.inServiceOn) ??
        holders.findLast((holder) => (holder.unit.inServiceOn ?? '') <= originIso)
      );
    },
  };
}

/**
 * The first thing that ended the life of the running set after the origin: a failure, a planned renewal, a disposal, or nothing up to the end day. A
 * failure is a renewal of timing set, phaser, tensioner and guides, belt or engine that failed (judged as a chance where the outcome is not
 * recorded), or a disposal for an engine or timing failure.
 * @param endDay last day of the window, or the last day with records
 */
export function outcomeOf(
  history: UnitHistory,
  originDay: number,
  endDay: number,
  faultCodes: FaultCodes,
  coefficients: Coefficients,
): UnitOutcome {
  const disposal = disposalFailureOf(history, endDay);
  const candidates: UnitOutcome[] = renewalsOf(history, endDay, faultCodes, coefficients)
    .filter(({ part, day }) => endingParts.includes(part) && day > originDay)
    .map(({ day, failureChance, recordId }) => ({
      outcome: failureChance >= 0.5 ? 'failed' : 'renewed',
      failureChance,
      day,
      record: recordId === null ? null : { kind: 'service', id: recordId },
    }));
  const { disposedOn, status, source } = history.unit;
  const left =
    disposedOn === null ? (status === 'retired' ? lastRecordDay(history) : null) : dayFromIso(disposedOn);
  if (left !== null && left > originDay && left <= endDay)
    candidates.push({
      outcome: disposal === null ? 'disposed' : 'failed',
      failureChance: disposal?.failureChance ?? 0,
      day: left,
      record: { kind: 'units', id: source.id },
    });
  const ran: UnitOutcome = { outcome: 'ran', failureChance: 0, day: endDay, record: null };
  return candidates.reduce(
    (first, one) =>
      one.day < first.day || (one.day === first.day && one.failureChance >= first.failureChance)
        ? one
        : first,
    ran,
  );
}

function lastRecordDay(history: UnitHistory): number | null {
  const days = [
    history.services.at(-1)?.servicedOn,
    history.readings.at(-1)?.readOn,
    history.fuel.at(-1)?.filledOn,
    history.samples.at(-1)?.sampledOn,
    history.findings.at(-1)?.foundOn,
    history.codes.at(-1)?.seenOn,
  ].filter((on) => on !== undefined);
  return days.length === 0 ? null : Math.max(...days.map(dayFromIso));
}
