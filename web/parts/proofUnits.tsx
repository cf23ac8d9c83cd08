import { useState } from 'preact/hooks';
import type { HindcastOriginResult, HindcastPrediction } from '../../models/schema/hindcastEndpoints.ts';
import { oneIn } from '../format/chance.ts';
import { date } from '../format/dates.ts';
import { RecordDetail } from './recordDetail.tsx';
import type { RecordPlace } from './recordDetail.tsx';

interface Line extends HindcastPrediction {
  readonly origin: string;
  /** 1 = highest chance of its window */
  readonly place: number;
  readonly of: number;
}

function lines(origins: readonly HindcastOriginResult[]): Line[] {
  return origins.flatMap(({ origin, predictions }) =>
    [...predictions]
      .sort((a, b) => b.probability - a.probability)
      .map((prediction, index) => ({ ...prediction, origin, place: index + 1, of: predictions.length })),
  );
}

function happened({ outcome, failed, outcomeOn }: Line): string {
  if (outcome === 'failed' && failed < 1)
    return `renewed on ${date(outcomeOn)}, a failure by about ${Math.round(10 * failed)} in 10`;
  if (outcome === 'failed') return `failed on ${date(outcomeOn)}`;
  if (outcome === 'renewed') return `renewed as planned on ${date(outcomeOn)}`;
  if (outcome === 'disposed') return `sold or retired on ${date(outcomeOn)}`;
  return `ran on up to ${date(outcomeOn)}`;
}

function Table({ rows, caption }: { rows: readonly Line[]; caption: string }) {
  const [record, setRecord] = useState<RecordPlace | null>(null);
  return (
    <>
      <Rows rows={rows} caption={caption} open={setRecord} />
      {record !== null && <RecordDetail link={record} onClose={() => setRecord(null)} />}
    </>
  );
}

interface RowsProps {
  readonly rows: readonly Line[];
  readonly caption: string;
  readonly open: (record: RecordPlace) => void;
}

function Rows({ rows, caption, open }: RowsProps) {
  return (
    <div class="table-frame" tabIndex={0} role="region" aria-label={caption}>
      <table class="stacking">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">Unit</th>
            <th scope="col">Asked on</th>
            <th scope="col">Chance said, 80 % range</th>
            <th scope="col">Place in the order</th>
            <th scope="col">What happened</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={`${row.origin} ${row.unitNumber}`}>
              <td>
                <a href={`/units/${encodeURIComponent(row.unitNumber)}`}>{row.unitNumber}</a>{' '}
                <span class="muted">{row.engineFamily}</span>
              </td>
              <td data-name="asked on">{date(row.origin)}</td>
              <td data-name="chance said">
                {oneIn(row.low).replace('about ', '')} to {oneIn(row.high).replace('about ', '')};{' '}
                {oneIn(row.probability)}
              </td>
              <td data-name="place">
                {row.place} of {row.of}
                {row.probability < row.baseRate && ', below the mean of the fleet'}
              </td>
              <td data-name="what happened">
                {happened(row)}{' '}
                {row.record !== null && (
                  <button
                    type="button"
                    class="link"
                    aria-label={`its record: ${row.unitNumber}, ${date(row.outcomeOn)}`}
                    onClick={() => row.record !== null && open(row.record)}
                  >
                    its record
                  </button>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

const highChance = 0.2;
const mostRows = 60;

/** The failures with what had been said of them, the misses first, and the alarms that nothing followed. */
export function ProofUnits({ origins }: { origins: readonly HindcastOriginResult[] }) {
  const all = lines(origins);
  const failed = all
    .filter(({ failed: share }) => share >= 0.5)
    .sort((a, b) => b.place / b.of - a.place / a.of);
  const missed = failed.filter((row) => row.probability < row.baseRate);
  const alarms = all
    .filter(({ probability, outcome }) => probability >= highChance && outcome === 'ran')
    .sort((a, b) => b.probability - a.probability);
  return (
    <section>
      <h2>Failures and what had been said of them</h2>
      {failed.length === 0 ? (
        <p>No unit failed within these windows.</p>
      ) : (
        <>
          <p>
            {missed.length === 0
              ? 'Every unit that failed had been given more than the chance that the fleet had on average.'
              : `${missed.length} of ${failed.length} failures were missed: the unit had been given less than the chance that the fleet had on average. They stand first.`}
          </p>
          <Table rows={failed.slice(0, mostRows)} caption="Failures, the least expected first" />
        </>
      )}
      {alarms.length > 0 && (
        <details>
          <summary>
            {alarms.length} times a unit was given 2 in 10 or more and ran on through the window
          </summary>
          <Table rows={alarms.slice(0, mostRows)} caption="High chances that nothing followed" />
        </details>
      )}
    </section>
  );
}
