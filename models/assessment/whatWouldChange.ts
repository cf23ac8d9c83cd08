import { changesThatBuy, intervalGain, type ChangeGain } from '../oil/changesThatBuy.ts';
import { limitNames } from '../oil/intervalWords.ts';
import { recommendedInterval } from '../oil/recommendedInterval.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { fillNow } from './assessUnit.ts';
import { freshOilQuestion } from './oilQuestion.ts';
import type { UnitView } from './unitView.ts';

const shown = 4;
/** A gain smaller than this is none, days. */
const leastDays = 2;

/**
 * What would lengthen the unit's interval, each change alone: those that gain most as sentences with their gain, the
 * others together with what holds them.
 */
export function whatWouldChange(view: UnitView, coefficients: Coefficients): string[] {
  const { timeline, states } = view;
  const filled = fillNow(timeline, view.fillOf);
  if (filled === null) return [];
  const question = freshOilQuestion(timeline, states, view.book, filled, coefficients);
  const gains: Pick<ChangeGain, 'change' | 'gainDays' | 'words' | 'advice'>[] = [
    ...changesThatBuy(question, coefficients),
  ];
  if (question.rates !== states.rates) {
    const now = recommendedInterval(question, coefficients);
    const change = 'Putting right the fault on record';
    const repaired = recommendedInterval({ ...question, rates: states.rates }, coefficients);
    gains.push({ change, ...intervalGain(change, now, repaired) });
  }
  gains.sort((a, b) => b.gainDays - a.gainDays);
  const worth = gains.filter(({ gainDays }) => gainDays >= leastDays);
  const idle = gains.filter(({ gainDays }) => gainDays < leastDays);
  const held = new Map<string, string[]>();
  for (const { change, advice } of idle) {
    const by = limitNames[advice.governing];
    held.set(by, [...(held.get(by) ?? []), change]);
  }
  return [
    ...worth.slice(0, shown).map(({ words }) => words),
    ...[...held].map(([by, changes]) => `No gain, held by ${by}: ${inOneLine(changes)}.`),
  ];
}

/** Changes one after the other, all but the first beginning small. */
function inOneLine(changes: readonly string[]): string {
  return changes.map((text, i) => (i === 0 ? text : text[0].toLowerCase() + text.slice(1))).join('; ');
}
