/** A share as people read it, to two digits: 0.0823 → "8.2 %". */
export function percentWords(share: number): string {
  return `${Number((100 * share).toPrecision(2))} %`;
}

/**
 * Cents as money in words, from 1 000 on without cents: 12_345, "USD" → "123.45 USD"; 123_460 → "1235".
 * @param currency ISO 4217; left out: the amount stands by itself
 */
export function moneyWords(cents: number, currency = ''): string {
  const amount = Math.abs(cents) >= 100_000 ? (cents / 100).toFixed(0) : (cents / 100).toFixed(2);
  return currency === '' ? amount : `${amount} ${currency}`;
}

const roughly = (cents: number): string => String(Number(Math.round(cents / 100).toPrecision(2)));

/** Cents as estimated money, two significant digits, no cents: 189_731, "USD" → "1900 USD". */
export function roughMoneyWords(cents: number, currency: string): string {
  return `${roughly(cents)} ${currency}`;
}

/** Estimated money with its range before it: "900 to 3100 USD, about 1900 USD". */
export function moneyRangeWords(
  range: { readonly low: number; readonly mid: number; readonly high: number },
  currency: string,
): string {
  return `${roughly(range.low)} to ${roughMoneyWords(range.high, currency)}, about ${roughMoneyWords(range.mid, currency)}`;
}
