import { useMemo } from 'preact/hooks';
import { calls } from '../../models/schema/assessment.ts';
import type { FleetList, UnitLine } from '../../models/schema/fleetList.ts';
import { callWords } from '../format/words.ts';

/** What the list is narrowed to; kept in the address. */
export interface AttentionFilter {
  readonly site: string;
  readonly duty: string;
  readonly call: string;
  readonly reason: string;
  readonly search: string;
  /** column of the due chart, or null */
  readonly week: number | null;
}

/** The filter that an address holds. */
export function filterFrom(query: Record<string, string>): AttentionFilter {
  const week = Number(query.week);
  return {
    site: query.site ?? '',
    duty: query.duty ?? '',
    call: query.call ?? '',
    reason: query.reason ?? '',
    search: query.search ?? '',
    week: query.week === undefined || !Number.isInteger(week) ? null : week,
  };
}

const searchTexts = new WeakMap<UnitLine, string>();

/** What a search looks through, made once for each unit. */
function searchText(unit: UnitLine): string {
  let text = searchTexts.get(unit);
  if (text === undefined) {
    text = `${unit.unitNumber} ${unit.engineFamily ?? ''} ${unit.dutyName ?? ''}`.toLowerCase();
    searchTexts.set(unit, text);
  }
  return text;
}

/** Whether a unit passes site, duty, call and search. */
export function matches(unit: UnitLine, filter: AttentionFilter): boolean {
  if (filter.site !== '' && unit.site !== filter.site) return false;
  if (filter.duty !== '' && unit.dutyName !== filter.duty) return false;
  if (filter.call !== '' && unit.call !== filter.call) return false;
  if (filter.search !== '') {
    if (!searchText(unit).includes(filter.search.toLowerCase())) return false;
  }
  return true;
}

interface FiltersProps {
  readonly fleet: FleetList;
  readonly filter: AttentionFilter;
  /** null: the list has no reasons to choose from */
  readonly reasons: readonly string[] | null;
  readonly choose: (change: Partial<AttentionFilter>) => void;
}

const distinct = (values: readonly (string | null)[]): string[] =>
  [...new Set(values.filter((value): value is string => value !== null))].sort();

/** Site, duty, call, reason, and a search. */
export function AttentionFilters({ fleet, filter, reasons, choose }: FiltersProps) {
  const field = (
    name: 'site' | 'duty' | 'call' | 'reason',
    title: string,
    options: readonly (readonly [string, string])[],
  ) => (
    <label>
      {title}
      <select
        value={filter[name]}
        onChange={(event) => choose({ [name]: event.currentTarget.value })}
        name={name}
      >
        <option value="">all</option>
        {options.map(([value, words]) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
  const sites = useMemo(() => distinct(fleet.units.map((unit) => unit.site)), [fleet]);
  const duties = useMemo(() => distinct(fleet.units.map((unit) => unit.dutyName)), [fleet]);
  const same = (values: readonly string[]) => values.map((value) => [value, value] as const);
  const filtered =
    filter.week !== null || Object.entries(filter).some(([, value]) => value !== '' && value !== null);
  return (
    <form class="filters" onSubmit={(event) => event.preventDefault()} aria-label="Filter">
      {field('site', 'Site', same(sites))}
      {field('duty', 'Duty', same(duties))}
      {field(
        'call',
        'Call',
        calls.map((call) => [call, callWords[call]] as const),
      )}
      {reasons !== null && field('reason', 'Reason', same(reasons))}
      <label>
        Unit
        <input
          type="search"
          value={filter.search}
          onInput={(event) => choose({ search: event.currentTarget.value })}
          placeholder="number or family"
        />
      </label>
      {filtered && (
        <button
          type="button"
          onClick={() => choose({ site: '', duty: '', call: '', reason: '', search: '', week: null })}
        >
          Show all
        </button>
      )}
    </form>
  );
}
