import { useState } from 'preact/hooks';
import type { BudgetCheck } from '../../models/schema/budgetCheck.ts';
import { date } from '../format/dates.ts';
import { plain } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { money, roundMoney } from '../format/money.ts';
import { useFleetState } from './fleetState.tsx';
import type { MoneyQuery } from './moneyForm.tsx';
import { Loading, Notice } from './notice.tsx';
import { useRead } from './useRead.ts';

const saidWords = { renew: 'renew', look: 'look first', clean: 'clean', leave: 'leave alone' } as const;

/** The case as it would have been made a year ago, beside what happened since. */
export function MoneyCheck({ query }: { readonly query: MoneyQuery }) {
  const state = useFleetState();
  const [asked, setAsked] = useState(false);
  const { data, error, again } = useRead<'budgetCheck'>(
    asked ? '/api/budget/check' : null,
    { amount: query.amount },
    state.data?.revision,
  );
  if (!asked)
    return (
      <p>
        <button type="button" onClick={() => setAsked(true)}>
          Check the case of a year ago
        </button>
      </p>
    );
  if (data === null)
    return error === null ? (
      <Loading what="the case of a year ago, from what was known then" />
    ) : (
      <Notice kind="fault" words={error.message} action="Try again" onAction={again} />
    );
  return <Check data={data} />;
}

function Check({ data }: { readonly data: BudgetCheck }) {
  const { said, happened, currency } = data;
  return (
    <>
      <p>
        On {date(data.fromOn)} the case of {money(data.amountCents, currency)} for {data.months} months would
        have said {plain(said.failuresWithout.low)} to {plain(said.failuresWithout.high)} failures with
        everything run and {plain(said.failuresWith.low)} to {plain(said.failuresWith.high)} under its plan.
        On record up to {date(data.untilOn)} are <strong>{plain(happened.failures)}</strong>.
      </p>
      <dl class="facts">
        <dt>Failures cost</dt>
        <dd>
          said about {roundMoney(said.unplannedWithoutCents, currency)} with everything run,{' '}
          {roundMoney(said.unplannedWithCents, currency)} under the plan; on record{' '}
          {money(happened.unplannedCents, currency)}
        </dd>
        <dt>Planned work</dt>
        <dd>
          said {money(said.plannedCents, currency)}; on record {money(happened.plannedCents, currency)}
        </dd>
      </dl>
      {data.units.length > 0 && (
        <ul>
          {data.units.map(({ unitNumber, said: told, failedOn, renewedOn }) => (
            <li key={unitNumber}>
              <a href={`/units/${encodeURIComponent(unitNumber)}`}>{unitNumber}</a>: said {saidWords[told]};{' '}
              {failedOn === null ? 'no failure on record' : `failed, ${date(failedOn)}`}
              {renewedOn !== null && `; renewed as planned, ${date(renewedOn)}`}
            </li>
          ))}
        </ul>
      )}
      <ul>
        {data.notes.map((note) => (
          <li key={note}>{modelWords(note)}</li>
        ))}
      </ul>
    </>
  );
}
