import { useLocation } from 'preact-iso';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { horizonWords } from '../../models/decisions/chanceWords.ts';
import type { HindcastResult } from '../../models/schema/hindcastEndpoints.ts';
import { calibrationPlot } from '../charts/calibration.ts';
import { ChartCanvas } from '../charts/chart.tsx';
import { saidAndHappened } from '../charts/saidAndHappened.ts';
import { date } from '../format/dates.ts';
import { percent } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { counted } from '../format/words.ts';
import { useFleetState } from '../parts/fleetState.tsx';
import { Loading, Notice } from '../parts/notice.tsx';
import { ProofScores } from '../parts/proofScores.tsx';
import { ProofUnits } from '../parts/proofUnits.tsx';
import { ProofVersions } from '../parts/proofVersions.tsx';
import { PageTerms } from '../parts/term.tsx';
import { useRead } from '../parts/useRead.ts';
import '../styles/proof.css';

const askAgainMs = 1500;

/** The fleet's own past as a test of the chances: what was said at days in the past, beside what followed. */
export function ProofPage() {
  const state = useFleetState();
  const location = useLocation();
  const { origins = '', horizonDays = '' } = location.query;
  const { data, error, again } = useRead<'hindcast'>(
    '/api/hindcast',
    { origins, horizonDays },
    state.data?.revision,
  );
  const versions = useRead<'fitVersions'>('/api/fit-versions', {}, data?.state);
  useEffect(() => {
    document.title = 'Proof · Sumpwise';
  }, []);
  useEffect(() => {
    if (data?.state !== 'working') return undefined;
    const timer = setInterval(again, askAgainMs);
    return () => clearInterval(timer);
  }, [data?.state, again]);
  return (
    <main id="page">
      <h1>Proof</h1>
      <p>
        The records are taken as they were known on days in the past. The chances of a timing failure are
        worked out as on that day, and what followed is set beside them, with three simple rules that knew the
        same.
      </p>
      {data !== null && data.state !== 'refused' && (
        <OriginForm key={data.origins.join()} origins={data.origins} horizonDays={data.horizonDays} />
      )}
      {error !== null ? (
        <Notice kind="fault" words={error.message} action="Try again" onAction={again} />
      ) : data === null ? (
        <Loading what="the past" />
      ) : data.state === 'working' ? (
        <p class="loading" role="status">
          Working through the past: {data.done} of {counted(data.total, 'day')} done …
        </p>
      ) : data.state === 'failed' ? (
        <Notice
          kind="fault"
          words={data.reason ?? 'The past could not be worked through.'}
          action="Try again"
          onAction={again}
        />
      ) : data.result === null ? (
        <NothingYet reason={data.reason} chosen={origins !== ''} />
      ) : (
        <Result result={data.result} />
      )}
      <h2>What the model learned, and when</h2>
      <ProofVersions versions={versions.data?.versions ?? []} />
    </main>
  );
}

function NothingYet({ reason, chosen }: { reason: string | null; chosen: boolean }) {
  return (
    <>
      <Notice kind="hint" words={`Nothing can be proved yet: ${reason ?? 'there are too few records'}.`} />
      <p>
        {chosen ? (
          <a href="/proof">Show the usual days</a>
        ) : (
          'Needed are records from at least three months before a day in the past and the time that is predicted after it, a year as a rule: readings or services with odometer, and renewals of timing parts or engines.'
        )}
      </p>
    </>
  );
}

function OriginForm({ origins, horizonDays }: { origins: readonly string[]; horizonDays: number }) {
  const location = useLocation();
  const [days, setDays] = useState(origins.join(', '));
  const [horizon, setHorizon] = useState(String(horizonDays));
  const go = (event: Event): void => {
    event.preventDefault();
    const list = days.split(/[\s,]+/).filter((day) => day !== '');
    location.route(
      `/proof?${new URLSearchParams({ origins: list.join(','), horizonDays: horizon }).toString()}`,
    );
  };
  return (
    <form class="proof-origins" onSubmit={go}>
      <label>
        Days to predict from
        <input
          value={days}
          size={Math.max(24, days.length)}
          placeholder="2025-03-31, 2025-09-30"
          onInput={(event) => setDays(event.currentTarget.value)}
        />
      </label>
      <label>
        Days ahead
        <input
          type="number"
          min="7"
          max="1825"
          value={horizon}
          onInput={(event) => setHorizon(event.currentTarget.value)}
        />
      </label>
      <button type="submit">Work it out</button>
    </form>
  );
}

function Result({ result }: { result: HindcastResult }) {
  const { sumpwise } = result.overall;
  const counts = useMemo(() => saidAndHappened(result.origins), [result]);
  const fifths = useMemo(() => calibrationPlot(sumpwise.quintiles ?? []), [sumpwise]);
  const { observedOverExpectedLow: low, observedOverExpectedHigh: high } = sumpwise;
  const level =
    low === null || high === null
      ? 'nothing can be said of the level'
      : low > 1
        ? 'more failed than was said'
        : high < 1
          ? 'fewer failed than was said'
          : 'the difference may be chance';
  const span = horizonWords(result.horizonDays);
  return (
    <>
      <p class="sentence">
        {sumpwise.expected.toFixed(1)} failures said, <strong>{sumpwise.events.toFixed(1)} happened</strong>{' '}
        {span}, from {counted(result.origins.length, 'day')} in the past: {level}.
      </p>
      <div class="proof-charts">
        <section>
          <h2>Said against happened</h2>
          <ChartCanvas
            configure={counts}
            height={320}
            summary={result.origins
              .map(
                (one) =>
                  `From ${one.origin}: ${one.sumpwise.expected.toFixed(1)} said, 80 % range ${one.sumpwise.countLow ?? 'not judged'} to ${one.sumpwise.countHigh ?? 'not judged'}, ${one.sumpwise.events.toFixed(1)} happened`,
              )
              .join('. ')}
          />
          <p class="muted">
            {sumpwise.countCoverage === null
              ? 'No window is over yet: the ranges are not judged.'
              : `${percent(sumpwise.countCoverage)} of the whole windows lay in the 80 % range said.`}
          </p>
        </section>
        <section>
          <h2>Chances against shares</h2>
          {sumpwise.quintiles === null ? (
            <p>Fewer than 5 failures: how good single chances are cannot be judged yet.</p>
          ) : (
            <>
              <ChartCanvas
                configure={fifths}
                height={320}
                summary={sumpwise.quintiles
                  .map(
                    (part) =>
                      `${part.units} units given ${percent(part.chanceLow)} to ${percent(part.chanceHigh)}: ${part.observed.toFixed(1)} failed, ${part.expected.toFixed(1)} said`,
                  )
                  .join('. ')}
              />
              <p class="muted">
                Units in fifths by chance. A box spans the chances said and the 80 % limits of the share that
                failed; on the line they agree.
                {sumpwise.calibrationSlope !== null &&
                  ` Slope ${sumpwise.calibrationSlope.toFixed(2)} ± ${(sumpwise.calibrationSlopeSe ?? 0).toFixed(2)}: 1 is right, below 1 too extreme.`}
              </p>
            </>
          )}
        </section>
      </div>
      <h2>Beside simple rules, all days together</h2>
      <ProofScores scores={result.overall} />
      <ul class="cautions">
        {[...sumpwise.notes, ...result.messages, ...result.comparisons.map(readable)].map((words) => (
          <li key={words}>{modelWords(words)}</li>
        ))}
      </ul>
      {result.origins.map((one) => (
        <details key={one.origin}>
          <summary>
            From {date(one.origin)}: {counted(one.sumpwise.units, 'unit')}, {one.sumpwise.expected.toFixed(1)}{' '}
            said, {one.expectedIfNotRenewed.toFixed(1)} without planned renewals,{' '}
            {one.sumpwise.events.toFixed(1)} happened
          </summary>
          <ProofScores scores={one} />
          {one.sumpwise.notes.map((words) => (
            <p key={words} class="muted">
              {modelWords(words)}
            </p>
          ))}
        </details>
      ))}
      <ProofUnits origins={result.origins} />
      <PageTerms ids={['hindcast', 'calibration', 'censored', 'chance', 'range']} />
      <p>
        Model version {result.modelVersion}. <a href="/method#model-failure">What the models assume</a>
      </p>
    </>
  );
}

/** The names of the forecasters as people read them. */
function readable(words: string): string {
  return words
    .replace(/^sumpwise/, 'Sumpwise')
    .replaceAll('baseRate', 'the same chance for all')
    .replaceAll('odometerOnly', 'distance since renewal only')
    .replaceAll('pastBookInterval', 'past the book interval or not');
}
