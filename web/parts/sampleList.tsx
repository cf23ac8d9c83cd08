import { useMemo } from 'preact/hooks';
import type { MeasuredView, SampleCourse, SampleView } from '../../models/schema/sampleView.ts';
import type { UnitStory } from '../../models/schema/story.ts';
import { ChartCanvas } from '../charts/chart.tsx';
import { sampleTrendChart } from '../charts/sampleTrend.ts';
import { date } from '../format/dates.ts';
import { distance, plain, rounded } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { counted } from '../format/words.ts';
import { ColumnHeads } from './columnHeads.tsx';
import { useSettings } from './fleetState.tsx';
import { IntervalApproval } from './intervalApproval.tsx';

/** A level as people read it. */
export const levelWords = {
  normal: 'normal',
  caution: 'caution',
  alert: 'alert',
  condemn: 'condemn',
} as const;

function Course({ course }: { course: SampleCourse }) {
  const configure = useMemo(() => sampleTrendChart(course), [course]);
  const newest = course.measured[course.measured.length - 1];
  return (
    <section>
      <h3>
        {modelWords(course.label)}
        {course.unit === 'ppm per 1000 km' ? '' : `, ${course.unit}`}
      </h3>
      <ChartCanvas
        configure={configure}
        height={170}
        summary={`${course.label}: ${counted(course.measured.length, 'measured value')}, the newest ${newest === undefined ? 'none' : `${plain(newest.value, 2)} ${course.unit}, ${levelWords[newest.level]}`}`}
      />
      {course.trend !== null && (
        <p>
          {course.trend[0].toUpperCase()}
          {modelWords(course.trend.slice(1))}.
        </p>
      )}
      <p class="muted">Band: {modelWords(course.words)}.</p>
    </section>
  );
}

function FleetLimit({ value: { fleet } }: { value: MeasuredView }) {
  if (fleet === null) return <>none</>;
  return (
    <>
      {levelWords[fleet.level]}: {plain(fleet.value, 2)} {modelWords(fleet.unit)}; caution{' '}
      {plain(fleet.caution, 2)}, alert {plain(fleet.alert, 2)}, condemn {plain(fleet.condemn, 2)} of{' '}
      {counted(fleet.samples, 'sample')} of {fleet.population}
      {fleet.provisional && ' (provisional)'}
    </>
  );
}

function Sample({ sample, open }: { sample: SampleView; open: boolean }) {
  const { measures } = useSettings();
  return (
    <details open={open}>
      <summary>
        <strong>{date(sample.on)}</strong>: {levelWords[sample.level]}
        {sample.warnings.length > 0 && `, ${counted(sample.warnings.length, 'warning')}`};{' '}
        {distance(sample.oilKm, measures)} on the oil{sample.running && ', the oil now in the engine'}
        {sample.breakIn && ', first drains after engine or cover work'}
        {sample.labNumber !== null && <span class="muted"> {sample.labNumber}</span>}
      </summary>
      {sample.warnings.map(({ code, words, stop }) => (
        <p key={code}>
          <strong>{stop ? 'Stop and check. ' : ''}</strong>
          {words}
        </p>
      ))}
      {sample.notes.map((words) => (
        <p key={words}>Left out: {words}.</p>
      ))}
      {sample.values.length > 0 && (
        <div class="table-frame" tabIndex={0} role="region" aria-label={`Sample of ${date(sample.on)}`}>
          <table class="stacking">
            <ColumnHeads
              titles={[
                'measured',
                'value',
                'verdict',
                'by absolute limits',
                'by like samples of the fleet',
                'expected by the model',
              ]}
              numbers={['value']}
            />
            <tbody>
              {sample.values.map((value) => (
                <tr key={value.measurand}>
                  <th scope="row">{value.label}</th>
                  <td class="number" data-name="value">
                    {plain(value.value, 2)} {value.unit}
                  </td>
                  <td data-name="verdict">
                    {value.level === 'normal' ? (
                      levelWords.normal
                    ) : (
                      <strong>{levelWords[value.level]}</strong>
                    )}
                    {value.countedLess && ', far from what was expected: counted less'}
                  </td>
                  <td data-name="by absolute limits" title={value.absolute?.source}>
                    {modelWords(value.absolute?.words ?? 'no limit')}
                  </td>
                  <td data-name="by like samples">
                    <FleetLimit value={value} />
                  </td>
                  <td data-name="expected">
                    {value.expected === null
                      ? 'not modelled'
                      : `${rounded(value.expected.value)}, ${rounded(value.expected.low)} to ${rounded(value.expected.high)}`}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </details>
  );
}

/** Whether the right oil is in, what samples say of it, and whether the interval may go past the book. */
export function Samples({ story }: { story: UnitStory }) {
  const { samples, sampleCourses, rightOil, rightOilEffect } = story;
  return (
    <section aria-labelledby="samples-title">
      <h2 id="samples-title">Oil samples and the right oil</h2>
      {rightOil.length > 0 ? (
        <ul aria-label="The right oil">
          {rightOil.map(({ topic, verdict, words }) => (
            <li key={topic}>
              {verdict === 'wrong' && <strong>Wrong oil: </strong>}
              {modelWords(words)}
            </li>
          ))}
          {rightOilEffect.map((words) => (
            <li key={words}>{modelWords(words)}</li>
          ))}
        </ul>
      ) : (
        <p class="muted">No fill of this unit names its oil; whether it is the right one is not known.</p>
      )}
      {samples.length === 0 ? (
        <p class="muted">There is no oil sample of this unit.</p>
      ) : (
        <>
          {sampleCourses.length > 0 && (
            <p class="muted">
              Squares: normal. Triangles: caution. Diamonds: alert. Crosses: condemn. Dashed lines: limits
              within sight. Bands hold in 4 of 5 cases. Limits by like samples start at 30 of them.{' '}
              <a href="/samples">Samples of the fleet</a>
            </p>
          )}
          <div class="columns">
            {sampleCourses.map((course) => (
              <Course key={course.measurand} course={course} />
            ))}
          </div>
          {samples.map((sample, index) => (
            <Sample key={sample.recordId} sample={sample} open={index === 0} />
          ))}
        </>
      )}
      <IntervalApproval story={story} />
    </section>
  );
}
