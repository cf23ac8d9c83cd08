import { useState } from 'preact/hooks';
import { distance, percent, rounded } from '../format/measures.ts';
import { ColumnHeads } from './columnHeads.tsx';
import { useFleetState, useSettings } from './fleetState.tsx';
import { Loading, Notice } from './notice.tsx';
import { useRead } from './useRead.ts';

const measured = [
  'units',
  'mean distance a day',
  'mean idle share',
  'past due',
  'mean sludge',
  'expected timing failures',
];
const titles = { site: 'By site', duty: 'By duty', engineFamily: 'By engine family' } as const;

/** Sums by site, duty and engine family, read when they are wanted. */
export function Rollups() {
  const [wanted, setWanted] = useState(false);
  const state = useFleetState();
  const { measures } = useSettings();
  const { data, error } = useRead<'rollups'>(wanted ? '/api/rollups' : null, {}, state.data?.revision);
  return (
    <details onToggle={(event) => setWanted(event.currentTarget.open)}>
      <summary>Sums by site, duty and engine family</summary>
      {wanted && data === null && error === null && <Loading what="the sums" />}
      {error !== null && <Notice kind="fault" words={error.message} />}
      {data?.groups.map((group) => (
        <div class="table-frame" key={group.by} tabIndex={0} role="region" aria-label={titles[group.by]}>
          <table class="stacking">
            <caption>{titles[group.by]}</caption>
            <ColumnHeads titles={['name', ...measured]} numbers={measured} />
            <tbody>
              {group.rows.map((row) => (
                <tr key={row.name}>
                  <th scope="row">{row.name}</th>
                  <td class="number" data-name={measured[0]}>
                    {row.units}
                  </td>
                  <td class="number" data-name={measured[1]}>
                    {distance(row.meanKmPerDay, measures, true)}
                  </td>
                  <td class="number" data-name={measured[2]}>
                    {percent(row.meanIdleShare)}
                  </td>
                  <td class="number" data-name={measured[3]}>
                    {row.pastDue}
                  </td>
                  <td class="number" data-name={measured[4]}>
                    {row.meanSludge === null ? 'not known' : rounded(row.meanSludge)}
                  </td>
                  <td class="number" data-name={measured[5]}>
                    {row.expectedFailures === null ? 'not known' : rounded(row.expectedFailures)}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      ))}
    </details>
  );
}
