import type { BudgetDocument, LeftUnit } from '../../models/schema/budgetDocument.ts';
import { chanceWithRange } from '../format/chance.ts';
import { date } from '../format/dates.ts';
import { modelWords } from '../format/modelWords.ts';
import { money, moneyRange, roundMoney } from '../format/money.ts';
import { counted } from '../format/words.ts';
import { ColumnHeads } from './columnHeads.tsx';

const link = (unitNumber: string) => <a href={`/units/${encodeURIComponent(unitNumber)}`}>{unitNumber}</a>;

/** What a month's wait costs, or saves where its middle does. */
function waitingWords(
  range: NonNullable<BudgetDocument['chosen'][number]['waitingMonthCents']>,
  currency: string,
): string {
  const { low, mid, high } = range;
  return mid < 0
    ? `saves ${moneyRange({ low: -high, mid: -mid, high: -low }, currency)}`
    : `costs ${moneyRange(range, currency)}`;
}

const actionNames = { renew: 'renewal', clean: 'cleaning', look: 'look first' } as const;

/** How much goes to which kind of work. */
function Kinds({ data }: { readonly data: BudgetDocument }) {
  const sum = (part: 'partsCents' | 'labourCents' | 'downtimeCents'): number =>
    data.chosen.reduce((total, line) => total + line[part], 0);
  const kinds = (['renew', 'clean', 'look'] as const).flatMap((action) => {
    const lines = data.chosen.filter((line) => line.action === action);
    if (lines.length === 0) return [];
    const cents = lines.reduce((sum, line) => sum + line.costCents, 0);
    const name = lines.length === 1 ? actionNames[action] : kindNames[action];
    return [`${lines.length} ${name} for ${money(cents, data.currency)}`];
  });
  return (
    <p>
      {kinds.join('; ')}. Of this parts {money(sum('partsCents'), data.currency)} and labour{' '}
      {money(sum('labourCents'), data.currency)}; downtime of the work, beside it, about{' '}
      {roundMoney(sum('downtimeCents'), data.currency)}.
      {data.chosen.some(({ action }) => action === 'look') &&
        ' A look is set aside for with its share of the renewals that it is expected to lead to.'}
    </p>
  );
}

const kindNames = { renew: 'renewals', clean: 'cleanings', look: 'looks first' } as const;

/** The work that the money buys. */
export function MoneyLines({ data }: { readonly data: BudgetDocument }) {
  if (data.chosen.length === 0) return <p class="muted">Nothing is bought.</p>;
  const { currency } = data;
  return (
    <>
      <Kinds data={data} />
      <div class="table-frame" tabIndex={0} role="region" aria-label="What the money buys">
        <table class="stacking">
          <ColumnHeads
            titles={[
              'Unit',
              'What',
              'When',
              'Costs',
              'Failure cost avoided',
              'Waiting a month',
              'Chance of failure if run',
            ]}
            numbers={['Costs']}
          />
          <tbody>
            {data.chosen.map((line) => (
              <tr key={line.unitNumber}>
                <td>
                  {link(line.unitNumber)}{' '}
                  <span class="muted">{[line.engineFamily, line.site].filter(Boolean).join(', ')}</span>
                </td>
                <td data-name="what">{modelWords(line.words)}</td>
                <td data-name="when">{line.on === data.asOf ? 'now' : date(line.on)}</td>
                <td class="number" data-name="costs">
                  {money(line.costCents, currency)}
                </td>
                <td data-name="avoided">{moneyRange(line.avoidedCents, currency)}</td>
                <td data-name="waiting">
                  {line.waitingMonthCents === null
                    ? 'not known'
                    : waitingWords(line.waitingMonthCents, currency)}
                </td>
                <td data-name="chance">
                  {line.failureProbability === null
                    ? 'not known'
                    : chanceWithRange(
                        line.failureProbability.mid,
                        line.failureProbability.low,
                        line.failureProbability.high,
                      )}
                </td>
              </tr>
            ))}
          </tbody>
          <tfoot>
            <tr>
              <th scope="row" colSpan={3}>
                Together
              </th>
              <td class="number" data-name="together">
                {money(data.spentCents, currency)}
              </td>
            </tr>
          </tfoot>
        </table>
      </div>
    </>
  );
}

const groups: readonly (readonly [LeftUnit['why'], string])[] = [
  ['soon_gone', 'soon sold: left alone'],
  ['covered', 'under cover: claim, do not pay'],
  ['elsewhere', 'worth doing, but the money or the hours go further elsewhere'],
  ['listed', 'on the list of units to leave alone'],
  ['not_known', 'not enough is known'],
  ['no_gain', 'nothing is expected to save more than it costs'],
];

/** Units on which nothing is spent, by reason. */
export function MoneyLeftAlone({ data }: { readonly data: BudgetDocument }) {
  return (
    <>
      {data.leftAlone.length === 0 && <p>No unit: each has work in the list above.</p>}
      {groups.map(([why, words]) => {
        const units = data.leftAlone.filter((unit) => unit.why === why);
        return units.length === 0 ? null : (
          <details key={why} open={why !== 'no_gain' && units.length <= 8}>
            <summary>
              {counted(units.length, 'unit')}: {words}
            </summary>
            <ul>
              {units.map((unit) => (
                <li key={unit.unitNumber}>
                  {link(unit.unitNumber)}: {modelWords(unit.reason)}
                </li>
              ))}
            </ul>
          </details>
        );
      })}
      {data.covered.length > 0 && (
        <>
          <h3>Claims</h3>
          <ul>
            {data.covered.map((unit) => (
              <li key={unit.unitNumber}>
                {link(unit.unitNumber)}: claim by {date(unit.claimByOn)}.{' '}
                {modelWords(unit.reasons.join('; '))}. To hand in: {unit.evidence.join('; ')}.
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}
