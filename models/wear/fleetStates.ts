import type { UnitTimeline } from '../oil/charge.ts';
import type { UnitHistory } from '../schema/history.ts';
import { familyMessages, looPriorOf } from './familyPosterior.ts';
import type { FamilyMessages } from './familyPosterior.ts';
import { catalogRatePrior, unitSpread } from './latents.ts';
import { learnSpread } from './spread.ts';
import type { UnitStates } from './states.ts';
import { analyseUnit } from './unitAnalysis.ts';
import type { UnitAnalysis, WearContext } from './unitAnalysis.ts';
import { statesOfAnalysis, unitStates } from './unitStates.ts';

/** One unit of a fleet as the wear models take it. */
export interface FleetUnit {
  readonly timeline: UnitTimeline;
  readonly history: UnitHistory;
  readonly context: WearContext;
}

/** Units whose evidence teaches a family its rates; more tell little more. */
const teachersPerFamily = 150;

/**
 * The states of every unit of a fleet, with the levels of the rates learned by family and fleet from all evidence
 * (empirical Bayes): first pass the catalog's rates, second the learned ones; each unit's own evidence is left out of
 * what its family tells it, so that nothing counts twice.
 */
export function fleetStates(units: readonly FleetUnit[]): readonly UnitStates[] {
  if (units.length === 0) return [];
  const { coefficients } = units[0].context;
  let learned: FamilyMessages | null = null;
  let spread = unitSpread;
  for (let pass = 0; pass < 2; pass++) {
    const before: FamilyMessages | null = learned;
    const analyses: UnitAnalysis[] = [];
    const counts = new Map<string, number>();
    units.forEach((unit) => {
      const family = unit.history.engine?.engineFamily ?? '';
      const count = counts.get(family) ?? 0;
      if (count >= teachersPerFamily || !hasEvidence(unit.history)) return;
      counts.set(family, count + 1);
      const prior =
        before === null
          ? catalogRatePrior(coefficients)
          : looPriorOf(before, unit.history, unitSpread, coefficients);
      const analysis = analyseUnit(unit.timeline, unit.history, prior, unit.context);
      if (analysis !== null) analyses.push(analysis);
    });
    learned = familyMessages(analyses, coefficients);
    if (before !== null) spread = learnSpread(analyses, coefficients);
  }
  return units.map(({ timeline, history, context }) => {
    const prior = looPriorOf(learned!, history, spread, coefficients);
    const analysis = analyseUnit(timeline, history, prior, context);
    return analysis === null ? unitStates(timeline, history, context) : statesOfAnalysis(analysis);
  });
}

function hasEvidence(history: UnitHistory): boolean {
  return history.samples.length > 0 || history.findings.length > 0 || history.codes.length > 0;
}
