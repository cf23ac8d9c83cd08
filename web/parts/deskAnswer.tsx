import type { CodeGroup } from '../../models/assessment/symptomCodes.ts';
import type { CheckGain } from '../../models/assessment/symptomGain.ts';
import type { ChanceRange } from '../../models/assessment/symptomRanges.ts';
import type { Differential } from '../../models/wear/symptomDesk.ts';
import type { SymptomCause } from '../../models/wear/symptomTable.ts';
import { oneIn } from '../format/chance.ts';
import { modelWords } from '../format/modelWords.ts';
import { counted } from '../format/words.ts';
import { RangeBar } from './rangeBar.tsx';

/** All that is worked out from the form. */
export interface DeskResult {
  readonly answer: Differential;
  readonly ranges: Readonly<Record<SymptomCause, ChanceRange>>;
  readonly gains: readonly CheckGain[];
  readonly codes: readonly CodeGroup[];
  /** whether any sign was entered */
  readonly begun: boolean;
}

const hundred = (chance: number): number => Math.round(100 * chance);

/** What must be done before anything else; those that stop the engine stand first and heavy. */
export function DeskCautions({ cautions }: { cautions: readonly string[] }) {
  const stops = cautions.filter((words) => words.startsWith('Stop') || words.startsWith('Standing'));
  const others = cautions.filter((words) => !stops.includes(words));
  return (
    <div aria-live="polite">
      {stops.length > 0 && (
        <ul class="cautions desk-stops" aria-label="Stop">
          {stops.map((words) => (
            <li key={words}>
              <strong>{modelWords(words)}</strong>
            </li>
          ))}
        </ul>
      )}
      <ul class="cautions" aria-label="Cautions">
        {others.map((words) => (
          <li key={words}>{modelWords(words)}</li>
        ))}
      </ul>
    </div>
  );
}

function GainWords({ gain }: { gain: CheckGain }) {
  const better = hundred(gain.rightAfter) > hundred(gain.rightNow);
  return (
    <>
      <strong>{gain.label}</strong>, {gain.minutes} min.{' '}
      {better
        ? `The likeliest cause would then be right in ${hundred(gain.rightAfter)} of 100 such cases, now in ${hundred(gain.rightNow)}. `
        : `It rarely changes what is likeliest, but shifts the chances. `}
      <span class="muted">
        Finds something in about {hundred(gain.foundChance)} of 100: then {lower(gain.ifFound.label)} (
        {hundred(gain.ifFound.probability)} of 100); if not, {lower(gain.ifNot.label)} (
        {hundred(gain.ifNot.probability)} of 100).
      </span>
    </>
  );
}

const lower = (words: string): string => `${words[0].toLowerCase()}${words.slice(1)}`;

/** Codes apart by what they speak of, the next check with what it brings, and the causes with ranges. */
export function DeskAnswer({ result }: { result: DeskResult }) {
  const { answer, ranges, gains, codes, begun } = result;
  const [first, ...further] = gains;
  return (
    <section aria-labelledby="desk-answer" class="desk-answer">
      <h2 id="desk-answer">What may be behind it</h2>
      {!begun && <p class="muted">Nothing is entered yet: these are the chances before any sign.</p>}
      {codes.map((group) => (
        <div key={group.title} class="desk-codes">
          <h3>{group.title}</h3>
          <ul>
            {group.codes.map(({ code, words }) => (
              <li key={code}>
                <strong>{code}</strong> {words}
              </li>
            ))}
          </ul>
          <p class="muted">{group.advice}</p>
        </div>
      ))}
      <h3>Next check</h3>
      {first === undefined ? (
        <p>Everything on the list is checked.</p>
      ) : (
        <p class="desk-next">
          <GainWords gain={first} />
        </p>
      )}
      {further.length > 0 && (
        <details>
          <summary>After that: {counted(further.length, 'more check')}</summary>
          <ol>
            {further.map((gain) => (
              <li key={gain.check}>
                <GainWords gain={gain} />
              </li>
            ))}
          </ol>
        </details>
      )}
      <h3>Causes, likeliest first</h3>
      <ul class="desk-causes">
        {answer.causes.map(({ cause, label, probability, because }) => {
          const { low, high } = ranges[cause];
          const words = `${hundred(Math.min(low, probability))} to ${hundred(Math.max(high, probability))} of 100`;
          return (
            <li key={cause}>
              <span class="desk-cause">{label}</span>
              <RangeBar
                low={Math.min(low, probability)}
                value={probability}
                high={Math.max(high, probability)}
                from={0}
                to={1}
                words={`${label}: ${words}, most likely ${hundred(probability)}`}
              />
              <span>
                {words}, {oneIn(probability)}
                {because.length > 0 && (
                  <span class="muted">; speaks for it: {because.map(lower).join('; ')}</span>
                )}
              </span>
            </li>
          );
        })}
      </ul>
      <p class="muted">
        One cause at a time; the chances of the table are judgement, not measured: the bars say how far they
        may be off. Ranges hold in 4 of 5 cases.
      </p>
    </section>
  );
}
