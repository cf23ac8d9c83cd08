import { useCallback } from 'preact/hooks';
import { horizonWords } from '../../models/decisions/chanceWords.ts';
import { calls } from '../../models/schema/assessment.ts';
import type { UnitLine } from '../../models/schema/fleetList.ts';
import { chanceRange, oneIn } from '../format/chance.ts';
import { modelWords } from '../format/modelWords.ts';
import { CallMark } from './callMark.tsx';
import { DueWindow } from './dueWindow.tsx';
import { LineTable } from './lineTable.tsx';

/** Most urgent first: by call, then by due date, then by chance of failure. */
export function byUrgency(a: UnitLine, b: UnitLine): number {
  const byCall = calls.indexOf(a.call) - calls.indexOf(b.call);
  if (byCall !== 0) return byCall;
  const dueA = a.oil?.dueOn ?? '9999';
  const dueB = b.oil?.dueOn ?? '9999';
  if (dueA !== dueB) return dueA < dueB ? -1 : 1;
  return (b.failure?.probability ?? 0) - (a.failure?.probability ?? 0);
}

interface AttentionListProps {
  /** most urgent first */
  readonly units: readonly UnitLine[];
  readonly asOf: string;
  readonly horizonDays: number;
}

/** The units behind the chart: call, reason, due window, chance as a frequency, next step. */
export function AttentionList({ units, asOf, horizonDays }: AttentionListProps) {
  const chanceTitle = `Timing failure ${horizonWords(horizonDays)}`;
  const cells = useCallback(
    (unit: UnitLine) => <AttentionCells unit={unit} asOf={asOf} chanceTitle={chanceTitle} />,
    [asOf, chanceTitle],
  );
  if (units.length === 0) return <p>No unit matches. Choose “Show all” to see every unit.</p>;
  return (
    <>
      <p class="muted">
        The bars under “Oil due” run from two weeks back to 13 weeks ahead: a block from the earliest to the
        latest likely day, a tick at the most likely one, an upright line for today. Ranges hold in 4 of 5
        cases.
      </p>
      <LineTable
        label="Units"
        kind="attention-list"
        lines={units}
        keyOf={(unit) => unit.unitNumber}
        columns={6}
        head={
          <tr>
            <th scope="col">Unit</th>
            <th scope="col">Call</th>
            <th scope="col">Reason</th>
            <th scope="col">Oil due</th>
            <th scope="col">{chanceTitle}</th>
            <th scope="col">Next</th>
          </tr>
        }
        cells={cells}
      />
    </>
  );
}

interface CellsProps {
  readonly unit: UnitLine;
  readonly asOf: string;
  readonly chanceTitle: string;
}

function AttentionCells({ unit, asOf, chanceTitle }: CellsProps) {
  const page = `/units/${encodeURIComponent(unit.unitNumber)}`;
  return (
    <>
      <td class="unit">
        <div class="clip">
          <a class="unit-number" href={page}>
            {unit.unitNumber}
          </a>
          <br />
          <span class="muted">{[unit.site, unit.dutyName].filter((word) => word !== null).join(', ')}</span>
        </div>
      </td>
      <td class="call-cell">
        <CallMark call={unit.call} />
      </td>
      <td class="reason">
        <div class="clip">
          {modelWords(unit.reason)}
          {unit.furtherReasons > 0 && (
            <>
              {'; '}
              <a
                class="further"
                href={page}
                aria-label={`${unit.furtherReasons} more reasons for ${unit.unitNumber}`}
              >
                {unit.furtherReasons} more
              </a>
            </>
          )}
        </div>
      </td>
      <td class="due">
        <DueWindow
          asOf={asOf}
          earliest={unit.oil?.dueOnEarliest ?? null}
          due={unit.oil?.dueOn ?? null}
          latest={unit.oil?.dueOnLatest ?? null}
        />
      </td>
      <td data-name={chanceTitle}>
        <div class="clip">
          {unit.failure === null ? (
            <span class="muted">{unit.notKnown.failure ?? 'not known'}</span>
          ) : (
            <>
              {oneIn(unit.failure.probability)};{' '}
              <span class="whole">{chanceRange(unit.failure.low, unit.failure.high)}</span>
            </>
          )}
        </div>
      </td>
      <td>
        <div class="clip">
          <a href={page}>{modelWords(unit.nextStep)}</a>
        </div>
      </td>
    </>
  );
}
