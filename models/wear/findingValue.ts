/** A number written in a finding's value: `0.4`, `40 %` (as 40), `1,5`; null when there is none. */
export function findingNumber(value: string | null): number | null {
  if (value === null) return null;
  const found = /-?\d+(?:[.,]\d+)?/.exec(value);
  if (found === null) return null;
  const number = Number(found[0].replace(',', '.'));
  return Number.isFinite(number) ? number : null;
}

/** A share written as 0..1 or as per cent (`0.4`, `40`, `40 %`); null when it is neither. */
export function findingShare(value: string | null): number | null {
  const number = findingNumber(value);
  if (number === null || number < 0) return null;
  const share = number > 1 || (value ?? '').includes('%') ? number / 100 : number;
  return share <= 1 ? share : null;
}

/** Whether a yes/no finding says yes; empty counts as yes, since the finding itself was recorded. */
export function findingYes(value: string | null): boolean {
  return value === null || !/^\s*(no|false|0|negative|none|n)\b/i.test(value);
}
