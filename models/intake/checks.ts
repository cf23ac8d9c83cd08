import { dayFromIso } from '../schema/day.ts';
import {
  contentOf,
  dayNumber,
  type CheckRecord,
  type HeldRecord,
  type Repeat,
  type UnitSpan,
} from './checkRecord.ts';
import { checkMeter } from './checkMeter.ts';
import type { MeterName } from './meterStands.ts';
import { reason } from './reasons.ts';
import { repeatsOf } from './sameVisit.ts';

/** What becomes of a unit's new records. */
export interface SequenceChecked {
  /** keys of new records to take */
  readonly accept: readonly string[];
  /** new records that wait for a decision */
  readonly hold: readonly HeldRecord[];
  /** new records that repeat another word for word */
  readonly repeats: readonly Repeat[];
  /** records taken before that the new ones outvote */
  readonly suspects: readonly HeldRecord[];
}

const meters: readonly MeterName[] = ['odometerKm', 'engineHoursH', 'idleHoursH', 'fuelL'];

/**
 * Checks a unit's records over time: meters that run back, jump or hold a slip of the pen, dates outside the unit's
 * service, visits told twice. Of contradicting values the fewest are held. What comes out does not depend on the order
 * in which records are given.
 * @param span the unit's service, from its own record
 * @param existing records taken before
 * @param fresh records of one intake, each read and checked by itself
 */
export function checkSequence(
  span: UnitSpan,
  existing: readonly CheckRecord[],
  fresh: readonly CheckRecord[],
): SequenceChecked {
  // Equal contents are interchangeable; any other order is settled by content.
  const ordered = [...fresh].sort(
    (a, b) =>
      compareText(contentOf(a), contentOf(b)) || compareText(a.source, b.source) || compareText(a.key, b.key),
  );
  const { exact, sameVisit } = repeatsOf(existing, ordered);
  const repeated = new Set(exact.map(({ key }) => key));
  const held = new Map<string, HeldRecord>();
  const hold = (entry: HeldRecord) => {
    const earlier = held.get(entry.key);
    held.set(
      entry.key,
      earlier === undefined
        ? entry
        : { ...earlier, reasons: [...earlier.reasons, ...entry.reasons], mend: earlier.mend ?? entry.mend },
    );
  };
  for (const entry of ordered) {
    const day = dayNumber(entry);
    if (repeated.has(entry.key) || day === null || entry.kind === 'units') continue;
    if (span.inServiceOn !== null && day < dayFromIso(span.inServiceOn))
      hold({
        key: entry.key,
        reasons: [
          reason(
            'date_before_service',
            null,
            `the record is of a day before the unit went into service on ${span.inServiceOn}`,
          ),
        ],
        mend: null,
      });
    if (span.disposedOn !== null && day > dayFromIso(span.disposedOn))
      hold({
        key: entry.key,
        reasons: [
          reason(
            'date_after_disposal',
            null,
            `the record is of a day after the unit was disposed of on ${span.disposedOn}`,
          ),
        ],
        mend: null,
      });
  }
  for (const { key, of } of sameVisit)
    hold({
      key,
      reasons: [reason('same_visit', null, `another source tells of the same visit (${of})`)],
      mend: null,
    });
  const usable = ordered.filter(({ key }) => !repeated.has(key) && !held.has(key));
  const suspects: HeldRecord[] = [];
  const freshKeys = new Set(ordered.map(({ key }) => key));
  for (const meter of meters)
    for (const finding of checkMeter(meter, span, existing, usable))
      if (freshKeys.has(finding.key)) hold(finding);
      else suspects.push(finding);
  return {
    accept: ordered.filter(({ key }) => !repeated.has(key) && !held.has(key)).map(({ key }) => key),
    hold: [...held.values()],
    repeats: exact,
    suspects,
  };
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
