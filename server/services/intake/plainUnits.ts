import type { UnitSpan } from '../../../models/intake/checkRecord.ts';
import { meterTable, visitKinds } from '../../../models/intake/meterTable.ts';
import { isPlainSequence } from '../../../models/intake/plainSequence.ts';
import { dayFromIso } from '../../../models/schema/day.ts';
import type { WorkRead } from '../../../models/schema/history.ts';
import { workKinds } from '../../../models/schema/service.ts';
import type { Store } from '../../store/openStore.ts';
import { meterRowReader } from '../../store/unitMeters.ts';
import { sequenceKinds, type SequenceKind } from '../../store/unitRows.ts';

const replaced = -1;

const visitKindOf: Readonly<Partial<Record<SequenceKind, number>>> = visitKinds;

/** The jobs of a text as bits; `replaced` when a meter was replaced, which the full checks have to follow. */
function bitsOf({ works }: WorkRead): number {
  if (works.includes('meter_replaced')) return replaced;
  let bits = 0;
  for (const work of works)
    if (work !== 'other' && work !== 'inspection') bits |= 1 << workKinds.indexOf(work);
  return bits;
}

/** Keeps what was worked out for a text; forgets all when there are too many. */
function remembered(work: (text: string) => number, most: number): (text: string) => number {
  const known = new Map<string, number>();
  return (text) => {
    const before = known.get(text);
    if (before !== undefined) return before;
    if (known.size >= most) known.clear();
    const made = work(text);
    known.set(text, made);
    return made;
  };
}

/**
 * Makes the quick look at one unit: whether its records so plainly agree that none of them has to be held.
 * Memory is bounded by the records of one unit.
 */
export function plainUnits(
  store: Store,
  readWork: (text: string) => WorkRead,
): (unitNumber: string, span: UnitSpan) => boolean {
  const rowsOf = meterRowReader(store);
  const dayOf = remembered(dayFromIso, 50_000);
  const bits = new WeakMap<WorkRead, number>();
  // The reader keeps what it read, one object for all texts that read alike.
  const worksOf = (text: string): number => {
    const read = readWork(text);
    let found = bits.get(read);
    if (found === undefined) bits.set(read, (found = bitsOf(read)));
    return found;
  };
  let table = meterTable(4096);
  return (unitNumber, span) => {
    const found = sequenceKinds.map((kind) => rowsOf(kind, unitNumber));
    const count = found.reduce((sum, rows) => sum + rows.length, 0);
    if (count > table.day.length) table = meterTable(2 * count);
    table.count = count;
    let at = 0;
    for (let k = 0; k < sequenceKinds.length; k += 1) {
      const kind = sequenceKinds[k];
      const visitKind = visitKindOf[kind] ?? visitKinds.none;
      for (const [fileId, on, odometerKm, engineHoursH, idleHoursH, fuelL, work] of found[k]) {
        const works = work === null ? 0 : worksOf(work);
        if (works === replaced) return false;
        table.day[at] = dayOf(on);
        table.visitKind[at] = visitKind;
        table.source[at] = fileId;
        table.odometerKm[at] = odometerKm ?? Number.NaN;
        table.engineHoursH[at] = engineHoursH ?? Number.NaN;
        table.idleHoursH[at] = idleHoursH ?? Number.NaN;
        table.fuelL[at] = kind === 'readings' ? (fuelL ?? Number.NaN) : Number.NaN;
        table.fillL[at] = kind === 'fuel' ? (fuelL ?? Number.NaN) : Number.NaN;
        table.works[at] = works;
        at += 1;
      }
    }
    return isPlainSequence(span, table);
  };
}
