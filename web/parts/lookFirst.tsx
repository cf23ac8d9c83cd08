import type { UnitLooks } from '../../models/schema/looksEndpoint.ts';
import type { UnitStory } from '../../models/schema/story.ts';
import { oneIn } from '../format/chance.ts';
import { hours } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { roundMoney } from '../format/money.ts';
import { ColumnHeads } from './columnHeads.tsx';
import { useFleetState } from './fleetState.tsx';
import { LookPhotos } from './lookPhotos.tsx';
import { Loading } from './notice.tsx';
import { ReadFault } from './readFault.tsx';
import { useRead } from './useRead.ts';
import { WearReasons } from './wearReasons.tsx';
import '../styles/desk.css';

const actionWords = { run: 'run on', clean: 'clean the oil side', renew: 'renew the timing parts' } as const;

/** What is worth looking at before anything is replaced, why the wear is so, and the findings with their photos. */
export function LookFirst({ story }: { story: UnitStory }) {
  const state = useFleetState();
  const { unitNumber } = story.assessment;
  const { data, error, again } = useRead<'looks'>(
    `/api/units/${encodeURIComponent(unitNumber)}/looks`,
    {},
    state.data?.revision,
  );
  return (
    <>
      <section aria-labelledby="looks-title">
        <h2 id="looks-title">Look before replacing</h2>
        {data === null && error === null && <Loading what="what is worth a look" />}
        {error !== null && <ReadFault error={error} again={again} />}
        {data !== null && <Looks looks={data} />}
        <p class="alone no-print">
          <a href={`/desk?unit=${encodeURIComponent(unitNumber)}`}>Symptom desk for unit {unitNumber}</a>
        </p>
      </section>
      {data !== null && <WearReasons story={story} looks={data} />}
      <LookPhotos story={story} />
    </>
  );
}

function Looks({ looks }: { looks: UnitLooks }) {
  if (looks.reason !== null || looks.actionNow === null)
    return <p>No look can be judged: {looks.reason ?? 'there is too little to go by'}.</p>;
  const { states, actionNow, months } = looks;
  const money = (cents: number): string => roundMoney(cents, looks.currency);
  const worth = looks.looks.filter(({ netCents }) => netCents > 0);
  const none = looks.looks.every(({ worthCents }) => worthCents === 0);
  return (
    <>
      <p class="sentence">
        {worth.length > 0
          ? `At the next oil change: ${worth[0].words}. Expected saving ${money(worth[0].netCents)} after its own cost.`
          : none
            ? `No look changes the action: ${actionWords[actionNow]} whatever is seen.`
            : 'No look is worth its own cost now.'}
      </p>
      {states !== null && (
        <p>
          Behind such signs: restricted by sludge, {oneIn(states.restricted)}; worn, {oneIn(states.worn)};
          neither, {oneIn(states.neither)}. Without a look the cheapest over {months} months is to{' '}
          {actionWords[actionNow]}.
        </p>
      )}
      {looks.covered.map((words) => (
        <p key={words}>{words}: costs below are the payer's.</p>
      ))}
      <div class="table-frame" tabIndex={0} role="region" aria-label="Looks">
        <table class="stacking">
          <ColumnHeads
            titles={['Look', 'Costs', 'Saves after that', 'What each result leads to']}
            numbers={['Costs', 'Saves after that']}
          />
          <tbody>
            {looks.looks.map((look) => (
              <tr key={look.look}>
                <td>{modelWords(look.words)}</td>
                <td class="number" data-name="costs">
                  {money(look.lookCents)}, {hours(look.lookHours, true)}
                </td>
                <td class="number" data-name="saves after that">
                  {look.worthCents === 0 ? 'nothing' : money(look.netCents)}
                </td>
                <td data-name="leads to">
                  {look.worthCents === 0
                    ? `no result changes the action: ${actionWords[actionNow]}`
                    : look.findings
                        .map(
                          ({ finding, chance, action }) =>
                            `${finding} (${oneIn(chance)}): ${actionWords[action]}`,
                        )
                        .join('; ')}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {looks.assumptions.length > 0 && (
        <p class="muted">Not on record, so assumed: {modelWords(looks.assumptions.join('; '))}.</p>
      )}
    </>
  );
}
