import { Fragment } from 'preact';
import { useMemo, useState } from 'preact/hooks';
import type { PolicyDocument } from '../../models/schema/policyDocument.ts';
import { ChartCanvas } from '../charts/chart.tsx';
import { policyCurveChart } from '../charts/policyCurve.ts';
import { distance, intervalToSet, kmPerMile, plain } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { money, roundMoney } from '../format/money.ts';
import { distanceUnit } from '../format/typedMeasures.ts';
import { counted, dutyGroup } from '../format/words.ts';
import { useFleetState, useSettings } from './fleetState.tsx';
import { Loading, Notice } from './notice.tsx';
import { PolicyAdoption } from './policyAdoption.tsx';
import { useRead } from './useRead.ts';

/** One duty group: what it costs at each interval, and what to set. */
function DutyPolicy({ document, duty }: { readonly document: PolicyDocument; readonly duty: string }) {
  const { measures } = useSettings();
  const policy = document.duties.find((entry) => entry.duty === duty) ?? document.duties[0];
  const { currency } = document;
  const kmPerUnit = measures === 'us' ? kmPerMile : 1;
  const thousand = `${plain(1000)} ${distanceUnit(measures)}`;
  const configure = useMemo(
    () => policyCurveChart(policy, kmPerUnit, currency),
    [policy, kmPerUnit, currency],
  );
  /** money that stands by 1000 km, by 1000 of the reader's unit */
  const per = (cents: number | null): string =>
    cents === null ? 'not known' : money(Math.round(cents * kmPerUnit), currency);
  const saving = policy.savingCentsPerYear;
  const about = (km: number): string => distance(km, measures, true);
  return (
    <>
      <p>
        <strong>
          {plain(intervalToSet(policy.recommendedIntervalKm, measures))} {distanceUnit(measures)}
        </strong>{' '}
        is to be set for {dutyGroup(policy.duty)} ({counted(policy.units, 'unit')}): the cheapest lies between{' '}
        {about(policy.bestIntervalRangeKm.low)} and {about(policy.bestIntervalRangeKm.high)}, about{' '}
        {about(policy.bestIntervalKm)}; from {about(policy.flatFromKm)} to {about(policy.flatToKm)} it hardly
        matters.{' '}
        {policy.currentIntervalKm === null
          ? 'What is kept today is not on record'
          : `Today ${about(policy.currentIntervalKm)}`}
        ;{' '}
        {policy.bookIntervalKm === null
          ? "the book's interval is not on record."
          : `the book allows ${distance(policy.bookIntervalKm, measures)}.`}
      </p>
      <ChartCanvas
        configure={configure}
        height={280}
        summary={`Cost per ${thousand} of ${dutyGroup(policy.duty)} against the drain interval; today ${per(policy.centsPer1000Km.current)}, cheapest ${per(policy.centsPer1000Km.best)}`}
      />
      <dl class="facts">
        <dt>Per {thousand}</dt>
        <dd>
          today {per(policy.centsPer1000Km.current)}, to be set {per(policy.centsPer1000Km.recommended)},
          cheapest {per(policy.centsPer1000Km.best)}
        </dd>
        <dt>A year, whole group</dt>
        <dd>
          {saving === null
            ? 'not known: the interval kept today is not on record'
            : saving >= 0
              ? `setting it saves about ${roundMoney(saving, currency)}`
              : `keeping to the book costs about ${roundMoney(-saving, currency)} more than today`}
        </dd>
        {policy.categories.map((effect) => (
          <Fragment key={effect.category}>
            <dt>Oil of {effect.category}</dt>
            <dd>
              {effect.savingCentsPer1000Km >= 0 ? 'saves' : 'costs'}{' '}
              {per(Math.abs(effect.savingCentsPer1000Km))} per {thousand}
              {effect.savingCentsPer1000Km < 0 && ' more than the wear it saves'}
            </dd>
          </Fragment>
        ))}
        <dt>Samples</dt>
        <dd>{modelWords(policy.sampling.words)}</dd>
      </dl>
      <ul>
        {[...policy.notes, ...policy.assumptions].map((note) => (
          <li key={note}>{modelWords(note)}</li>
        ))}
      </ul>
      <PolicyAdoption key={`${policy.duty} ${policy.adopted?.id ?? 0}`} policy={policy} />
    </>
  );
}

/** Drain intervals by duty group, read after the budget. */
export function MoneyPolicy() {
  const state = useFleetState();
  const [duty, setDuty] = useState('');
  const { data, error, again } = useRead<'policy'>('/api/policy', {}, state.data?.revision);
  if (data === null)
    return error === null ? (
      <Loading what="the drain intervals" />
    ) : (
      <Notice kind="fault" words={error.message} action="Try again" onAction={again} />
    );
  if (data.duties.length === 0) return <p class="muted">{data.notes.join(' ')}</p>;
  return (
    <>
      <div class="filters">
        <label>
          Duty group{' '}
          <select
            value={duty === '' ? data.duties[0].duty : duty}
            onChange={(event) => setDuty(event.currentTarget.value)}
          >
            {data.duties.map((entry) => (
              <option key={entry.duty} value={entry.duty}>
                {dutyGroup(entry.duty)}
              </option>
            ))}
          </select>
        </label>
      </div>
      <DutyPolicy document={data} duty={duty} />
      {data.notes.map((note) => (
        <p key={note} class="muted">
          {note}
        </p>
      ))}
    </>
  );
}
