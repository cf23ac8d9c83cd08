import type { UnitStory } from '../../models/schema/story.ts';
import { date } from '../format/dates.ts';
import { distance, hourMeterAt, hours, odometerAt, plain, rounded } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { limitName } from '../format/words.ts';
import { ColumnHeads } from './columnHeads.tsx';
import { DueWindow } from './dueWindow.tsx';
import { useSettings } from './fleetState.tsx';
import { LimitTerm } from './term.tsx';

/** The oil in the engine: how far it is, what governs, and when each limit is reached. */
export function OilNow({ story, asOf }: { story: UnitStory; asOf: string }) {
  const { measures } = useSettings();
  const { oil, notKnown } = story.assessment;
  if (oil === null)
    return (
      <section>
        <h2>Oil</h2>
        <p>{notKnown.oil ?? 'Not known: there is no record of an oil change.'}</p>
      </section>
    );
  return (
    <section>
      <h2>Oil</h2>
      <DueWindow asOf={asOf} earliest={oil.dueOnEarliest} due={oil.dueOn} latest={oil.dueOnLatest} />
      <dl class="facts">
        <dt>Grade</dt>
        <dd>{oil.grade ?? 'not recorded'}</dd>
        <dt>Since the change</dt>
        <dd>
          {distance(oil.kmSinceChange, measures)}, {hours(oil.hoursSinceChange)}
        </dd>
        {story.makeUp !== null && (
          <>
            <dt>Make-up oil</dt>
            <dd>{modelWords(story.makeUp)}</dd>
          </>
        )}
        <dt>Interval</dt>
        <dd>
          {distance(oil.adjustedIntervalKm, measures, true)} or {hours(oil.adjustedIntervalHours, true)},
          governed by {limitName(oil.governingLimit)}
        </dd>
        <dt>Due</dt>
        <dd>
          {date(oil.dueOn)}, at {odometerAt(oil.dueOdometerKm, measures)}
          {oil.dueEngineHours !== null && ` or ${hourMeterAt(oil.dueEngineHours)}`}; between{' '}
          {date(oil.dueOnEarliest)} and {date(oil.dueOnLatest)} in 4 of 5 cases
        </dd>
      </dl>
      {story.intervalWords.map((words) => (
        <p key={words}>{modelWords(words)}</p>
      ))}
      {story.limits.length > 0 && (
        <div class="table-frame" tabIndex={0} role="region" aria-label="Limits">
          <table>
            <caption>Each limit by itself, since the last change</caption>
            <ColumnHeads titles={['limit', 'reached at', 'margin']} numbers={['reached at', 'margin']} />
            <tbody>
              {story.limits.map((line) => (
                <tr key={line.limit}>
                  <th scope="row" title={modelWords(line.words)}>
                    <LimitTerm limit={line.limit} />
                  </th>
                  <td class="number">
                    {line.atKm !== null
                      ? distance(line.atKm, measures, true)
                      : line.atHours !== null
                        ? hours(line.atHours, true)
                        : line.atDays !== null
                          ? `${plain(line.atDays)} days`
                          : 'not within reach'}
                  </td>
                  <td class="number">
                    {line.limit === oil.governingLimit
                      ? 'governs'
                      : line.marginDays === null
                        ? 'not within reach'
                        : `${rounded(line.marginDays)} days`}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}
