import { useEffect, useMemo } from 'preact/hooks';
import { ChartCanvas } from '../charts/chart.tsx';
import { dueByWeekChart, dueTable } from '../charts/dueByWeek.ts';
import { date, fromNow, moment } from '../format/dates.ts';
import { modelWords } from '../format/modelWords.ts';
import { attentionSentence } from '../parts/attentionSentence.tsx';
import { byUrgency } from '../parts/attentionList.tsx';
import { InWork } from '../parts/banner.tsx';
import { CallMark } from '../parts/callMark.tsx';
import { useFleetState, useSettings } from '../parts/fleetState.tsx';
import { Loading, Notice } from '../parts/notice.tsx';
import { useRead } from '../parts/useRead.ts';

const everyMs = 5 * 60_000;
const rows = 10;

/** When the oil is due, in words. */
function dueWords(asOf: string, dueOn: string | null): string {
  return dueOn === null ? 'due date not known' : `oil due ${fromNow(asOf, dueOn)}`;
}

/** The shop-wall view: the sentence, the chart, the ten most urgent units; readable from two metres, reads itself anew. */
export function Monitor() {
  const state = useFleetState();
  const { firstDayOfWeek } = useSettings();
  const fleet = useRead<'fleetList'>('/api/fleet-list', {}, state.data?.revision);
  useEffect(() => {
    document.title = 'Shop monitor · Sumpwise';
    const timer = window.setInterval(() => {
      state.again();
      fleet.again();
    }, everyMs);
    return () => window.clearInterval(timer);
  }, [state.again, fleet.again]);
  const table = useMemo(
    () => (fleet.data === null ? null : dueTable(fleet.data.units, fleet.data.asOf, firstDayOfWeek)),
    [fleet.data, firstDayOfWeek],
  );
  const configure = useMemo(() => {
    if (table === null || fleet.data === null) return null;
    const room = fleet.data.capacities.reduce((sum, capacity) => sum + capacity.visitsPerWeek, 0);
    return dueByWeekChart(table, fleet.data.capacities.length === 0 ? null : room, null);
  }, [table]);
  const readAt = useMemo(() => moment(new Date().toISOString()), [fleet.data]);
  if (fleet.data === null || configure === null)
    return (
      <main class="wall" id="page">
        <h1>Attention</h1>
        {fleet.error === null ? (
          <Loading what="the fleet" />
        ) : (
          <Notice kind="fault" words={fleet.error.message} />
        )}
      </main>
    );
  if (fleet.data.units.length === 0)
    return (
      <main class="wall" id="page">
        <h1>Attention</h1>
        <p>
          There are no units yet. <a href="/intake">To Intake</a>
        </p>
      </main>
    );
  const { asOf, newestRecordOn } = fleet.data;
  const urgent = [...fleet.data.units]
    .filter((unit) => unit.call !== 'clear')
    .sort(byUrgency)
    .slice(0, rows);
  return (
    <main class="wall" id="page">
      {fleet.error !== null && (
        <Notice kind="fault" words={`${fleet.error.message} What stands here was read ${readAt}.`} />
      )}
      <InWork />
      <h1 class="unseen">Attention</h1>
      {attentionSentence(fleet.data.units, fleet.data, firstDayOfWeek)}
      <ChartCanvas
        configure={configure}
        height={230}
        summary="Units due by week and reason, against the room for visits"
      />
      <table>
        <tbody>
          {urgent.map((unit) => (
            <tr key={unit.unitNumber}>
              <td class="whole">
                <strong>{unit.unitNumber}</strong>
              </td>
              <td>
                <CallMark call={unit.call} />
              </td>
              <td class="whole">
                {!unit.reason.startsWith('oil ') && dueWords(asOf, unit.oil?.dueOn ?? null)}
              </td>
              <td>{modelWords(unit.reason)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="age">
        As of {date(asOf)}; newest record {date(newestRecordOn)}. <a href="/">Back to Attention</a>
      </p>
    </main>
  );
}
