import { useMemo, useState } from 'preact/hooks';
import type { RecordLink, StatePoint, UnitStory } from '../../models/schema/story.ts';
import { ChartCanvas } from '../charts/chart.tsx';
import { trendChart } from '../charts/trend.ts';
import { date } from '../format/dates.ts';
import { rounded } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { ColumnHeads } from './columnHeads.tsx';
import { RecordDetail } from './recordDetail.tsx';

type WearState = 'sludge' | 'chain' | 'phaser';

interface Measured {
  readonly on: string;
  readonly value: number;
  readonly words: string;
  readonly link: RecordLink | null;
}

interface TrendProps {
  readonly title: string;
  readonly unit: string;
  /** what the scale means */
  readonly scale: string;
  readonly points: readonly StatePoint[];
  readonly measured: readonly Measured[];
  readonly renewedOn: readonly string[];
  readonly missing: string | null;
  readonly open: (link: RecordLink) => void;
}

function Trend({ title, unit, scale, points, measured, renewedOn, missing, open }: TrendProps) {
  const configure = useMemo(
    () => trendChart({ points, measured, renewedOn, unit }),
    [points, measured, renewedOn, unit],
  );
  const now = points[points.length - 1];
  const amount = (value: number): string => `${rounded(value)}${unit === '' ? '' : ` ${unit}`}`;
  if (now === undefined)
    return (
      <section>
        <h3>{title}</h3>
        <p class="muted">{missing ?? 'not known: there is too little to go by'}</p>
      </section>
    );
  return (
    <section>
      <h3>{title}</h3>
      <p>
        {rounded(now.low)} to {amount(now.high)}, most likely {rounded(now.value)}.{' '}
        <span class="muted">{scale}</span>
      </p>
      <ChartCanvas
        configure={configure}
        height={190}
        summary={`${title}: most likely ${amount(now.value)} now, range ${rounded(now.low)} to ${rounded(now.high)}, ${measured.length} measured points`}
      />
      <details>
        <summary>The same as a table</summary>
        <div class="table-frame" tabIndex={0} role="region" aria-label={`${title} as a table`}>
          <table>
            <ColumnHeads
              titles={['day', 'low', 'most likely', 'high']}
              numbers={['low', 'most likely', 'high']}
            />
            <tbody>
              {[...points].reverse().map((point) => (
                <tr key={point.on}>
                  <td>{date(point.on)}</td>
                  <td class="number">{rounded(point.low)}</td>
                  <td class="number">{rounded(point.value)}</td>
                  <td class="number">{rounded(point.high)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
        {measured.length > 0 && (
          <ul>
            {measured.map((point) => (
              <li key={`${point.on}${point.words}`}>
                {date(point.on)}: {modelWords(point.words)}, read as {amount(point.value)}{' '}
                {point.link !== null && (
                  <button type="button" class="link" onClick={() => point.link !== null && open(point.link)}>
                    {point.link.file} line {point.link.line}
                  </button>
                )}
              </li>
            ))}
          </ul>
        )}
      </details>
    </section>
  );
}

const trends = [
  { state: 'sludge', title: 'Sludge', unit: '', scale: '0 is clean, 10 the worst.' },
  { state: 'chain', title: 'Chain elongation', unit: '%', scale: "The maker's limit comes first." },
  { state: 'phaser', title: 'Phaser wear', unit: '', scale: '1 is the median end of life.' },
] as const satisfies readonly { state: WearState; title: string; unit: string; scale: string }[];

/** Sludge, chain and phaser over time: band with line, measured points on top, renewals as cuts. */
export function WearTrends({ story }: { story: UnitStory }) {
  const [record, setRecord] = useState<RecordLink | null>(null);
  const { notKnown } = story.assessment;
  const measured = useMemo(() => {
    const of = (state: WearState): Measured[] =>
      story.evidence.flatMap(({ on, value, words, link, state: entryState }) =>
        entryState === state && value !== null ? [{ on, value, words, link }] : [],
      );
    return { sludge: of('sludge'), chain: of('chain'), phaser: of('phaser') };
  }, [story]);
  const renewedOn = useMemo(() => story.renewals.map((renewal) => renewal.on), [story]);
  return (
    <section aria-labelledby="wear-title">
      <h2 id="wear-title">Wear inside, with its range</h2>
      <p class="muted">
        The band holds in 4 of 5 cases; the line is the most likely course. Squares are what was measured or
        seen, triangles at the upper edge lie above the scale, upright lines are renewals.
      </p>
      <div class="columns">
        {trends.map(({ state, title, unit, scale }) => (
          <Trend
            key={state}
            title={title}
            unit={unit}
            scale={scale}
            points={story[state]}
            measured={measured[state]}
            renewedOn={renewedOn}
            missing={notKnown[state] ?? null}
            open={setRecord}
          />
        ))}
      </div>
      {record !== null && <RecordDetail link={record} onClose={() => setRecord(null)} />}
    </section>
  );
}
