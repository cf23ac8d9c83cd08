import { useRoute } from 'preact-iso';
import { useEffect } from 'preact/hooks';
import type { UnitStory } from '../../models/schema/story.ts';
import { date } from '../format/dates.ts';
import { distance, hours, percent, plain } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { inferredWords } from '../format/words.ts';
import { CallMark } from '../parts/callMark.tsx';
import { FailureReasons } from '../parts/failureReasons.tsx';
import { useFleetState, useSettings } from '../parts/fleetState.tsx';
import { Logbook } from '../parts/logbook.tsx';
import { LookFirst } from '../parts/lookFirst.tsx';
import { LookReasons } from '../parts/lookReasons.tsx';
import { Loading, Notice } from '../parts/notice.tsx';
import { OilNow } from '../parts/oilNow.tsx';
import { RecordList } from '../parts/recordList.tsx';
import { Samples } from '../parts/sampleList.tsx';
import { PageTerms, Term, type TermId } from '../parts/term.tsx';
import { useRead } from '../parts/useRead.ts';
import { WearTrends } from '../parts/wearTrends.tsx';
import { WhatIf } from '../parts/whatIf.tsx';

const terms: readonly TermId[] = [
  'call',
  'drain_interval',
  'sludge',
  'chain_elongation',
  'phaser',
  'screen',
  'correlation',
  'chance',
  'range',
];

/** One unit as a logbook: what to do, the oil now, the time axis, the states, the chance of failure, the records. */
export function UnitPage() {
  const { params } = useRoute();
  const unitNumber = params.unitNumber ?? '';
  const state = useFleetState();
  const { data, error, again } = useRead<'unit'>(
    `/api/units/${encodeURIComponent(unitNumber)}`,
    {},
    state.data?.revision,
  );
  useEffect(() => {
    document.title = `Unit ${unitNumber} · Sumpwise`;
  }, [unitNumber]);
  if (data === null)
    return (
      <main id="page">
        <h1>Unit {unitNumber}</h1>
        {error === null ? (
          <Loading what={`unit ${unitNumber}`} />
        ) : (
          <>
            <Notice kind="fault" words={error.message} action="Try again" onAction={again} />
            <p>
              <a href="/units">To the list of units</a>
            </p>
          </>
        )}
      </main>
    );
  return <UnitStoryPage story={data} asOf={state.data?.asOf ?? ''} />;
}

function UnitStoryPage({ story, asOf }: { story: UnitStory; asOf: string }) {
  const { assessment } = story;
  const { measures } = useSettings();
  const { duty } = assessment;
  return (
    <main id="page">
      <h1>
        Unit {assessment.unitNumber} <CallMark call={assessment.call} />
      </h1>
      <p class="sentence">{modelWords(assessment.nextStep)}.</p>
      <p class="no-print">
        <a href={`/card/new?unit=${encodeURIComponent(assessment.unitNumber)}`}>Job card</a>,{' '}
        <a href={`/units/${encodeURIComponent(assessment.unitNumber)}/history`}>
          service history for a warranty clerk or buyer
        </a>
      </p>
      <LookReasons reasons={assessment.reasons} />
      {story.cautions.length > 0 && (
        <ul class="cautions" aria-label="Cautions">
          {story.cautions.map((words) => (
            <li key={words}>{modelWords(words)}</li>
          ))}
        </ul>
      )}
      <div class="columns">
        <section>
          <h2>Unit and duty</h2>
          <dl class="facts">
            <dt>Site, duty</dt>
            <dd>
              {[assessment.site, assessment.dutyName].filter((word) => word !== null).join(', ') ||
                'not known'}
            </dd>
            <dt>Engine family</dt>
            <dd>{assessment.engineFamily ?? 'not known'}</dd>
            <dt>Odometer</dt>
            <dd>{distance(assessment.odometerKm, measures)}</dd>
            <dt>Use</dt>
            <dd>
              {distance(duty.kmPerDay, measures, true)} and {hours(duty.hoursPerDay, true)} a day
              {duty.inferred.includes('kmPerDay') && ', inferred'}
            </dd>
            <dt>
              <Term id="idle_share">Idle share</Term>
            </dt>
            <dd>
              {percent(duty.idleShare)} of engine hours
              {duty.inferred.includes('idleShare') && ', inferred from comparable units'}
            </dd>
            <dt>
              <Term id="severe_service">Service class</Term>
            </dt>
            <dd>{duty.severe ? modelWords(`severe: ${duty.severeReasons.join('; ')}`) : 'normal'}</dd>
            <dt>Records</dt>
            <dd>
              {percent(assessment.recordQuality)} of the last two years known; newest{' '}
              {date(assessment.lastRecordOn)}
            </dd>
            {duty.inferred.length > 0 && (
              <>
                <dt>Inferred</dt>
                <dd>{inferredWords(duty.inferred)}</dd>
              </>
            )}
          </dl>
        </section>
        <OilNow story={story} asOf={asOf} />
      </div>
      <Logbook story={story} asOf={asOf} />
      <WearTrends story={story} />
      <Samples story={story} />
      <FailureReasons failure={assessment.failure} reason={assessment.notKnown.failure ?? null} />
      <LookFirst story={story} />
      {story.whatWouldChange.length > 0 && (
        <section>
          <h2>What would change this most</h2>
          <ul>
            {story.whatWouldChange.map((words) => (
              <li key={words}>{modelWords(words)}</li>
            ))}
          </ul>
        </section>
      )}
      <WhatIf unitNumber={assessment.unitNumber} />
      <RecordList records={story.records} />
      <p class="muted">{plain(story.records.length)} records stand behind this page.</p>
      <PageTerms ids={terms} />
    </main>
  );
}
