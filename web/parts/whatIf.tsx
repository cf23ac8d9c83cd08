import { useMemo, useState } from 'preact/hooks';
import { whatIf, whatIfYears, type WhatIfInputs } from '../../models/assessment/whatIf.ts';
import { distance, hours, percent, rounded } from '../format/measures.ts';
import { limitName } from '../format/words.ts';
import { useFleetState, useSettings } from './fleetState.tsx';
import { Loading, Notice } from './notice.tsx';
import { useRead } from './useRead.ts';

/** Sliders for idle share and interval, and a choice of grade; the same models run here in the browser. */
export function WhatIf({ unitNumber }: { unitNumber: string }) {
  const [wanted, setWanted] = useState(false);
  const state = useFleetState();
  const { data, error } = useRead<'whatIf'>(
    wanted ? `/api/units/${encodeURIComponent(unitNumber)}/inputs` : null,
    {},
    state.data?.revision,
  );
  return (
    <details class="no-print" onToggle={(event) => setWanted(event.currentTarget.open)}>
      <summary>What if: less idling, another interval, another grade</summary>
      {wanted && data === null && error === null && <Loading what="what the models need" />}
      {error !== null && <Notice kind="fault" words={error.message} />}
      {data !== null && <Trial inputs={data as unknown as WhatIfInputs} />}
    </details>
  );
}

function Trial({ inputs }: { inputs: WhatIfInputs }) {
  const { measures } = useSettings();
  const [idleShare, setIdleShare] = useState<number | null>(null);
  const [intervalKm, setIntervalKm] = useState<number | null>(null);
  const [grade, setGrade] = useState<string | null>(null);
  const now = useMemo(() => whatIf(inputs, { idleShare: null, intervalKm: null, grade: null }), [inputs]);
  const tried = useMemo(
    () => whatIf(inputs, { idleShare, intervalKm, grade }),
    [inputs, idleShare, intervalKm, grade],
  );
  const shownIdle = idleShare ?? inputs.duty.idleShare;
  const shownKm = Math.round((intervalKm ?? tried.advisedKm) / 100) * 100;
  const rows: readonly [string, string, string][] = [
    ['Interval advised', distance(now.advisedKm, measures, true), distance(tried.advisedKm, measures, true)],
    ['in engine hours', hours(now.advisedHours, true), hours(tried.advisedHours, true)],
    ['Governed by', limitName(now.governing), limitName(tried.governing)],
    [
      `Sludge in ${whatIfYears} years (0 clean to 10)`,
      rounded(now.later.sludge),
      rounded(tried.later.sludge),
    ],
    [
      `Chain elongation in ${whatIfYears} years`,
      now.later.chainPercent === null ? 'not applicable' : `${rounded(now.later.chainPercent)} %`,
      tried.later.chainPercent === null ? 'not applicable' : `${rounded(tried.later.chainPercent)} %`,
    ],
    [
      `Phaser wear in ${whatIfYears} years (1 = median end)`,
      now.later.phaserShare === null ? 'not applicable' : rounded(now.later.phaserShare),
      tried.later.phaserShare === null ? 'not applicable' : rounded(tried.later.phaserShare),
    ],
  ];
  return (
    <div class="columns">
      <form class="trial" onSubmit={(event) => event.preventDefault()}>
        <label>
          Idle share of engine hours: {percent(shownIdle)}
          <input
            type="range"
            min={0}
            max={0.85}
            step={0.01}
            value={shownIdle}
            onInput={(event) => setIdleShare(event.currentTarget.valueAsNumber)}
          />
        </label>
        <label>
          Interval kept from now on: {distance(shownKm, measures)}
          <input
            type="range"
            min={1000}
            max={30000}
            step={100}
            value={shownKm}
            onInput={(event) => setIntervalKm(event.currentTarget.valueAsNumber)}
          />
        </label>
        <label>
          Grade
          <select
            value={grade ?? ''}
            onChange={(event) =>
              setGrade(event.currentTarget.value === '' ? null : event.currentTarget.value)
            }
          >
            <option value="">as it is{inputs.grade === null ? '' : ` (${inputs.grade})`}</option>
            {inputs.fills.map((entry) => (
              <option key={entry.grade} value={entry.grade}>
                {entry.grade}
              </option>
            ))}
          </select>
        </label>
        <button
          type="button"
          onClick={() => {
            setIdleShare(null);
            setIntervalKm(null);
            setGrade(null);
          }}
        >
          As it is
        </button>
      </form>
      <div class="table-frame" tabIndex={0} role="region" aria-label="What it would do">
        <table>
          <caption>
            A trial only: nothing is kept. The book and the maker's grade still come first; an interval past
            the advice needs lab results, an inspection and a named person's approval.
          </caption>
          <thead>
            <tr>
              <td />
              <th scope="col">as it is</th>
              <th scope="col">tried</th>
            </tr>
          </thead>
          <tbody>
            {rows.map(([title, before, after]) => (
              <tr key={title}>
                <th scope="row">{title}</th>
                <td>{before}</td>
                <td>{before === after ? after : <strong>{after}</strong>}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </div>
  );
}
