/** A share as people read it, to two digits: 0.0823 → "8.2 %". */
export function percentWords(share: number): string {
  return `${Number((100 * share).toPrecision(2))} %`;
}

/** Cents as money in words, without currency, from 1 000 on without cents: 12_345 → "123.45", 123_460 → "1235". */
export function moneyWords(cents: number): string {
  return Math.abs(cents) >= 100_000 ? (cents / 100).toFixed(0) : (cents / 100).toFixed(2);
}

/** Cents as estimated money, two significant digits, no cents: 189_731 → "1900". */
export function roughMoneyWords(cents: number): string {
  return String(Number(Math.round(cents / 100).toPrecision(2)));
}
