import type { ChargeStory, RecordLink } from '../../models/schema/story.ts';
import { date } from '../format/dates.ts';
import { distance, hours, percent, rounded } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { limitName } from '../format/words.ts';
import { useSettings } from './fleetState.tsx';

interface ChargeDetailProps {
  readonly charge: ChargeStory;
  /** the unit's records; those of the charge are listed */
  readonly records: readonly RecordLink[];
  readonly open: (link: RecordLink) => void;
}

/** One oil charge: how it was run, what its interval was, how the oil ended, and the records that say so. */
export function ChargeDetail({ charge, records, open }: ChargeDetailProps) {
  const { measures } = useSettings();
  const { state } = charge;
  const behind = records.filter(
    (record) =>
      (record.kind === 'service' || record.kind === 'samples') &&
      record.on >= charge.from &&
      record.on <= charge.to,
  );
  return (
    <dl class="facts">
      <dt>Oil charge</dt>
      <dd>
        {date(charge.from)} to {charge.running ? 'now' : date(charge.to)},{' '}
        {charge.grade ?? 'grade not recorded'}
        {!charge.startKnown && '; its drain is not on record, the start is assumed'}
      </dd>
      <dt>Run</dt>
      <dd>
        {distance(charge.distanceKm, measures)}, {hours(charge.engineHours)}, of which idle{' '}
        {hours(charge.idleHours)}
      </dd>
      <dt>Interval</dt>
      <dd>
        {distance(charge.intervalKm, measures, true)}, governed by {limitName(charge.governingLimit)}
      </dd>
      {state !== null && (
        <>
          <dt>{charge.running ? 'Now, estimated' : 'At its end, estimated'}</dt>
          <dd>
            base number {rounded(state.baseNumber)} mg KOH/g, acid number {rounded(state.acidNumber)} mg
            KOH/g, oxidation {rounded(state.oxidation)} A/cm, fuel {rounded(state.fuelPercent)} %, soot{' '}
            {rounded(state.sootPercent)} %, viscosity {rounded(state.kv100, 3)} mm²/s,{' '}
            {state.dispersancyUsed > 5
              ? 'dispersancy used up many times over'
              : `${percent(state.dispersancyUsed)} of dispersancy used`}
          </dd>
        </>
      )}
      {charge.notes.length > 0 && (
        <>
          <dt>Notes</dt>
          <dd>{modelWords(charge.notes.join('; '))}</dd>
        </>
      )}
      {behind.length > 0 && (
        <>
          <dt>Records</dt>
          <dd>
            {behind.map((record) => (
              <div key={`${record.kind}${record.id}`}>
                {date(record.on)}: {modelWords(record.text)}{' '}
                <button type="button" class="link" onClick={() => open(record)}>
                  {record.file} line {record.line}
                </button>
              </div>
            ))}
          </dd>
        </>
      )}
    </dl>
  );
}
