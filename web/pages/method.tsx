import { useEffect, useState } from 'preact/hooks';
import { plain } from '../format/measures.ts';
import { ColumnHeads } from '../parts/columnHeads.tsx';
import { ModelDescriptions } from '../parts/modelDescriptions.tsx';
import { Loading, Notice } from '../parts/notice.tsx';
import { useRead } from '../parts/useRead.ts';

/** A constant as it stands in the catalog, with grouped thousands. */
const figure = (value: number): string => (Math.abs(value) >= 1000 ? plain(value, 3) : String(value));

/** Every coefficient with unit, source and kind; cautions first. */
export function Method() {
  const { data, error, again } = useRead<'method'>('/api/method');
  const [kind, setKind] = useState('');
  useEffect(() => {
    document.title = 'Method · Sumpwise';
  }, []);
  if (data === null)
    return (
      <main id="page">
        <h1>Method</h1>
        {error === null ? (
          <Loading what="the method" />
        ) : (
          <Notice kind="fault" words={error.message} action="Try again" onAction={again} />
        )}
      </main>
    );
  const kinds = [
    ...new Set(data.groups.flatMap((group) => group.coefficients.map((entry) => entry.kind))),
  ].sort();
  const assumed = data.groups
    .flatMap((group) => group.coefficients)
    .filter((entry) => entry.kind === 'assumption').length;
  const total = data.groups.reduce((sum, group) => sum + group.coefficients.length, 0);
  return (
    <main id="page">
      <h1>Method</h1>
      <p>
        Every constant of the models stands here with its unit, its source and what kind of value it is.{' '}
        {assumed} of {total} are assumptions: starting points that the fleet's own samples, findings and
        failures move. Model version {data.modelVersion}.
      </p>
      <ul class="cautions">
        {data.cautions.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      <h2>How an estimate is made</h2>
      <ol>
        <li>
          Meters, fuel, services and samples are put on one time axis; what is missing is inferred from
          comparable units and marked.
        </li>
        <li>
          Each oil charge runs through the condition model: base number, additive, oxidation, fuel, soot,
          viscosity, dispersancy.
        </li>
        <li>
          The first of these to reach its limit, the book, the hours and the calendar set the interval; the
          use of the unit sets the date.
        </li>
        <li>
          What each charge leaves behind adds up to sludge, chain elongation and phaser wear; samples and
          findings correct them.
        </li>
        <li>Wear and the fleet's own failures give the chance of a timing-drive failure, with its range.</li>
      </ol>
      <ModelDescriptions groups={data.groups} />
      <div class="filters" id="coefficients">
        <label>
          Kind of value
          <select value={kind} onChange={(event) => setKind(event.currentTarget.value)}>
            <option value="">all</option>
            {kinds.map((name) => (
              <option key={name} value={name}>
                {name}
              </option>
            ))}
          </select>
        </label>
      </div>
      {data.groups.map((group) => {
        const entries = group.coefficients.filter((entry) => kind === '' || entry.kind === kind);
        if (entries.length === 0) return null;
        return (
          <section key={group.title}>
            <h2>{group.title}</h2>
            <div class="table-frame" tabIndex={0} role="region" aria-label={group.title}>
              <table class="stacking">
                <ColumnHeads
                  titles={['What', 'Value', 'Unit', 'Range', 'Kind', 'Source']}
                  numbers={['Value']}
                />
                <tbody>
                  {entries.map((entry) => (
                    <tr key={entry.id}>
                      <td>
                        {entry.label}
                        {entry.note !== undefined && <span class="muted"> {entry.note}</span>}
                      </td>
                      <td class="number">{figure(entry.value)}</td>
                      <td>{entry.unit === '1' ? 'pure number' : entry.unit}</td>
                      <td>
                        {entry.low !== undefined && entry.high !== undefined
                          ? `${figure(entry.low)} to ${figure(entry.high)}`
                          : ''}
                      </td>
                      <td>{entry.kind}</td>
                      <td>{entry.source}</td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </div>
          </section>
        );
      })}
      {data.sources.length > 0 && (
        <section>
          <h2>Sources</h2>
          <ul>
            {data.sources.map((source) => (
              <li key={source.id}>
                {source.title} <span class="muted">({source.kind})</span> {source.note ?? ''}
              </li>
            ))}
          </ul>
        </section>
      )}
    </main>
  );
}
