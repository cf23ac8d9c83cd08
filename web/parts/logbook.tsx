import { useState } from 'preact/hooks';
import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import type { ChargeStory, RecordLink, UnitStory } from '../../models/schema/story.ts';
import { date } from '../format/dates.ts';
import { distance, hours, percent, rounded } from '../format/measures.ts';
import { limitName } from '../format/words.ts';
import { useSettings } from './fleetState.tsx';
import { RecordDetail } from './recordDetail.tsx';

const width = 1000;
const laneHeight = 54;

/**
 * One time axis: oil charges as blocks filled to the share of their interval that was used (past it in solid),
 * findings and codes as marks, renewals as cuts. Any mark opens what stands behind it.
 */
export function Logbook({ story, asOf }: { story: UnitStory; asOf: string }) {
  const [charge, setCharge] = useState<ChargeStory | null>(null);
  const [record, setRecord] = useState<RecordLink | null>(null);
  const { charges, evidence, renewals } = story;
  if (charges.length === 0)
    return (
      <section>
        <h2>Logbook</h2>
        <p>No oil charge is known yet. Bring in service history or meter readings for this unit.</p>
      </section>
    );
  const first = dayFromIso(charges[0].from);
  const last = Math.max(dayFromIso(asOf === '' ? charges[charges.length - 1].to : asOf), first + 30);
  const place = (iso: string): number => ((dayFromIso(iso) - first) / (last - first)) * width;
  const years: number[] = [];
  for (
    let year = Number(isoFromDay(first).slice(0, 4)) + 1;
    year <= Number(isoFromDay(last).slice(0, 4));
    year += 1
  )
    years.push(year);
  return (
    <section aria-labelledby="logbook-title">
      <h2 id="logbook-title">Logbook</h2>
      <div class="logbook" tabIndex={0} role="region" aria-label="Time axis">
        <svg
          viewBox={`0 0 ${width} ${laneHeight * 2 + 24}`}
          role="group"
          aria-label="Oil charges, findings and renewals over time"
        >
          {years.map((year) => (
            <g key={year}>
              <line
                x1={place(`${year}-01-01`)}
                x2={place(`${year}-01-01`)}
                y1="0"
                y2={laneHeight * 2 + 6}
                class="grid"
              />
              <text x={place(`${year}-01-01`) + 3} y={laneHeight * 2 + 20}>
                {year}
              </text>
            </g>
          ))}
          {charges.map((entry) => {
            const x = place(entry.from);
            const span = Math.max(2, place(entry.to) - x - 1);
            const used = entry.usedShare ?? 0;
            const height = 40;
            const filled = Math.min(1, used) * height;
            return (
              <g
                key={entry.from}
                role="button"
                tabindex={0}
                class={charge === entry ? 'charge chosen' : 'charge'}
                aria-label={`Oil from ${date(entry.from)}: ${entry.usedShare === null ? 'share not known' : `${percent(entry.usedShare)} of its interval used`}`}
                onClick={() => setCharge(charge === entry ? null : entry)}
                onKeyDown={(event) => {
                  if (event.key === 'Enter' || event.key === ' ') {
                    event.preventDefault();
                    setCharge(charge === entry ? null : entry);
                  }
                }}
              >
                <rect
                  x={x}
                  y="6"
                  width={span}
                  height={height}
                  class={entry.startKnown ? 'frame' : 'frame unsure'}
                />
                <rect
                  x={x}
                  y={6 + height - filled}
                  width={span}
                  height={filled}
                  class={used > 1 ? 'past' : 'fill'}
                />
              </g>
            );
          })}
          {renewals.map((entry) => (
            <g key={`${entry.on}${entry.words}`}>
              <line x1={place(entry.on)} x2={place(entry.on)} y1="0" y2={laneHeight * 2} class="renewal" />
              <title>{`${date(entry.on)}: ${entry.words}`}</title>
            </g>
          ))}
          {evidence.map((entry, index) => (
            <g key={`${entry.on}${index}`} class="evidence">
              <title>{`${date(entry.on)}: ${entry.words}`}</title>
              <path d={`M${place(entry.on)} ${laneHeight + 14}l6 10h-12z`} />
            </g>
          ))}
        </svg>
      </div>
      <p class="muted">
        Blocks are oil charges, filled to the share of the interval that was used; solid ink is past it; a
        dotted frame has no recorded drain. Triangles are findings, samples and codes; upright lines are
        renewals. Choose a block to open it.
      </p>
      {charge !== null && <ChargeDetail charge={charge} />}
      {(renewals.length > 0 || evidence.length > 0) && (
        <details>
          <summary>Findings, codes and renewals in words</summary>
          <ul>
            {[...renewals, ...evidence]
              .sort((a, b) => (a.on < b.on ? 1 : -1))
              .map((entry, index) => (
                <li key={index}>
                  {date(entry.on)}: {entry.words}{' '}
                  {entry.link !== null && (
                    <button type="button" class="link" onClick={() => setRecord(entry.link)}>
                      {entry.link.file} line {entry.link.line}
                    </button>
                  )}
                </li>
              ))}
          </ul>
        </details>
      )}
      {record !== null && <RecordDetail link={record} onClose={() => setRecord(null)} />}
    </section>
  );
}

function ChargeDetail({ charge }: { charge: ChargeStory }) {
  const { measures } = useSettings();
  const { state } = charge;
  return (
    <dl class="facts">
      <dt>Oil charge</dt>
      <dd>
        {date(charge.from)} to {charge.running ? 'now' : date(charge.to)},{' '}
        {charge.grade ?? 'grade not recorded'}
      </dd>
      <dt>Run</dt>
      <dd>
        {distance(charge.distanceKm, measures)}, {hours(charge.engineHours)}, of which idle{' '}
        {hours(charge.idleHours)}
      </dd>
      <dt>Interval</dt>
      <dd>
        {distance(charge.intervalKm, measures, true)}, governed by {limitName(charge.governingLimit)};{' '}
        {percent(charge.usedShare)} used
      </dd>
      {state !== null && (
        <>
          <dt>At its end</dt>
          <dd>
            base number {rounded(state.baseNumber)} mg KOH/g, oxidation {rounded(state.oxidation)} A/cm, fuel{' '}
            {rounded(state.fuelPercent)} %, soot {rounded(state.sootPercent)} %, viscosity{' '}
            {rounded(state.kv100, 3)} mm²/s, dispersancy {percent(Math.min(9.99, state.dispersancyUsed))} used
          </dd>
        </>
      )}
      {charge.notes.length > 0 && (
        <>
          <dt>Notes</dt>
          <dd>{charge.notes.join('; ')}</dd>
        </>
      )}
    </dl>
  );
}
