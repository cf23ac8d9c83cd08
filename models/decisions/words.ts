/** A share as people read it, to two digits: 0.0823 → "8.2 %". */
export function percentWords(share: number): string {
  return `${Number((100 * share).toPrecision(2))} %`;
}

/** Cents as plain decimal money without currency: 123450 → "1234.50". */
export function moneyWords(cents: number): string {
  return (cents / 100).toFixed(2);
}

/** Cents as estimated money, two significant digits, no cents: 189_731 → "1900". */
export function roughMoneyWords(cents: number): string {
  return String(Number(Math.round(cents / 100).toPrecision(2)));
}
