import type { BudgetDocument } from '../../models/schema/budgetDocument.ts';
import { Loading } from './notice.tsx';

/** What the page asks, as it stands in the address. */
export type MoneyQuery = Readonly<Record<string, string>>;

const steps: Readonly<Record<string, string>> = { share: '0.01', times: '0.1', money: '1', months: '1' };

/** Amount, time and every assumption beside the result; kept in the address, so that a link is the case. */
export function MoneyForm({
  query,
  data,
  working,
  onAsk,
}: {
  readonly query: MoneyQuery;
  readonly data: BudgetDocument | null;
  /** how far a case is that is worked out beside the one shown; null: none is */
  readonly working: string | null;
  readonly onAsk: (query: Record<string, string>) => void;
}) {
  const ask = (event: Event): void => {
    event.preventDefault();
    const form = new FormData(event.currentTarget as HTMLFormElement);
    const words = [...form].map(([name, value]): [string, string] => [name, String(value).trim()]);
    const standing = new Map(
      (data?.assumptions ?? [])
        .filter(({ changed }) => !changed)
        .map(({ name, value }) => [name, String(value)]),
    );
    onAsk(Object.fromEntries(words.filter(([name, value]) => value !== '' && standing.get(name) !== value)));
  };
  // defaults, so that what is being typed outlives the page's renewals while a case is worked out
  return (
    <form class="money-form" onSubmit={ask}>
      <label>
        Amount <input name="amount" type="number" min="0" step="any" required defaultValue={query.amount} />
      </label>
      <label>
        Months{' '}
        <input name="months" type="number" min="1" max="60" step="1" required defaultValue={query.months} />
      </label>
      <label>
        Beside it, another amount{' '}
        <input name="against" type="number" min="0" step="any" defaultValue={query.against ?? ''} />
      </label>
      <details>
        <summary>Assumptions and lists</summary>
        {data?.assumptions.map((entry) => (
          <label key={entry.name}>
            {entry.words}
            {entry.unit === 'share' && ', share'}{' '}
            <input
              name={entry.name}
              type="number"
              step={steps[entry.unit]}
              defaultValue={query[entry.name] ?? String(entry.value)}
            />
            <span class="muted">
              {entry.changed ? 'changed; ' : ''}
              {entry.kind === 'factor'
                ? '1 = as recorded'
                : `${entry.kind}${entry.low === null ? '' : `, plausible ${entry.low} to ${entry.high}`}`}
            </span>
          </label>
        ))}
        <label>
          Shop hours a year for this work, empty = no limit{' '}
          <input name="hoursPerYear" type="number" min="0" step="1" defaultValue={query.hoursPerYear ?? ''} />
        </label>
        <label>
          Must be renewed, units with commas between; 12:look or 12:clean for that on unit 12{' '}
          <input name="mustDo" defaultValue={query.mustDo ?? ''} />
        </label>
        <label>
          Must be left alone, units with commas between; 12:renew for that alone{' '}
          <input name="mustNot" defaultValue={query.mustNot ?? ''} />
        </label>
        <label>
          Number that the futures are drawn by; the same number draws the same ones{' '}
          <input
            name="seed"
            type="number"
            step="1"
            min="0"
            defaultValue={query.seed ?? data?.seed.toString()}
          />
        </label>
      </details>
      <button type="submit">Work it out</button>
      {working !== null && data !== null && <Loading what={`the budget case anew: ${working}`} />}
    </form>
  );
}
