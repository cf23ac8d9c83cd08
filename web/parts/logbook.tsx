import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { ChargeStory, RecordLink, UnitStory } from '../../models/schema/story.ts';
import { lifeAxis, lifeMarks, placeMarks } from '../charts/lifeLanes.ts';
import { date } from '../format/dates.ts';
import { modelWords } from '../format/modelWords.ts';
import { ChargeDetail } from './chargeDetail.tsx';
import { ChargeBlock, lanes, Mark, MeterLane } from './lifeLanes.tsx';
import { RecordDetail } from './recordDetail.tsx';
import { useWidth } from './useWidth.ts';

const laneNames = [
  ['oil', 'Oil'],
  ['meter', 'Odometer'],
  ['marks', 'Findings, codes, samples'],
  ['years', ''],
] as const;

/**
 * One time axis: oil charges as blocks filled to the share of their interval that was used, the odometer, and marks for
 * what was found; renewals cut all lanes. Any mark opens what stands behind it.
 */
export function Logbook({ story, asOf }: { story: UnitStory; asOf: string }) {
  const [charge, setCharge] = useState<ChargeStory | null>(null);
  const [record, setRecord] = useState<RecordLink | null>(null);
  const { charges, evidence, renewals, meters, records } = story;
  const marks = useMemo(() => lifeMarks(evidence), [evidence]);
  return (
    <section aria-labelledby="logbook-title">
      <h2 id="logbook-title">Logbook</h2>
      {charges.length === 0 ? (
        <p>No oil charge is known yet. Bring in service history or meter readings for this unit.</p>
      ) : (
        <>
          <Lanes
            story={story}
            asOf={asOf === '' ? charges[charges.length - 1].to : asOf}
            chosen={charge}
            choose={(entry) => setCharge(charge === entry ? null : entry)}
            open={setRecord}
            marks={marks}
          />
          <p class="muted">
            Blocks are oil charges with their distance, filled as far as their interval was used, with the
            limit that governed below; solid is past it; hatched in a dotted frame: drains may be missing from
            the records. Triangles are codes, diamonds findings, squares samples, bars services; upright lines
            are renewals. Choose a block or a mark to open it.
          </p>
          <p class="paper-only">
            A long life does not fit the sheet: its newest years stand here, all of it on the screen and in
            the service history.
          </p>
          <div aria-live="polite">
            {charge !== null && <ChargeDetail charge={charge} records={records} open={setRecord} />}
          </div>
        </>
      )}
      {record !== null && <RecordDetail link={record} onClose={() => setRecord(null)} />}
      {(renewals.length > 0 || marks.length > 0) && (
        <details>
          <summary>Findings, codes, samples and renewals in words</summary>
          <ul>
            {[...renewals.map(({ words, ...rest }) => ({ ...rest, words: [words] })), ...marks]
              .sort((a, b) => (a.on < b.on ? 1 : -1))
              .map(({ on, words, link }) => (
                <li key={`${on}${words.join()}`}>
                  {date(on)}: {modelWords(words.join('; '))}{' '}
                  {link !== null && (
                    <button type="button" class="link" onClick={() => setRecord(link)}>
                      {link.file} line {link.line}
                    </button>
                  )}
                </li>
              ))}
          </ul>
        </details>
      )}
      {meters.length > 0 && evidence.some((entry) => entry.link === null) && (
        <p class="muted">
          Also counted:{' '}
          {evidence
            .filter((entry) => entry.link === null)
            .map((entry) => modelWords(entry.words))
            .join('; ')}
          .
        </p>
      )}
    </section>
  );
}

interface LanesProps {
  readonly story: UnitStory;
  readonly asOf: string;
  readonly chosen: ChargeStory | null;
  readonly choose: (charge: ChargeStory) => void;
  readonly open: (link: RecordLink) => void;
  readonly marks: ReturnType<typeof lifeMarks>;
}

function Lanes({ story, asOf, chosen, choose, open, marks }: LanesProps) {
  const [frame, width] = useWidth<HTMLDivElement>(640);
  const scrolled = useRef(false);
  const { charges, renewals, meters } = story;
  const axis = useMemo(() => lifeAxis(charges[0].from, asOf, width), [charges, asOf, width]);
  const placed = useMemo(() => placeMarks(marks, axis.place, 15, 3), [marks, axis]);
  useEffect(() => {
    // the newest is what people come for
    if (scrolled.current || frame.current === null || axis.width <= width) return;
    frame.current.scrollLeft = axis.width;
    scrolled.current = true;
  }, [axis, width]);
  const marksTop = lanes.oil + lanes.meter;
  const yearsTop = marksTop + lanes.marks;
  const height = yearsTop + lanes.years;
  return (
    <div class="logbook">
      <div class="lane-names" aria-hidden="true">
        {laneNames.map(([lane, words]) => (
          <div key={lane} style={{ height: `${lanes[lane]}px` }}>
            {words}
          </div>
        ))}
      </div>
      <div class="lane-frame" ref={frame} tabIndex={0} role="region" aria-label="Time axis">
        <svg
          width={axis.width}
          height={height}
          viewBox={`0 0 ${axis.width} ${height}`}
          role="group"
          aria-label="Oil charges, odometer, findings and renewals over time"
        >
          <defs>
            <pattern id="doubt" width="6" height="6" patternUnits="userSpaceOnUse">
              <path d="M-1 7L7 -1M-1 1L1 -1M5 7L7 5" class="doubt-line" />
            </pattern>
          </defs>
          {axis.years.map((year) => {
            const x = axis.place(`${year}-01-01`);
            return (
              <g key={year}>
                <line x1={x} x2={x} y1="0" y2={yearsTop + 4} class="grid" />
                {x < axis.width - 34 && (
                  <text x={x + 3} y={yearsTop + 15}>
                    {year}
                  </text>
                )}
              </g>
            );
          })}
          {charges.map((entry) => (
            <ChargeBlock
              key={entry.from}
              charge={entry}
              axis={axis}
              chosen={chosen === entry}
              choose={() => choose(entry)}
            />
          ))}
          <MeterLane meters={meters} axis={axis} top={lanes.oil} />
          {renewals.map((entry) => (
            <line
              key={`${entry.on}${entry.words}`}
              x1={axis.place(entry.on)}
              x2={axis.place(entry.on)}
              y1="0"
              y2={yearsTop}
              class="renewal"
            >
              <title>{`${date(entry.on)}: ${entry.words}`}</title>
            </line>
          ))}
          {placed.map((mark) => (
            <Mark
              key={`${mark.kind}${mark.link?.id ?? mark.on}`}
              mark={mark}
              top={marksTop}
              right={axis.width}
              open={open}
            />
          ))}
        </svg>
      </div>
    </div>
  );
}
