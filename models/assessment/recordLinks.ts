import type { Sourced, UnitHistory } from '../schema/history.ts';
import type { RecordLink } from '../schema/story.ts';
import { findingWords } from './findingWords.ts';

const joined = (parts: readonly (string | null | false)[]): string =>
  parts.filter((part): part is string => typeof part === 'string' && part !== '').join(', ');

const amount = (value: number | null, unit: string): string | null =>
  value === null ? null : `${Number(value.toPrecision(6))} ${unit}`;

/** Every dated record of a unit in one line each, oldest first. */
export function recordLinks(history: UnitHistory): RecordLink[] {
  const links: RecordLink[] = [];
  const add = <T>(
    records: readonly Sourced<T>[],
    on: (record: T) => string,
    text: (record: T) => string,
  ): void => {
    for (const record of records) {
      const { kind, id, file, line } = record.source;
      links.push({ kind, id, file, line, on: on(record), text: text(record) });
    }
  };
  add(
    history.services,
    (r) => r.servicedOn,
    (r) =>
      joined([
        r.work,
        r.oilGrade,
        amount(r.oilL, 'L'),
        r.outcome === 'failed' ? 'failed' : r.outcome === 'planned' ? 'planned' : null,
        amount(r.odometerKm, 'km'),
        r.note,
      ]),
  );
  add(
    history.readings,
    (r) => r.readOn,
    (r) =>
      joined([
        'meter reading',
        amount(r.odometerKm, 'km'),
        amount(r.engineHoursH, 'h'),
        r.idleHoursH !== null && `idle ${amount(r.idleHoursH, 'h')}`,
      ]),
  );
  add(
    history.fuel,
    (r) => r.filledOn,
    (r) => joined(['fuel', amount(r.fuelL, 'L'), amount(r.odometerKm, 'km')]),
  );
  add(
    history.samples,
    (r) => r.sampledOn,
    (r) =>
      joined([
        'oil sample',
        r.baseNumberMgKohG !== null && `base number ${r.baseNumberMgKohG}`,
        r.fuelPercent !== null && `fuel ${r.fuelPercent} %`,
        r.sootPercent !== null && `soot ${r.sootPercent} %`,
        r.ironPpm !== null && `iron ${r.ironPpm} ppm`,
        r.glycol === true && 'glycol',
      ]),
  );
  add(
    history.findings,
    (r) => r.foundOn,
    (r) => joined([findingWords(r.finding, r.value), r.bank !== null && `bank ${r.bank}`, r.note]),
  );
  add(
    history.codes,
    (r) => r.seenOn,
    (r) => joined([`code ${r.code}`, r.status]),
  );
  return links.sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : a.id - b.id));
}
