/** Money in the shop's currency; without cents from 1 000 on. */
export function money(cents: number, currency: string): string {
  const whole = Math.abs(cents) >= 100_000 || cents % 100 === 0;
  return new Intl.NumberFormat(undefined, {
    style: 'currency',
    currency,
    minimumFractionDigits: whole ? 0 : 2,
    maximumFractionDigits: whole ? 0 : 2,
  }).format(cents / 100 + 0);
}

/** Estimated money to two significant digits. */
export function roundMoney(cents: number, currency: string): string {
  return money(100 * Math.round(Number((cents / 100).toPrecision(2))), currency);
}

/** An estimate with its range before it: "900 to 3,100, about 1,900". */
export function moneyRange(
  range: { readonly low: number; readonly mid: number; readonly high: number },
  currency: string,
): string {
  return `${roundMoney(range.low, currency)} to ${roundMoney(range.high, currency)}, about ${roundMoney(range.mid, currency)}`;
}

/** A chance as so many futures in a small whole number: .128 → "1 of 8 futures". */
export function inFutures(chance: number): string {
  if (chance <= 0.005) return 'fewer than 1 of 200 futures';
  if (chance >= 0.995) return 'nearly all futures';
  if (chance <= 0.25) return `1 of ${Math.round(1 / chance)} futures`;
  return `${Math.max(1, Math.min(9, Math.round(10 * chance)))} of 10 futures`;
}
