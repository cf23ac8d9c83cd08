const winter = /(?:^|[^0-9])(0|5|10|15|20|25)\s?w\s?[-–/ ]?\s?(8|12|16|20|30|40|50|60)(?![0-9])/i;
const single = /(?:^|\b)sae\s?-?(8|12|16|20|30|40|50|60)(?![0-9])/i;

/**
 * The SAE J300 grade that a text names, written as `5W-30`; a single grade as `30`.
 * @returns null when it names none
 * @example gradeIn('fully syn 5w30 API SP') → '5W-30'
 */
export function gradeIn(text: string): string | null {
  const found = winter.exec(text);
  if (found !== null) return `${found[1]}W-${found[2]}`;
  return single.exec(text)?.[1] ?? null;
}

/** True for a cell that is a grade and little else. */
export function isGrade(cell: string): boolean {
  return cell.length <= 16 && winter.test(cell);
}
