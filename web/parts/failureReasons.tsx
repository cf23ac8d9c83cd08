import { horizonWords } from '../../models/decisions/chanceWords.ts';
import type { UnitAssessment } from '../../models/schema/assessment.ts';
import { chanceWithRange, oneIn } from '../format/chance.ts';
import { percent, rounded } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { useSettings } from './fleetState.tsx';

/** How many times as likely a cause makes a failure, to two digits. */
const factorOf = (logHazard: number): string => rounded(Math.exp(logHazard));

/** The chance of a timing-drive failure: frequency with range, what it rests on, and what drives it. */
export function FailureReasons({
  failure,
  reason,
}: {
  failure: UnitAssessment['failure'];
  reason: string | null;
}) {
  const { horizonDays } = useSettings();
  if (failure === null)
    return (
      <section>
        <h2>Timing drive</h2>
        <p>The chance of a failure is not known: {reason ?? 'there is too little to go by'}.</p>
      </section>
    );
  const moves = failure.contributions.filter(({ logHazard }) => factorOf(logHazard) !== '1');
  const still = failure.contributions.filter(({ logHazard }) => factorOf(logHazard) === '1');
  const largest = Math.max(0.1, ...failure.contributions.map((entry) => Math.abs(entry.logHazard)));
  const { chain, phaser } = failure.components;
  return (
    <section>
      <h2>Chance of a timing-drive failure {horizonWords(horizonDays)}</h2>
      <p class="sentence">{chanceWithRange(failure.probability, failure.low, failure.high)}</p>
      <p>
        {modelWords(failure.basis)}. {percent(failure.ownDataShare)} of it comes from this fleet's own
        outcomes.
        {chain !== null && ` Chain side ${oneIn(chain)}.`}
        {phaser !== null && ` Phaser side ${oneIn(phaser)}.`}
      </p>
      {moves.length > 0 && (
        <div class="table-frame" tabIndex={0} role="region" aria-label="What drives the chance">
          <table>
            <caption>Against the fleet's mean: how many times as likely each cause makes it</caption>
            <tbody>
              {moves.map((entry) => (
                <tr key={entry.cause}>
                  <th scope="row">{entry.cause}</th>
                  <td class="number">× {factorOf(entry.logHazard)}</td>
                  <td class="bar-cell">
                    <svg viewBox="-50 0 100 8" preserveAspectRatio="none" aria-hidden="true">
                      <line x1="0" x2="0" y1="0" y2="8" class="axis" />
                      <rect
                        x={Math.min(0, (entry.logHazard / largest) * 48)}
                        width={(Math.abs(entry.logHazard) / largest) * 48}
                        y="1.5"
                        height="5"
                        class={entry.logHazard > 0 ? 'more' : 'less'}
                      />
                    </svg>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {still.length > 0 && (
        <p class="muted">As in the fleet’s mean: {still.map(({ cause }) => cause).join('; ')}.</p>
      )}
    </section>
  );
}
