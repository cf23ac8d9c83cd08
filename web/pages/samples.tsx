import { useLocation } from 'preact-iso';
import { useEffect, useMemo } from 'preact/hooks';
import type { FleetSamples } from '../../models/schema/sampleView.ts';
import { ChartCanvas } from '../charts/chart.tsx';
import { samplePlot, type PlottedLimit } from '../charts/samplePlot.ts';
import { date } from '../format/dates.ts';
import { distance, plain } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { counted } from '../format/words.ts';
import { useFleetState, useSettings } from '../parts/fleetState.tsx';
import { Loading, Notice, toIntake } from '../parts/notice.tsx';
import { levelWords } from '../parts/sampleList.tsx';
import { SampleLimits } from '../parts/sampleLimits.tsx';
import { PageTerms } from '../parts/term.tsx';
import { useRead } from '../parts/useRead.ts';

const warningWords: Readonly<Record<string, string>> = {
  fuel_source: 'find the source of fuel',
  water_source: 'find the source of water',
  coolant: 'coolant in the oil',
  acid_crossover: 'acid number above base number',
  wrong_fill: 'another oil may be in',
  dirt: 'dirt gets in',
};

/** Limits to draw: absolute ones of the families shown, and the alarm limits of one family. */
function limitsOf(fleet: FleetSamples, measurand: string, family: string): PlottedLimit[] {
  const absolute =
    fleet.measurands
      .find((entry) => entry.measurand === measurand)
      ?.limits.filter(({ families }) => families === null || (family !== '' && families.includes(family))) ??
    [];
  const alarms =
    fleet.populations
      .find((population) => population.engineFamily === family && !population.breakIn)
      ?.limits.find((limit) => limit.measurand === measurand) ?? null;
  return [
    ...absolute.map(({ level, side, value }) => ({
      level,
      value,
      words: `${level} ${side === 'max' ? 'from' : 'down from'} ${plain(value, 2)}`,
    })),
    ...(alarms === null
      ? []
      : (['caution', 'alert', 'condemn'] as const).map((level) => ({
          level,
          value: alarms[level],
          words: `fleet's ${level} above ${plain(alarms[level], 2)}`,
        }))),
  ];
}

/** What of a sample lies past a limit, ": fuel, soot"; empty where it is not plotted. */
function pastWords(fleet: FleetSamples, { values }: FleetSamples['samples'][number]): string {
  const labels = values
    .filter(({ level }) => level !== 'normal')
    .map(({ measurand }) => fleet.measurands.find((entry) => entry.measurand === measurand)?.label);
  return labels.length === 0 ? '' : `: ${labels.join(', ')}`;
}

/** Samples of the whole fleet: one measurand against its limits, and a table. */
export function SamplesPage() {
  const state = useFleetState();
  const location = useLocation();
  const { measures } = useSettings();
  const { data, error, again } = useRead<'samples'>('/api/samples', {}, state.data?.revision);
  useEffect(() => {
    document.title = 'Samples · Sumpwise';
  }, []);
  const family = location.query.family ?? '';
  const measurand = location.query.measurand ?? 'ironPpm';
  const shown = useMemo(
    () => (data?.samples ?? []).filter((sample) => family === '' || sample.engineFamily === family),
    [data, family],
  );
  const chosen = data?.measurands.find((entry) => entry.measurand === measurand) ?? data?.measurands[0];
  const points = useMemo(
    () =>
      shown.flatMap(({ unitNumber, on, values }) =>
        values
          .filter((value) => value.measurand === chosen?.measurand)
          .map(({ value, level }) => ({ unitNumber, on, value, level })),
      ),
    [shown, chosen],
  );
  const configure = useMemo(
    () =>
      samplePlot(
        points,
        data === null || chosen === undefined ? [] : limitsOf(data, chosen.measurand, family),
        modelWords(chosen?.unit ?? ''),
      ),
    [points, data, chosen, family],
  );
  const go = (change: Record<string, string>): void =>
    location.route(`/samples?${new URLSearchParams({ family, measurand, ...change }).toString()}`, true);
  if (data === null || chosen === undefined)
    return (
      <main id="page">
        <h1>Oil samples</h1>
        {error !== null ? (
          <Notice kind="fault" words={error.message} action="Try again" onAction={again} />
        ) : data === null ? (
          <Loading what="the samples" />
        ) : (
          <Notice kind="hint" words="There are no oil samples yet. Bring them in." to={toIntake} />
        )}
      </main>
    );
  const past = shown.filter(({ level }) => level === 'condemn').length;
  const families = [...new Set(data.samples.map((sample) => sample.engineFamily))].filter(
    (name) => name !== null,
  );
  return (
    <main id="page">
      <h1>Oil samples</h1>
      <p class="sentence">
        {counted(shown.length, 'sample')} of units in service, {past} past a condemning limit.
        {data.leftOff > 0 && ` ${counted(data.leftOff, 'older sample')} not listed.`}
      </p>
      <div class="filters">
        <label>
          Engine family{' '}
          <select value={family} onChange={(event) => go({ family: event.currentTarget.value })}>
            <option value="">all</option>
            {families.map((name) => (
              <option key={name} value={name}>
                {name}
              </option>
            ))}
          </select>
        </label>{' '}
        <label>
          Measured{' '}
          <select value={chosen.measurand} onChange={(event) => go({ measurand: event.currentTarget.value })}>
            {data.measurands.map((entry) => (
              <option key={entry.measurand} value={entry.measurand}>
                {entry.label}
              </option>
            ))}
          </select>
        </label>
      </div>
      <h2>
        {chosen.label}, {modelWords(chosen.unit)}
      </h2>
      {points.length === 0 ? (
        <p class="muted">None of these samples has it on a known distance.</p>
      ) : (
        <ChartCanvas
          configure={configure}
          height={330}
          summary={`${chosen.label} in ${chosen.unit}: ${counted(points.length, 'sample')}, ${points.filter(({ level }) => level !== 'normal').length} past a limit`}
        />
      )}
      {family === '' && (
        <p class="muted">Choose an engine family to see the alarm limits of its own samples.</p>
      )}
      <div class="table-frame" tabIndex={0} role="region" aria-label="Samples">
        <table class="stacking">
          <thead>
            <tr>
              <th scope="col">Unit</th>
              <th scope="col">Sampled</th>
              <th scope="col" class="number">
                On the oil
              </th>
              <th scope="col" class="number">
                {chosen.label}
              </th>
              <th scope="col">Whole sample</th>
              <th scope="col">What to do</th>
            </tr>
          </thead>
          <tbody>
            {shown.slice(0, 400).map((sample) => {
              const value = sample.values.find((entry) => entry.measurand === chosen.measurand);
              return (
                <tr key={sample.recordId}>
                  <td class="whole">
                    <a href={`/units/${encodeURIComponent(sample.unitNumber)}`}>{sample.unitNumber}</a>{' '}
                    <span class="muted">{sample.engineFamily}</span>
                  </td>
                  <td data-name="sampled" class="whole">
                    {date(sample.on)}
                    {sample.running && ', oil now in'}
                  </td>
                  <td class="number" data-name="on the oil">
                    {distance(sample.oilKm, measures)}
                  </td>
                  <td class="number" data-name={chosen.label}>
                    {value === undefined
                      ? 'not known'
                      : `${plain(value.value, 2)}, ${levelWords[value.level]}`}
                  </td>
                  <td data-name="whole sample">
                    {sample.level === 'normal' ? (
                      levelWords.normal
                    ) : (
                      <>
                        <strong>{levelWords[sample.level]}</strong>
                        {pastWords(data, sample)}
                      </>
                    )}
                    {sample.breakIn && ', first drains after work'}
                  </td>
                  <td data-name="what to do">
                    {sample.warnings.length === 0
                      ? 'nothing beyond the change'
                      : sample.warnings.map((code) => warningWords[code] ?? code).join('; ')}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
      {shown.length > 400 && <p class="muted">The newest 400 of {plain(shown.length)} are listed.</p>}
      <SampleLimits fleet={data} family={family} />
      <PageTerms
        ids={['base_number', 'acid_number', 'oxidation', 'soot', 'fuel_dilution', 'viscosity', 'dispersancy']}
      />
    </main>
  );
}
