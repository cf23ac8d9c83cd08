import type { StateCause, WearPoint } from './states.ts';
import type { UnitAnalysis } from './unitAnalysis.ts';

/** What made each state, adding up to it. */
export function causesOf(_analysis: UnitAnalysis, _now: WearPoint): readonly StateCause[] {
  return [];
}
