import type { CallResult } from '../decisions/calls.ts';
import { isoFromDay } from '../schema/day.ts';
import type { UnitView } from './unitView.ts';

/** What to do next with a unit, in a few words. */
export function nextStep(view: UnitView, call: CallResult): string {
  const { oil, timeline, history, states } = view;
  const due = oil?.due?.dueDay ?? null;
  const site = history.unit.site;
  const at = site === null ? '' : ` at ${site}`;
  const risky = call.reasons[0]?.startsWith('chance of a timing-drive failure') ?? false;
  switch (call.call) {
    case 'stop':
      return `Take the unit off the road and check: ${call.reasons[0]}`;
    case 'book':
      return risky ? `Book a look at the timing drive${at}` : `Book the oil service${at}`;
    case 'plan':
      if (risky) return `Plan a look at the timing drive${at}`;
      return due === null
        ? `Plan the oil service${at}`
        : `Plan the oil service${at} for the week of ${isoFromDay(due)}`;
    case 'watch':
      if (oil !== null && oil.due === null)
        return 'Find out when the oil was last changed and bring the record in';
      if (timeline.recordQuality < 0.5) return 'Bring in the missing meter readings and oil changes';
      return states.evidence.length === 0
        ? 'Take an oil sample or a look at the next change'
        : 'Look again at the next oil change';
    case 'clear':
      return due === null ? 'Nothing to do now' : `Nothing to do before ${isoFromDay(due)}`;
  }
}
