import type { HindcastResult, HindcastScore } from '../../models/schema/hindcastEndpoints.ts';
import { percent } from '../format/measures.ts';

const names = [
  ['sumpwise', 'Sumpwise'],
  ['baseRate', 'the same chance for every unit'],
  ['odometerOnly', 'by distance since renewal only'],
  ['pastBookInterval', 'past the book interval or not'],
] as const;

const number = (value: number | null, digits: number): string =>
  value === null ? 'not judged' : value.toFixed(digits);

const ratio = (score: HindcastScore): string =>
  score.observedOverExpected === null
    ? 'not known'
    : `${number(score.observedOverExpectedLow, 2)} to ${number(score.observedOverExpectedHigh, 2)}; ${number(score.observedOverExpected, 2)}`;

const area = (value: number | null, se: number | null): string =>
  value === null ? 'not judged' : se === null ? value.toFixed(2) : `${value.toFixed(2)} ± ${se.toFixed(2)}`;

/** How the chances and three simple rules did on the same units from the same records. */
export function ProofScores({ scores }: { scores: HindcastResult['overall'] }) {
  return (
    <div class="table-frame" tabIndex={0} role="region" aria-label="Scores beside simple rules">
      <table class="stacking">
        <caption>
          Brier and log score: smaller is better. Order: chance that a unit which failed had been given the
          higher chance; ½ is a coin.
        </caption>
        <thead>
          <tr>
            <th scope="col">Chances by</th>
            <th scope="col" class="number">
              Said
            </th>
            <th scope="col" class="number">
              Happened
            </th>
            <th scope="col" class="number">
              Happened over said, 95 %
            </th>
            <th scope="col" class="number">
              Brier score
            </th>
            <th scope="col" class="number">
              Saved against the same chance
            </th>
            <th scope="col" class="number">
              Log score
            </th>
            <th scope="col" class="number">
              Order
            </th>
            <th scope="col" class="number">
              Order within like distance
            </th>
          </tr>
        </thead>
        <tbody>
          {names.map(([key, name]) => {
            const score = scores[key];
            return (
              <tr key={key} class={key === 'sumpwise' ? 'proof-own' : undefined}>
                <th scope="row">{name}</th>
                <td class="number" data-name="said">
                  {score.expected.toFixed(1)}
                </td>
                <td class="number" data-name="happened">
                  {score.events.toFixed(1)}
                </td>
                <td class="number" data-name="happened over said">
                  {ratio(score)}
                </td>
                <td class="number" data-name="Brier score">
                  {number(score.brier, 4)}
                </td>
                <td class="number" data-name="saved">
                  {score.brierSkill === null ? 'not judged' : percent(score.brierSkill)}
                </td>
                <td class="number" data-name="log score">
                  {number(score.logScore, 3)}
                </td>
                <td class="number" data-name="order">
                  {area(score.auc, score.aucSe)}
                </td>
                <td class="number" data-name="order within like distance">
                  {area(score.aucWithinAge, null)}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
