import { normalDraws, type Random } from '../numeric/random.ts';
import { rangeOf, type Range } from './range.ts';
import type { SimulatedUnit } from './simulationTypes.ts';

/** How the oil of a unit is changed: the next change and the distance in time from one to the next. */
export interface ChangeRhythm {
  /** days to the next change at the expected use, 0 or more */
  readonly firstDays: number;
  /** days between changes at the expected use, above 0 */
  readonly everyDays: number;
  /** the interval is a distance or hours, so that a busier unit comes sooner; false: a calendar interval */
  readonly byUse: boolean;
}

/** One unit under two rhythms. */
export interface TrialUnit {
  /** how it may fail; null = not known, so only its changes are counted */
  readonly failing: SimulatedUnit | null;
  readonly now: ChangeRhythm;
  readonly then: ChangeRhythm;
  /** life used a day under the trial against now, by parameter draw, above 0; 1 = the same */
  readonly lifeRatio: (draw: number) => number;
  /** one change with labour and downtime, cents, 0 or more */
  readonly changeCents: number;
  /** standard deviation of the logarithm of its own use against the expected */
  readonly useLogSd: number;
}

export interface TrialInputs {
  readonly units: readonly TrialUnit[];
  /** whole, 1 or more */
  readonly months: number;
  readonly draws: number;
  /** discount a month, 0 or more */
  readonly monthlyRate: number;
  /** log-sd of the whole group's use, and of a failure's cost */
  readonly fleetUseLogSd: number;
  readonly failureLogSd: number;
  readonly random: Random;
}

/** One rhythm over the months, with 80 % ranges. */
export interface RhythmOutlook {
  readonly changesPerMonth: Range;
  readonly changeCents: Range;
  readonly failures: Range;
  readonly failureCents: Range;
  /** changes in each month */
  readonly byMonth: readonly Range[];
}

/** A policy tried on the fleet before it is adopted. */
export interface TrialOutlook {
  readonly now: RhythmOutlook;
  readonly then: RhythmOutlook;
  readonly failuresAvoided: Range;
  /** changes and failures together, present value, cents; below 0: the policy costs */
  readonly savingCents: Range;
  readonly chanceOfLoss: number;
}

const daysPerMonth = 365.25 / 12;

/** What one rhythm did in every draw. */
function tally(draws: number, months: number) {
  return {
    changes: new Float64Array(draws),
    changeCents: new Float64Array(draws),
    failures: new Float64Array(draws),
    failureCents: new Float64Array(draws),
    worth: new Float64Array(draws),
    byMonth: Array.from({ length: months }, () => new Float64Array(draws)),
  };
}
type Tally = ReturnType<typeof tally>;

/**
 * Tries a drain interval on the units of a duty against what is kept today. In each draw use, parameters, thresholds and
 * costs are the same for both: changes fall at first/use, first/use + every/use, …; a part fails when its cumulative hazard
 * reaches a unit-exponential threshold, H(t) today and H(ratio·t) under the trial, since its life is used up that much
 * faster or slower. One failure a unit is counted.
 * @param inputs see {@link TrialInputs}; days, cents
 * @returns means with 80 % ranges; a unit changed every 30.4375 days over 12 months from day 0 on → 1 change a month
 * @throws RangeError when draws or months are no whole numbers from 1, or a rhythm is not above 0
 * Source: inversion of the cumulative hazard, common random numbers (Glasserman 2003, chapters 2 and 4).
 */
export function policyTrial(inputs: TrialInputs): TrialOutlook {
  const { units, months, draws, random } = inputs;
  for (const [name, value] of Object.entries({ draws, months }))
    if (!(Number.isInteger(value) && value >= 1))
      throw new RangeError(`${name} must be a whole number from 1, got ${value}`);
  for (const { now, then } of units)
    for (const { firstDays, everyDays } of [now, then])
      if (!(everyDays > 0 && firstDays >= 0 && Number.isFinite(firstDays)))
        throw new RangeError(`a rhythm must be above 0, got ${everyDays} days from ${firstDays} on`);
  const normal = normalDraws(random);
  const [now, then] = [tally(draws, months), tally(draws, months)];
  for (let draw = 0; draw < draws; draw++) {
    const fleetUse = inputs.fleetUseLogSd * normal();
    for (const unit of units) {
      const use = Math.exp(fleetUse + unit.useLogSd * normal());
      const end = Math.min(months, unit.failing?.months ?? months);
      changeOil(now, draw, unit.now, unit.changeCents, use, end, inputs.monthlyRate);
      changeOil(then, draw, unit.then, unit.changeCents, use, end, inputs.monthlyRate);
      if (unit.failing !== null) fail(now, then, draw, unit, unit.failing, use, end, inputs, normal);
    }
  }
  const saving = now.worth.map((cents, draw) => cents - then.worth[draw]!);
  return {
    now: outlook(now, months),
    then: outlook(then, months),
    failuresAvoided: rangeOf(now.failures.map((count, draw) => count - then.failures[draw]!)),
    savingCents: rangeOf(saving),
    chanceOfLoss: saving.reduce((count, cents) => count + (cents < -0.5 ? 1 : 0), 0) / draws,
  };
}

function changeOil(
  into: Tally,
  draw: number,
  { firstDays, everyDays, byUse }: ChangeRhythm,
  cents: number,
  use: number,
  end: number,
  monthlyRate: number,
): void {
  const pace = daysPerMonth * (byUse ? use : 1);
  for (let at = firstDays / pace; at < end; at += everyDays / pace) {
    into.changes[draw]! += 1;
    into.changeCents[draw]! += cents;
    into.worth[draw]! += cents * Math.exp(-monthlyRate * at);
    into.byMonth[Math.floor(at)]![draw]! += 1;
  }
}

function fail(
  now: Tally,
  then: Tally,
  draw: number,
  { lifeRatio }: TrialUnit,
  { risk, failureCents, coveredMonths, coveredCents }: SimulatedUnit,
  use: number,
  end: number,
  { random, monthlyRate, failureLogSd }: TrialInputs,
  normal: () => number,
): void {
  const parameter = draw % risk.draws;
  let first = Infinity;
  for (let part = 0; part < risk.parts; part++)
    first = Math.min(first, risk.monthsTo(part, parameter, -Math.log1p(-random())) / use);
  const factor = Math.exp(failureLogSd * normal() - failureLogSd ** 2 / 2);
  for (const [into, at] of [
    [now, first],
    [then, first / lifeRatio(parameter)],
  ] as const) {
    if (!(at < end)) continue;
    const cents = factor * (at < coveredMonths ? coveredCents : failureCents);
    into.failures[draw]! += 1;
    into.failureCents[draw]! += cents;
    into.worth[draw]! += cents * Math.exp(-monthlyRate * at);
  }
}

function outlook(
  { changes, changeCents, failures, failureCents, byMonth }: Tally,
  months: number,
): RhythmOutlook {
  return {
    changesPerMonth: rangeOf(changes.map((count) => count / months)),
    changeCents: rangeOf(changeCents),
    failures: rangeOf(failures),
    failureCents: rangeOf(failureCents),
    byMonth: byMonth.map(rangeOf),
  };
}
