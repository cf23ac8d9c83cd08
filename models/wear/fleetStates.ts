import type { UnitTimeline } from '../oil/charge.ts';
import type { UnitHistory } from '../schema/history.ts';
import type { Evidence } from './evidence.ts';
import { familyMessages, looPriorOf } from './familyPosterior.ts';
import type { FamilyMessages } from './familyPosterior.ts';
import { catalogRatePrior, unitSpread } from './latents.ts';
import { learnSpread } from './spread.ts';
import { ironOffsetOf, metalEvidence } from './metalEvidence.ts';
import { renewalsOf } from './renewals.ts';
import type { UnitStates } from './states.ts';
import { emptyTrajectory, trajectoryInto } from './trajectory.ts';
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
export function fleetStates(fleet: readonly FleetUnit[]): readonly UnitStates[] {
  if (fleet.length === 0) return [];
  const { coefficients } = fleet[0].context;
  const failuresOnRecord = failuresOf(fleet) >= coefficients['evidence.failures_to_count_lives'];
  const units = fleet.map((unit) => ({ ...unit, context: { ...unit.context, failuresOnRecord } }));
  const teachers = teachersOf(units);
  let learned: FamilyMessages | null = null;
  let spread = unitSpread;
  let iron: ReadonlyMap<string, number | null> = new Map();
  for (let pass = 0; pass < 2; pass++) {
    const before: FamilyMessages | null = learned;
    const analyses: UnitAnalysis[] = [];
    for (const { unit, looks, life } of teachers) {
      const prior =
        before === null
          ? catalogRatePrior(coefficients)
          : looPriorOf(before, unit.history, unitSpread, coefficients);
      const counts = ({ teaches }: Evidence): boolean =>
        (teaches === 'looks' && looks) || (teaches === 'life' && life);
      const analysis = analyseUnit(unit.timeline, unit.history, prior, unit.context, counts);
      if (analysis !== null && analysis.evidence.length > 0) analyses.push(analysis);
    }
    learned = familyMessages(analyses, coefficients);
    if (before !== null) {
      spread = learnSpread(analyses, coefficients);
      iron = ironByFamily(analyses);
    }
  }
  const messages = learned!;
  return units.map(({ timeline, history, context }) => {
    const prior = looPriorOf(messages, history, spread, coefficients);
    const known = { ...context, ironOffset: iron.get(familyName(history)) ?? null };
    const analysis = analyseUnit(timeline, history, prior, known);
    return analysis === null ? unitStates(timeline, history, known) : statesOfAnalysis(analysis);
  });
}

const familyName = (history: UnitHistory): string => history.engine?.engineFamily ?? '';

/** The level of iron of each family, from what its units' samples miss by. */
function ironByFamily(analyses: readonly UnitAnalysis[]): ReadonlyMap<string, number | null> {
  const misses = new Map<string, number[]>();
  for (const { history, timeline, response, setting, posterior, settings } of analyses) {
    const evidence = metalEvidence(history, timeline, response.segments, setting, 0);
    if (evidence.length === 0) continue;
    const states = emptyTrajectory(response.segments.length);
    trajectoryInto(response, posterior.mode, settings.screenCarry, states);
    const list = misses.get(familyName(history)) ?? [];
    for (const { likelihood, expect } of evidence)
      if (likelihood.kind === 'measured') list.push(likelihood.value - expect(states, posterior.mode));
    misses.set(familyName(history), list);
  }
  return new Map([...misses].map(([family, list]) => [family, ironOffsetOf(list)]));
}

/** Failures of phasers and timing sets on record. */
function failuresOf(units: readonly FleetUnit[]): number {
  let count = 0;
  for (const { history, timeline, context } of units)
    for (const { part, failureChance } of renewalsOf(
      history,
      timeline.asOfDay,
      context.faultCodes,
      context.coefficients,
    ))
      if (part === 'timing_set' || part === 'phaser') count += failureChance;
  return count;
}

interface Teacher {
  readonly unit: FleetUnit;
  readonly looks: boolean;
  readonly life: boolean;
}

/**
 * The units that teach each family: by what was looked at, those with samples or findings; by lives, an even part of all,
 * whether they failed or not.
 */
function teachersOf(units: readonly FleetUnit[]): readonly Teacher[] {
  const families = new Map<string, FleetUnit[]>();
  for (const unit of units) {
    const family = familyName(unit.history);
    const members = families.get(family);
    if (members === undefined) families.set(family, [unit]);
    else members.push(unit);
  }
  const teachers: Teacher[] = [];
  for (const members of families.values()) {
    const looked = new Set(evenPart(members.filter(({ history }) => hasLooks(history))));
    const lived = new Set(evenPart(members));
    for (const unit of new Set([...looked, ...lived]))
      teachers.push({ unit, looks: looked.has(unit), life: lived.has(unit) });
  }
  return teachers;
}

function evenPart<T>(list: readonly T[]): readonly T[] {
  if (list.length <= teachersPerFamily) return list;
  return Array.from(
    { length: teachersPerFamily },
    (_, i) => list[Math.floor(((i + 0.5) * list.length) / teachersPerFamily)],
  );
}

function hasLooks(history: UnitHistory): boolean {
  return history.samples.length > 0 || history.findings.length > 0;
}
