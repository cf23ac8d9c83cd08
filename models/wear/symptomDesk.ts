import type { Coefficients } from '../schema/coefficient.ts';
import type { FaultCodes } from './faultCode.ts';
import { signsOf, codeGroups } from './symptomSigns.ts';
import type { SymptomEngine, SymptomInputs } from './symptomSigns.ts';
import type { SymptomCause, SymptomSign, SymptomTable } from './symptomTable.ts';
import type { UnitStates } from './states.ts';

/** A cause with its chance. */
export interface CauseChance {
  readonly cause: SymptomCause;
  readonly label: string;
  readonly probability: number;
  /** signs that raised it most, in words */
  readonly because: readonly string[];
}

/** A check that can be done next. */
export interface NextCheck {
  readonly check: string;
  readonly label: string;
  readonly minutes: number;
  /** expected information, bit */
  readonly informationBits: number;
  readonly bitsPerHour: number;
}

/** What the desk answers. */
export interface Differential {
  /** what has to be done before any further running or checking, in words */
  readonly cautions: readonly string[];
  /** chances that add up to 1, likeliest first */
  readonly causes: readonly CauseChance[];
  /** checks not done yet, the most telling per hour first */
  readonly checks: readonly NextCheck[];
}

/** What the desk works with. */
export interface DeskSetting {
  readonly table: SymptomTable;
  readonly engine: SymptomEngine;
  readonly faultCodes: FaultCodes;
  readonly coefficients: Coefficients;
  /** the unit's states by its history; null: no unit chosen */
  readonly states: Pick<UnitStates, 'now' | 'stops'> | null;
}

/**
 * What may be behind the signs of a unit, and what to check next.
 * Formulas: Bayes' rule with one cause and signs independent given it; the unit's own wear moves the chances beforehand; next
 * check by mutual information of cause and result per hour. Source: Bayes' rule; Shannon (1948); chances are assumptions of
 * the catalog (symptom-desk).
 * @returns cautions first, chances that add up to 1, checks by information per hour
 */
export function differential(inputs: SymptomInputs, setting: DeskSetting): Differential {
  const { table, engine, faultCodes, coefficients } = setting;
  const signs = signsOf(inputs, engine, faultCodes, coefficients);
  const probabilities = causeChances(table, signs, setting);
  const causes = table.causes
    .map(({ id, label }, i) => ({
      cause: id,
      label,
      probability: probabilities[i],
      because: reasonsFor(id, table, signs, probabilities),
    }))
    .sort((a, b) => b.probability - a.probability || (a.cause < b.cause ? -1 : 1));
  return {
    cautions: cautionsFirst(inputs, setting),
    causes,
    checks: nextChecks(table, signs, probabilities),
  };
}

/** Chances of the causes by Bayes' rule, in the order of the table; they add up to 1. */
export function causeChances(
  table: SymptomTable,
  signs: ReadonlyMap<SymptomSign, boolean>,
  setting: Omit<DeskSetting, 'table'>,
): readonly number[] {
  const logs = table.causes.map(({ id, prior }) => Math.log(prior * tiltOf(id, setting)));
  for (const sign of table.signs) {
    const present = signs.get(sign.id);
    if (present === undefined) continue;
    table.causes.forEach(({ id }, i) => {
      logs[i] += Math.log(present ? sign.chance[id] : 1 - sign.chance[id]);
    });
  }
  const top = Math.max(...logs);
  const weights = logs.map((log) => Math.exp(log - top));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / total);
}

/** How the unit's own wear moves a cause's chance before any sign; 1 in the middle of life. */
function tiltOf(
  cause: SymptomCause,
  { states, engine, coefficients: c }: Omit<DeskSetting, 'table'>,
): number {
  const bounded = (value: number): number => Math.min(4, Math.max(0.25, value));
  if (cause === 'chain' && engine.chainLimit === null) return 1e-6;
  if (states === null) return 1;
  const { sludge, chainPercent, phaserShare } = states.now;
  if (cause === 'chain' && chainPercent !== null && engine.chainLimit !== null)
    return bounded((2 * chainPercent.value) / engine.chainLimit.percent);
  if (cause === 'phaser') return phaserShare === null ? 1e-6 : bounded(2 * phaserShare.value);
  if (cause === 'solenoid')
    return phaserShare === null
      ? 1e-6
      : sludge === null
        ? 1
        : bounded(0.5 + sludge.value / c['evidence.sludge_caution']);
  if (cause === 'pressure' && sludge !== null)
    return bounded(0.7 + sludge.value / (2 * c['evidence.sludge_caution']));
  return 1;
}

/** The present signs that speak for a cause against the others, strongest first. */
function reasonsFor(
  cause: SymptomCause,
  table: SymptomTable,
  signs: ReadonlyMap<SymptomSign, boolean>,
  probabilities: readonly number[],
): readonly string[] {
  return table.signs
    .filter(({ id }) => signs.get(id) === true)
    .map(({ label, chance }) => {
      const mean = table.causes.reduce((sum, other, i) => sum + probabilities[i] * chance[other.id], 0);
      return { label, ratio: chance[cause] / mean };
    })
    .filter(({ ratio }) => ratio > 1)
    .sort((a, b) => b.ratio - a.ratio)
    .map(({ label }) => label);
}

function entropyBits(probabilities: readonly number[]): number {
  return probabilities.reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0);
}

/** Expected information of a yes/no check about the cause, bit; 0 when no cause changes its result. */
export function informationBits(prior: readonly number[], positive: readonly number[]): number {
  let expected = 0;
  for (const likelihood of [positive, positive.map((chance) => 1 - chance)]) {
    const joint = prior.map((p, i) => p * likelihood[i]);
    const chance = joint.reduce((sum, p) => sum + p, 0);
    if (chance > 0) expected += chance * entropyBits(joint.map((p) => p / chance));
  }
  return Math.max(0, entropyBits(prior) - expected);
}

function nextChecks(
  table: SymptomTable,
  signs: ReadonlyMap<SymptomSign, boolean>,
  probabilities: readonly number[],
): readonly NextCheck[] {
  return table.checks
    .filter(({ sign }) => !signs.has(sign))
    .map(({ id, label, minutes, positive }) => {
      const bits = informationBits(
        probabilities,
        table.causes.map((cause) => positive[cause.id]),
      );
      return { check: id, label, minutes, informationBits: bits, bitsPerHour: (60 * bits) / minutes };
    })
    .sort((a, b) => b.bitsPerHour - a.bitsPerHour || (a.check < b.check ? -1 : 1));
}

/** Stop conditions and safety, before anything else. */
function cautionsFirst(
  inputs: SymptomInputs,
  { engine, faultCodes, coefficients: c, states }: DeskSetting,
): readonly string[] {
  const cautions: string[] = [];
  const groups = codeGroups(inputs.codes ?? [], faultCodes);
  const { hotIdlePressureKpa, rattleS } = inputs;
  if (
    groups.has('pressure_low') ||
    (hotIdlePressureKpa !== null && hotIdlePressureKpa < c['evidence.pressure_minimum_kpa'])
  )
    cautions.push(
      'Stop the engine: oil pressure too low. Verify with a mechanical gauge before running it again.',
    );
  const sensors = groups.has('crank_sensor') || groups.has('cam_sensor');
  const correlation = groups.has('chain_phase') && !sensors;
  const lasting = rattleS !== null && rattleS >= c['evidence.rattle_lasting_s'];
  if ((correlation || lasting) && engine.interference !== false)
    cautions.push(
      engine.interference === true
        ? 'Stop: do not keep driving to confirm on an interference engine. Verify timing by hand, two full turns, before any start.'
        : 'Whether this is an interference engine is not recorded: treat it as one and do not keep driving to confirm.',
    );
  if (groups.has('chain_phase') && sensors)
    cautions.push('A sensor code stands beside the correlation code: sensors and wiring come first.');
  if (inputs.coolantInOil === true)
    cautions.push('Stop: coolant in the oil. Find the source; a change alone hides it.');
  for (const stop of states?.stops ?? []) cautions.push(`Standing on this unit: ${stop}.`);
  cautions.push('One code is not a parts order: level, grade, pressure, wiring and sensors first.');
  return cautions;
}
