import { useState } from 'preact/hooks';
import { calls, type UnitAssessment } from '../../models/schema/assessment.ts';
import { chanceWithRange, horizonWords } from '../format/chance.ts';
import { CallMark } from './callMark.tsx';
import { DueWindow } from './dueWindow.tsx';

const firstRows = 60;

/** Most urgent first: by call, then by due date, then by chance of failure. */
export function byUrgency(a: UnitAssessment, b: UnitAssessment): number {
  const byCall = calls.indexOf(a.call) - calls.indexOf(b.call);
  if (byCall !== 0) return byCall;
  const dueA = a.oil?.dueOn ?? '9999';
  const dueB = b.oil?.dueOn ?? '9999';
  if (dueA !== dueB) return dueA < dueB ? -1 : 1;
  return (b.failure?.probability ?? 0) - (a.failure?.probability ?? 0);
}

interface AttentionListProps {
  readonly units: readonly UnitAssessment[];
  readonly asOf: string;
  readonly horizonDays: number;
}

/** The units behind the chart: call, reason, due window, chance as a frequency, next step. */
export function AttentionList({ units, asOf, horizonDays }: AttentionListProps) {
  const [all, setAll] = useState(false);
  if (units.length === 0) return <p>No unit matches. Choose “Show all” to see every unit.</p>;
  const ordered = [...units].sort(byUrgency);
  const shown = all ? ordered : ordered.slice(0, firstRows);
  const chanceTitle = `Timing failure ${horizonWords(horizonDays)}`;
  return (
    <>
      <p class="muted">
        The bars under “Oil due” run from two weeks back to 13 weeks ahead: a block from the earliest to the
        latest likely day, a tick at the most likely one, an upright line for today. Ranges hold in 4 of 5
        cases.
      </p>
      <div class="table-frame" tabIndex={0} role="region" aria-label="Units">
        <table class="attention-list stacking">
          <thead>
            <tr>
              <th scope="col">Unit</th>
              <th scope="col">Call</th>
              <th scope="col">Reason</th>
              <th scope="col">Oil due</th>
              <th scope="col">{chanceTitle}</th>
              <th scope="col">Next</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((unit) => (
              <AttentionRow key={unit.unitNumber} unit={unit} asOf={asOf} chanceTitle={chanceTitle} />
            ))}
          </tbody>
        </table>
      </div>
      {!all && ordered.length > shown.length && (
        <p>
          <button type="button" onClick={() => setAll(true)}>
            Show the other {ordered.length - shown.length} units
          </button>
        </p>
      )}
    </>
  );
}

interface RowProps {
  readonly unit: UnitAssessment;
  readonly asOf: string;
  readonly chanceTitle: string;
}

function AttentionRow({ unit, asOf, chanceTitle }: RowProps) {
  const [first, ...further] = unit.reasons;
  return (
    <tr>
      <td>
        <a class="unit-number" href={`/units/${encodeURIComponent(unit.unitNumber)}`}>
          {unit.unitNumber}
        </a>
        <br />
        <span class="muted">{[unit.site, unit.dutyName].filter((word) => word !== null).join(', ')}</span>
      </td>
      <td>
        <CallMark call={unit.call} />
      </td>
      <td>
        {first}
        {further.length > 0 && (
          <details class="further">
            <summary>and {further.length} more</summary>
            <ul>
              {further.map((reason) => (
                <li key={reason}>{reason}</li>
              ))}
            </ul>
          </details>
        )}
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
        {unit.failure === null ? (
          <span class="muted">{unit.notKnown.failure ?? 'not known'}</span>
        ) : (
          chanceWithRange(unit.failure.probability, unit.failure.low, unit.failure.high)
        )}
      </td>
      <td>
        <a href={`/units/${encodeURIComponent(unit.unitNumber)}`}>{unit.nextStep}</a>
      </td>
    </tr>
  );
}
