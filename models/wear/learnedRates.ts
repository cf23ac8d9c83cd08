import type { UnitTimeline } from '../oil/charge.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso } from '../schema/day.ts';
import type { UnitHistory } from '../schema/history.ts';
import type { WorkKind } from '../schema/service.ts';
import type { Evidence } from './evidence.ts';
import { familyMessages, looPriorOf, unitVariances } from './familyPosterior.ts';
import type { FamilyMessages } from './familyPosterior.ts';
import { catalogRatePrior, latent, taughtSpread, unitSpread } from './latents.ts';
import type { SpreadScales } from './latents.ts';
import { lifeLevels } from './lifeLevels.ts';
import type { LifeLevels, UnitLives } from './lifeLevels.ts';
import { learnSpread } from './spread.ts';
import { ironOffsetOf, metalEvidence } from './metalEvidence.ts';
import { emptyTrajectory, trajectoryInto } from './trajectory.ts';
import { analysePrepared } from './unitAnalysis.ts';
import type { UnitAnalysis } from './unitAnalysis.ts';
import { prepareUnit } from './unitPreparation.ts';
import type { PreparedUnit, WearContext } from './unitPreparation.ts';

/** One unit of a fleet as the wear models take it. */
export interface FleetUnit {
  readonly timeline: UnitTimeline;
  readonly history: UnitHistory;
  readonly context: WearContext;
}

/** Units whose evidence teaches a family its rates; more tell little more. */
const teachersPerFamily = 150;

/** What the evidence of a fleet tells of its rates of wear. Plain data: with it a unit can be worked out by itself. */
export interface LearnedRates {
  readonly messages: FamilyMessages;
  readonly spread: SpreadScales;
  readonly levels: LifeLevels;
  /** level of iron in oil by family, as logarithm against the catalog's; null: not known */
  readonly iron: ReadonlyMap<string, number | null>;
  /** chance that a failure would be on record */
  readonly failuresRecorded: number;
}

/** Rates that a fleet taught, and what its teachers were worked out from. */
export interface TaughtRates {
  readonly rates: LearnedRates;
  /** by unit; entries may be taken out once used */
  readonly prepared: Map<UnitHistory, PreparedUnit | null>;
}

/**
 * The levels of the rates learned by family and fleet from all evidence (empirical Bayes): first pass the catalog's rates,
 * second what the first told.
 * @throws RangeError for a fleet without units
 */
export function learnRates(fleet: readonly FleetUnit[]): TaughtRates {
  if (fleet.length === 0) throw new RangeError('fleet: at least one unit is needed, got none');
  const { coefficients } = fleet[0].context;
  const failuresRecorded = failuresRecordedOf(fleet);
  const teachers = teachersOf(fleet);
  const looksOnly = ({ teaches }: Evidence): boolean => teaches === 'looks';
  // teachers are worked through several times, on one preparation
  const prepared = new Map(
    teachers.map(({ unit: { timeline, history, context } }) => [
      history,
      prepareUnit(timeline, history, { ...context, failuresRecorded }),
    ]),
  );
  const catalogPrior = catalogRatePrior(coefficients);
  const first: UnitAnalysis[] = [];
  for (const { unit, looks } of teachers) {
    const own = prepared.get(unit.history) ?? null;
    if (!looks || own === null) continue;
    const analysis = analysePrepared(own, catalogPrior, looksOnly);
    if (analysis.evidence.length > 0) first.push(analysis);
  }
  const early = familyMessages(first, coefficients);
  const second: UnitAnalysis[] = [];
  const lives: UnitLives[] = [];
  for (const { unit, looks, life } of teachers) {
    const own = prepared.get(unit.history) ?? null;
    if (own === null) continue;
    const prior = looPriorOf(early, unit.history, unitSpread, coefficients);
    const analysis = analysePrepared(own, prior, looks ? looksOnly : (): boolean => false);
    if (analysis.evidence.length > 0) second.push(analysis);
    if (life) addLives(analysis, coefficients, lives);
  }
  const levels = phaserLevels(lives, coefficients);
  return {
    rates: {
      messages: familyMessages(second, coefficients),
      levels,
      // a fleet whose lives scatter little may still wear by other laws than the model's: bands are never narrowed by it
      spread: { ...learnSpread(second, coefficients), phaser: Math.max(1, levels.spreadScale) },
      iron: ironByFamily(second),
      failuresRecorded,
    },
    prepared,
  };
}

function phaserLevels(lives: readonly UnitLives[], coefficients: Coefficients): LifeLevels {
  const { family, fleet } = taughtSpread(coefficients);
  const scaleLogSd = coefficients['evidence.spread_scale_log_sd'];
  return lifeLevels(lives, family[latent.phaser], fleet[latent.phaser], scaleLogSd);
}

/** A unit's phasers as what they tell of its family's level: their wear at the catalog's rate, oil as far as it was seen. */
function addLives(analysis: UnitAnalysis, coefficients: Coefficients, into: UnitLives[]): void {
  const { lives, response, posterior, settings, history } = analysis;
  const told = lives.filter(({ state, teaches }) => state === 'phaser' && teaches === 'life');
  if (told.length === 0) return;
  const unknowns = posterior.mode.slice();
  unknowns[latent.phaser] = 0;
  const states = emptyTrajectory(response.segments.length);
  trajectoryInto(response, unknowns, settings.screenCarry, states);
  into.push({
    unitId: history.unit.source.id,
    family: familyName(history),
    scatterLogSd: Math.sqrt(unitVariances(analysis, taughtSpread(coefficients).unit)[latent.phaser]),
    stays: told.flatMap(({ likelihood, expect }) =>
      likelihood.kind === 'life' ? [{ logWear: Math.log(expect(states, unknowns)), likelihood }] : [],
    ),
  });
}

/** The family under which a unit's rates are learned. */
export const familyName = (history: UnitHistory): string => history.engine?.engineFamily ?? '';

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

const routine: readonly WorkKind[] = ['oil_change', 'top_up', 'filter', 'inspection', 'meter_replaced'];

/**
 * Chance that a failure would be on record, from how many repairs the fleet's records hold: where none are, nothing is said
 * by the lack of failures.
 */
function failuresRecordedOf(units: readonly FleetUnit[]): number {
  const { coefficients: c } = units[0].context;
  let repairs = 0;
  for (const { history, timeline } of units)
    for (const { servicedOn, read } of history.services)
      if (dayFromIso(servicedOn) <= timeline.asOfDay && read.works.some((work) => !routine.includes(work)))
        repairs++;
  return (c['evidence.failures_recorded'] * repairs) / (repairs + c['evidence.repairs_to_count_lives']);
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
