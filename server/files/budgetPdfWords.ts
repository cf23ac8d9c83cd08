import type { BudgetDocument, LeftUnit } from '../../models/schema/budgetDocument.ts';

/** A whole number with thin groups. */
export const whole = (value: number): string =>
  String(Math.round(value)).replace(/\B(?=(\d{3})+$)/g, '\u00a0');
/** Money without cents from 1 000 on. */
export const money = (cents: number): string => {
  const sign = cents < 0 ? '−' : '';
  const size = Math.abs(cents);
  return sign + (size >= 100_000 || size % 100 === 0 ? whole(size / 100) : (size / 100).toFixed(2));
};
/** Estimated money to two digits. */
export const rough = (cents: number): string => money(100 * Math.round(Number((cents / 100).toPrecision(2))));
/** Failures as whole ones where they are many enough to be. */
export const count = (value: number): string =>
  value >= 0.95 ? whole(value) : String(Number(value.toPrecision(2)));
const futures = (chance: number): string =>
  chance <= 0.005
    ? 'fewer than 1 of 200 futures'
    : chance <= 0.25
      ? `1 of ${Math.round(1 / chance)} futures`
      : `${Math.min(10, Math.round(10 * chance))} of 10 futures`;

/** Why units are left alone, as headings. */
export const whyWords: Readonly<Record<LeftUnit['why'], string>> = {
  soon_gone: 'Soon sold: left alone',
  covered: 'Under cover: claim, do not pay',
  elsewhere: 'Worth doing, but the money goes further elsewhere',
  listed: 'On the list of units to leave alone',
  not_known: 'Not enough is known',
  no_gain: 'Nothing is expected to save more than it costs',
};

/** The sentence that a budget holder reads. */
export function statement(data: BudgetDocument): string {
  const { failuresAvoided: avoided, failuresWithout: without, currency } = data;
  if (data.chosen.length === 0)
    return `${money(data.amountCents)} ${currency} buys nothing that is expected to pay. About ${count(without.mid)} failures are expected in ${data.months} months.`;
  return `${money(data.amountCents)} ${currency} is expected to avoid about ${count(avoided.mid)} of these ${count(without.mid)} failures in ${data.months} months; ${count(avoided.low)} to ${count(avoided.high)}. It loses money in ${futures(data.chanceOfLoss)}.`;
}

/** How much goes to which kind of work, and to parts and labour. */
export function kindsOf({ chosen }: BudgetDocument): string {
  const sum = (lines: typeof chosen, part: 'costCents' | 'partsCents' | 'labourCents' | 'downtimeCents') =>
    lines.reduce((total, line) => total + line[part], 0);
  const kinds = (
    [
      ['renew', 'renewals'],
      ['clean', 'cleanings'],
      ['look', 'looks first'],
    ] as const
  ).flatMap(([action, words]) => {
    const lines = chosen.filter((line) => line.action === action);
    return lines.length === 0 ? [] : [`${lines.length} ${words} for ${money(sum(lines, 'costCents'))}`];
  });
  return `${kinds.join('; ')}. Of this parts ${money(sum(chosen, 'partsCents'))} and labour ${money(sum(chosen, 'labourCents'))}; downtime of the work, beside it, about ${rough(sum(chosen, 'downtimeCents'))}.`;
}
