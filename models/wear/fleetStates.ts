import { looPriorOf } from './familyPosterior.ts';
import { familyName, learnRates } from './learnedRates.ts';
import type { FleetUnit, LearnedRates } from './learnedRates.ts';
import type { UnitStates } from './states.ts';
import { analysePrepared } from './unitAnalysis.ts';
import { prepareUnit } from './unitPreparation.ts';
import type { PreparedUnit } from './unitPreparation.ts';
import { statesOfAnalysis, unitStates } from './unitStates.ts';

/**
 * The states of one unit by the rates that its fleet taught; its own evidence is left out of what its family tells it, so
 * that nothing counts twice.
 * @param prepared the unit's preparation where there is one already
 */
export function statesByRates(
  { timeline, history, context }: FleetUnit,
  { messages, spread, levels, iron, failuresRecorded }: LearnedRates,
  prepared?: PreparedUnit | null,
): UnitStates {
  const own = { ...context, failuresRecorded };
  const family = familyName(history);
  const level =
    levels.byUnit.get(history.unit.source.id) ?? levels.byFamily.get(family) ?? levels.otherFamily;
  const prior = looPriorOf(messages, history, spread, context.coefficients, level);
  const ironOffset = iron.get(family) ?? null;
  const ready = prepared ?? prepareUnit(timeline, history, own);
  return ready === null
    ? unitStates(timeline, history, { ...own, ironOffset })
    : statesOfAnalysis(analysePrepared(ready, prior, undefined, ironOffset));
}

/** The states of every unit of a fleet by the rates that the fleet itself teaches. */
export function fleetStates(fleet: readonly FleetUnit[]): readonly UnitStates[] {
  if (fleet.length === 0) return [];
  const { rates, prepared } = learnRates(fleet);
  return fleet.map((unit) => {
    const own = prepared.get(unit.history);
    prepared.delete(unit.history);
    return statesByRates(unit, rates, own);
  });
}
