import type { BudgetDocument } from '../../models/schema/budgetDocument.ts';
import { plain, rounded } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { capital } from '../format/words.ts';
import { inFutures, money, moneyRange, roundMoney } from '../format/money.ts';

/** Failures as whole units where they are many enough to be. */
const count = (value: number): string => (value >= 0.95 ? plain(Math.round(value)) : rounded(value));

/** What a thousand more or less is worth; `nothing` where the list stays the same. */
function worth(
  range: BudgetDocument['nextThousandCents'],
  mid: number,
  nothing: string,
  currency: string,
): string {
  if (range === null) return `is worth about ${roundMoney(mid, currency)}`;
  if (range.low === 0 && range.high === 0) return nothing;
  return `is worth ${moneyRange(range, currency)}`;
}

/** The sentence that a budget holder reads, and what it stands on. */
export function MoneyStatement({ data }: { readonly data: BudgetDocument }) {
  const { currency, failuresAvoided: avoided, failuresWithout: without } = data;
  return (
    <>
      {data.chosen.length === 0 ? (
        <p class="sentence">
          {money(data.amountCents, currency)} buys nothing that is expected to pay:{' '}
          {modelWords(data.notes[0] ?? 'everything is run')}. About {count(without.mid)} failures are expected
          in {data.months} months.
        </p>
      ) : (
        <p class="sentence">
          <strong>{money(data.amountCents, currency)}</strong> is expected to avoid{' '}
          <strong>
            about {count(avoided.mid)} of these {count(without.mid)} failures
          </strong>{' '}
          in {data.months} months; {count(avoided.low)} to {count(avoided.high)}. It loses money in{' '}
          <strong>{inFutures(data.chanceOfLoss)}</strong>.
        </p>
      )}
      <dl class="facts">
        <dt>Taken of the amount</dt>
        <dd>
          {money(data.spentCents, currency)}; all that is worth doing takes{' '}
          {money(data.worthwhileCents, currency)}
        </dd>
        <dt>Saving after its own cost</dt>
        <dd>{moneyRange(data.savingCents, currency)}</dd>
        <dt>Failures cost, this plan</dt>
        <dd>
          about {roundMoney(data.unplannedCents.mid, currency)}; above{' '}
          {roundMoney(data.unplannedCents.p90, currency)} in 1 of 10 futures
        </dd>
        <dt>Failures cost, all run</dt>
        <dd>
          about {roundMoney(data.unplannedWithoutCents.mid, currency)}; above{' '}
          {roundMoney(data.unplannedWithoutCents.p90, currency)} in 1 of 10 futures
        </dd>
        <dt>Waiting a month</dt>
        <dd>
          {data.waitingMonthCents.high <= 0
            ? 'costs nothing'
            : `costs ${moneyRange(data.waitingMonthCents, currency)}, with the whole list`}
        </dd>
        <dt>The next thousand</dt>
        <dd>
          {worth(data.nextThousandCents, data.valueOfNextThousandCents, 'buys no other work', currency)}; the
          last one{' '}
          {worth(data.lastThousandCents, data.valueOfLastThousandCents, 'bought nothing more', currency)}
          {data.nextThousandCents === null &&
            '; no range is known: that no other list is worth a little more is not proved'}
        </dd>
        <dt>Picking by ratio alone</dt>
        <dd>would lose {money(data.greedyLossCents, currency)} against this list</dd>
        <dt>Own data</dt>
        <dd>
          {Math.round(100 * data.ownDataShare)} % of what is known of the level of failures; {data.basis}
        </dd>
      </dl>
      {data.notes.map((note) => (
        <p key={note} class="muted">
          {capital(modelWords(note))}.
        </p>
      ))}
    </>
  );
}
