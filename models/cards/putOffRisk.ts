import type { UnitAssessment } from '../schema/assessment.ts';
import { dayFromIso } from '../schema/day.ts';
import { normalCdf } from '../numeric/normal.ts';

type Judged = Pick<UnitAssessment, 'call' | 'oil' | 'failure'>;

const rangeWidth = 2 * 1.2815515655446004;

/** Chance of being past the oil's limit on a day, from the 80 % range of its due date taken as normal. */
function pastBy(oil: NonNullable<UnitAssessment['oil']>, day: number): number | null {
  if (oil.dueOn === null) return null;
  const due = dayFromIso(oil.dueOn);
  const low = dayFromIso(oil.dueOnEarliest ?? oil.dueOn);
  const high = dayFromIso(oil.dueOnLatest ?? oil.dueOn);
  const spread = Math.max((high - low) / rangeWidth, 0.5);
  return normalCdf((day - due) / spread);
}

const inTen = (chance: number): string =>
  chance < 0.05
    ? 'fewer than 1 in 20'
    : chance > 0.95
      ? 'nearly certain'
      : `about ${Math.round(20 * chance)} in 20`;

/**
 * What putting a visit off adds, in words: the chance of running past the oil's limit then and now, and the chance of a
 * timing-drive failure in between at the unit's present rate (constant hazard over the horizon).
 * @param horizonDays of the unit's chance of failure, d, above 0
 * @param from ISO date of the visit as it stands
 * @param to ISO date it is put off to
 * @throws RangeError when horizonDays is not above 0
 * @example putOffRisk(unit, 365, '2026-04-01', '2026-05-01') → 'Chance of being past the oil's limit …'
 */
export function putOffRisk(unit: Judged, horizonDays: number, from: string, to: string): string {
  if (!(horizonDays > 0)) throw new RangeError(`horizonDays must be above 0, got ${horizonDays}`);
  const words: string[] = [];
  const [first, last] = [dayFromIso(from), dayFromIso(to)];
  if (unit.call === 'stop')
    words.push('This unit stands at “Stop and check”: it is not to be driven until it is cleared.');
  const before = unit.oil === null ? null : pastBy(unit.oil, first);
  const after = unit.oil === null ? null : pastBy(unit.oil, last);
  if (before !== null && after !== null)
    words.push(
      `Chance of being past the oil's limit: ${inTen(before)} on ${from}, ${inTen(after)} on ${to}.`,
    );
  else words.push("When the oil reaches its limit is not known, so what waiting adds there can't be said.");
  if (unit.failure !== null) {
    const rate = (chance: number): number => -Math.log(1 - Math.min(chance, 0.999)) / horizonDays;
    const within = (chance: number): number => 1 - Math.exp(-rate(chance) * Math.max(last - first, 0));
    const mid = within(unit.failure.probability);
    const shown = (chance: number): string =>
      chance < 0.0005 ? 'fewer than 1 in 2,000' : `1 in ${Math.max(1, Math.round(1 / chance))}`;
    words.push(
      `Added chance of a timing-drive failure by then: about ${shown(mid)} (${shown(within(unit.failure.low))} to ${shown(within(unit.failure.high))}).`,
    );
  } else words.push('Chance of a timing-drive failure: not known.');
  return words.join(' ');
}
