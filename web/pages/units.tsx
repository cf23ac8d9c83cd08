import { useLocation } from 'preact-iso';
import { useCallback, useEffect, useMemo, useState } from 'preact/hooks';
import { csvText } from '../../models/intake/csvText.ts';
import type { FleetList, UnitLine } from '../../models/schema/fleetList.ts';
import { date } from '../format/dates.ts';
import { AttentionFilters, filterFrom, matches, type AttentionFilter } from '../parts/attentionFilters.tsx';
import { useFleetState, useSettings } from '../parts/fleetState.tsx';
import { LineTable } from '../parts/lineTable.tsx';
import { Loading, Notice, toIntake } from '../parts/notice.tsx';
import { ReadFault } from '../parts/readFault.tsx';
import { Rollups } from '../parts/rollups.tsx';
import { SavedViews } from '../parts/savedViews.tsx';
import { saveText } from '../parts/saveText.ts';
import { PageTerms } from '../parts/term.tsx';
import { unitColumns, usualColumns } from '../parts/unitColumns.tsx';
import { useRead } from '../parts/useRead.ts';

/** Every unit in service: sortable, searchable, columns to choose, lines to mark, and what is seen as a file. */
export function Units() {
  const state = useFleetState();
  const fleet = useRead<'fleetList'>('/api/fleet-list', {}, state.data?.revision);
  useEffect(() => {
    document.title = 'Units · Sumpwise';
  }, []);
  return (
    <main id="page">
      <h1>Units</h1>
      {fleet.data === null ? (
        fleet.error === null ? (
          <Loading what="the units" />
        ) : (
          <ReadFault error={fleet.error} again={fleet.again} />
        )
      ) : fleet.data.units.length === 0 ? (
        <Notice kind="hint" words="There are no units yet. Bring your records in." to={toIntake} />
      ) : (
        <UnitsOf fleet={fleet.data} />
      )}
    </main>
  );
}

interface View {
  readonly filter: AttentionFilter;
  readonly order: string;
  readonly columns: readonly string[];
}

function viewFrom(query: Record<string, string>): View {
  const columns = (query.columns ?? '').split(' ').filter((name) => name in unitColumns);
  return {
    filter: filterFrom(query),
    order: query.order in unitColumns ? query.order : 'unit',
    columns: columns.length > 0 ? columns : usualColumns,
  };
}

function addressOf({ filter, order, columns }: View): string {
  const usual = columns.join(' ') === usualColumns.join(' ');
  const words = Object.entries({
    ...filter,
    order: order === 'unit' ? '' : order,
    columns: usual ? '' : columns.join(' '),
  }).filter(([, value]) => value !== '' && value !== null);
  const query = new URLSearchParams(words.map(([name, value]) => [name, String(value)])).toString();
  return query === '' ? '/units' : `/units?${query}`;
}

function UnitsOf({ fleet }: { fleet: FleetList }) {
  const location = useLocation();
  const settings = useSettings();
  const view = useMemo(() => viewFrom(location.query), [location.url]);
  const { filter, order } = view;
  // the same list of columns while the address names the same ones, however often the filter changes
  const columns = useMemo(() => view.columns, [view.columns.join(' ')]);
  const [marked, setMarked] = useState<ReadonlySet<string>>(new Set());
  const go = (change: Partial<View>): void => location.route(addressOf({ ...view, ...change }), true);
  const sorted = useMemo(() => [...fleet.units].sort(unitColumns[order].by), [fleet, order]);
  const listed = useMemo(() => sorted.filter((unit) => matches(unit, filter)), [sorted, filter]);
  const chosen = marked.size === 0 ? [] : listed.filter((unit) => marked.has(unit.unitNumber));
  const mark = (units: readonly UnitLine[], on: boolean): void => {
    const next = new Set(marked);
    for (const { unitNumber } of units) {
      if (on) next.add(unitNumber);
      else next.delete(unitNumber);
    }
    setMarked(next);
  };
  const cells = useCallback(
    (unit: UnitLine) => (
      <>
        <td class="mark-cell">
          <input
            type="checkbox"
            aria-label={`Mark ${unit.unitNumber}`}
            checked={marked.has(unit.unitNumber)}
            onChange={(event) => mark([unit], event.currentTarget.checked)}
          />
        </td>
        {columns.map((name) => (
          <td
            key={name}
            class={unitColumns[name].number === true ? 'number' : undefined}
            data-name={name === 'unit' || name === 'call' ? undefined : unitColumns[name].title}
          >
            <div class="clip">{unitColumns[name].show(unit, settings)}</div>
          </td>
        ))}
      </>
    ),
    [columns, settings, marked],
  );
  const asFile = (units: readonly UnitLine[]): void =>
    saveText(
      `units ${fleet.asOf}.csv`,
      csvText(
        columns.map((name) => unitColumns[name].title),
        units.map((unit) => columns.map((name) => unitColumns[name].text(unit, settings))),
      ),
    );
  return (
    <>
      <AttentionFilters
        fleet={fleet}
        filter={filter}
        choose={(change) => go({ filter: { ...filter, ...change } })}
        reasons={null}
      />
      <p class="muted" role="status">
        {listed.length} of {fleet.units.length} units, as of {date(fleet.asOf)}. Ranges hold in 4 of 5 cases.
      </p>
      <div class="list-tools no-print">
        <Columns columns={columns} choose={(next) => go({ columns: next })} />
        <SavedViews page="/units" address={addressOf(view)} />
        <button type="button" onClick={() => asFile(chosen.length > 0 ? chosen : listed)}>
          {chosen.length > 0 ? `Save the ${chosen.length} marked as CSV` : 'Save this list as CSV'}
        </button>
        <button type="button" onClick={() => window.print()}>
          Print
        </button>
        {chosen.length > 0 && (
          <button type="button" onClick={() => setMarked(new Set())}>
            Unmark all
          </button>
        )}
      </div>
      {listed.length === 0 ? (
        <p>No unit matches. Choose “Show all” to see every unit.</p>
      ) : (
        <LineTable
          label="Units"
          kind="unit-list"
          lines={listed}
          keyOf={(unit) => unit.unitNumber}
          columns={columns.length + 1}
          head={
            <tr>
              <th scope="col" class="mark-cell">
                <input
                  type="checkbox"
                  aria-label="Mark all that are listed"
                  checked={chosen.length === listed.length}
                  onChange={(event) => mark(listed, event.currentTarget.checked)}
                />
              </th>
              {columns.map((name) => (
                <th
                  scope="col"
                  key={name}
                  class={unitColumns[name].number === true ? 'number' : undefined}
                  aria-sort={order === name ? 'ascending' : undefined}
                >
                  <button type="button" onClick={() => go({ order: name })}>
                    {unitColumns[name].title}
                    {order === name ? ' ↓' : ''}
                  </button>
                </th>
              ))}
            </tr>
          }
          cells={cells}
        />
      )}
      <p>
        <a href="/samples">Oil samples of the fleet against their limits</a>;{' '}
        <a href="/wear">wear map: sludge against chain elongation</a>
      </p>
      <Rollups />
      <PageTerms ids={['call', 'idle_share', 'sludge', 'chain_elongation', 'phaser', 'chance', 'range']} />
    </>
  );
}

interface ColumnsProps {
  readonly columns: readonly string[];
  readonly choose: (columns: readonly string[]) => void;
}

/** Which columns are shown; the unit always is. */
function Columns({ columns, choose }: ColumnsProps) {
  return (
    <details class="columns-choice">
      <summary>Columns</summary>
      <fieldset>
        <legend class="unseen">Columns that are shown</legend>
        {Object.entries(unitColumns)
          .filter(([name]) => name !== 'unit')
          .map(([name, { title }]) => (
            <label key={name}>
              <input
                type="checkbox"
                checked={columns.includes(name)}
                onChange={(event) => {
                  const on = event.currentTarget.checked;
                  choose(
                    Object.keys(unitColumns).filter((other) =>
                      other === name ? on : columns.includes(other),
                    ),
                  );
                }}
              />{' '}
              {title}
            </label>
          ))}
      </fieldset>
    </details>
  );
}
