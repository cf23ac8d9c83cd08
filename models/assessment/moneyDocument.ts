import { budgetCase } from '../decisions/budgetCase.ts';
import type { BudgetCase } from '../decisions/budgetTypes.ts';
import type { MilpSolver } from '../decisions/milpSolver.ts';
import type { MoneyUnit } from '../decisions/moneyUnit.ts';
import { seededRandom } from '../numeric/random.ts';
import type { UnitRecommendation } from '../decisions/unitRecommendation.ts';
import type {
  BudgetAssumptions,
  BudgetDocument,
  BudgetLineShown,
  LeftUnit,
} from '../schema/budgetDocument.ts';
import type { Coefficient, Coefficients } from '../schema/coefficient.ts';
import { dayFromIso, isoFromDay } from '../schema/day.ts';
import type { ListedUnit } from './listedUnits.ts';
import { assumedCoefficients, usedAssumptions, withFactors } from './moneyAssumptions.ts';

/** What is asked. */
export interface BudgetQuestion {
  readonly amountCents: number;
  readonly months: number;
  readonly seed: number;
  /** simulated futures, 100 or more */
  readonly draws: number;
  /** a unit without an action is to be renewed */
  readonly mustDo: readonly ListedUnit[];
  /** a unit without an action is to be left alone */
  readonly mustNot: readonly ListedUnit[];
  /** shop hours a year for this work; null = no limit */
  readonly hoursPerYear: number | null;
  readonly assumed: BudgetAssumptions;
}

/** What of a unit is told beside its money. */
export interface UnitFacts {
  readonly site: string | null;
  readonly ownDataShare: number | null;
  /** records that a claim would rest on, in words */
  readonly claimEvidence: readonly string[];
}

/** What of the fleet and its records the case is made from. */
export interface FleetFacts {
  readonly asOf: string;
  readonly currency: string;
  readonly modelVersion: string;
  readonly records: number;
  readonly newestRecordOn: string | null;
  readonly ownDataShare: number;
  readonly ownFailures: number;
  readonly units: ReadonlyMap<string, UnitFacts>;
}

/** Steps of the curve of money against avoided failures. */
const curveSteps = 8;

/**
 * The budget case of a fleet as a document: what the money buys, what it is expected to avoid, what is left alone and why,
 * and all that it rests on.
 * @param progress told how many of four steps are done
 * @returns the document; the same question and seed give the same document
 * @throws RangeError as {@link budgetCase}
 */
export function budgetDocumentOf(
  units: readonly MoneyUnit[],
  facts: FleetFacts,
  question: BudgetQuestion,
  solver: MilpSolver,
  coefficients: Coefficients,
  catalog: readonly Coefficient[],
  progress?: (done: number) => void,
): BudgetDocument {
  const { amountCents, months, seed, draws, assumed } = question;
  const years = Math.ceil(months / 12);
  const factored = units.map((unit) => withFactors(unit, assumed));
  const result = budgetCase({
    asOfDay: dayFromIso(facts.asOf),
    amountCents,
    currency: facts.currency,
    months,
    units: factored,
    mustDo: question.mustDo.map(({ unitNumber, action }) => ({ unitNumber, action: action ?? 'renew' })),
    mustNot: question.mustNot,
    ...(question.hoursPerYear === null
      ? {}
      : { hoursByYear: new Array<number>(years).fill(question.hoursPerYear) }),
    coefficients: assumedCoefficients(coefficients, assumed),
    solver,
    random: seededRandom(seed),
    draws,
    curveSteps,
    ...(progress === undefined ? {} : { progress }),
  });
  const byNumber = new Map(result.recommendations.map((entry) => [entry.unitNumber, entry]));
  const disposal = new Map(units.map((unit) => [unit.unitNumber, unit.disposalDay]));
  const disposalOf = (unitNumber: string): string | null => {
    const day = disposal.get(unitNumber) ?? null;
    return day === null ? null : isoFromDay(day);
  };
  const family = new Map(units.map((unit) => [unit.unitNumber, unit.family]));
  return {
    amountCents,
    months,
    gap: result.gap,
    greedyLossCents: result.greedyLossCents,
    chosen: inOrder(result.chosen).map((line): BudgetLineShown => {
      const own = facts.units.get(line.unitNumber);
      return {
        unitNumber: line.unitNumber,
        action: line.action,
        on: line.on,
        costCents: line.costCents,
        partsCents: line.costCents - line.labourCents,
        labourCents: line.labourCents,
        downtimeCents: line.downtimeCents,
        avoidedCents: line.avoidedCents,
        words: line.words,
        netCents: line.netCents,
        waitingMonthCents: line.waitingMonthCents,
        site: own?.site ?? null,
        engineFamily: family.get(line.unitNumber) ?? null,
        plannedDisposalOn: disposalOf(line.unitNumber),
        failureProbability: byNumber.get(line.unitNumber)?.judged?.failureProbability ?? null,
        ownDataShare: own?.ownDataShare ?? null,
      };
    }),
    leftAlone: result.leftAlone.map(({ unitNumber, reason }): LeftUnit => {
      const entry = byNumber.get(unitNumber)!;
      return {
        unitNumber,
        reason,
        why: whyLeft(entry, disposal.get(unitNumber) ?? null, question, facts, coefficients),
        plannedDisposalOn: disposalOf(unitNumber),
        claimByOn: entry.claimByOn,
      };
    }),
    failuresAvoided: result.failuresAvoided,
    unplannedCents: result.unplannedCents,
    chanceOfLoss: result.chanceOfLoss,
    valueOfNextThousandCents: result.valueOfNextThousandCents,
    valueOfLastThousandCents: result.valueOfLastThousandCents,
    nextThousandCents: result.nextThousandCents,
    lastThousandCents: result.lastThousandCents,
    asOf: facts.asOf,
    currency: facts.currency,
    modelVersion: facts.modelVersion,
    seed,
    draws,
    units: units.length,
    records: facts.records,
    newestRecordOn: facts.newestRecordOn,
    spentCents: result.spentCents,
    worthwhileCents: result.worthwhileCents,
    failuresWithout: result.failuresWithout,
    failuresWith: result.failuresWith,
    unplannedWithoutCents: result.unplannedWithoutCents,
    savingCents: result.savingCents,
    waitingMonthCents: result.waitingMonthCents,
    byMonth: result.byMonth.map((month, index) => ({
      ...month,
      unplannedWithoutCents: result.byMonthWithout[index]!.unplannedCents,
    })),
    levels: [...result.levels],
    tornado: [...result.tornado],
    assumptions: [...usedAssumptions(assumed, catalog)],
    filledCosts: [...result.assumptions],
    covered: coveredUnits(result, facts),
    notes: [...result.notes],
    ownDataShare: facts.ownDataShare,
    ownFailures: facts.ownFailures,
    basis:
      facts.ownFailures < 0.5
        ? 'no timing failure of this fleet is on record yet: the chances rest on prior experience and on the time its units survived'
        : `the chances rest on prior experience and on this fleet's own ${Number(facts.ownFailures.toPrecision(2))} timing failures`,
  };
}

const actionOrder = ['renew', 'clean', 'look'] as const;

/** Renewals first, then cleanings and looks; what saves most leads. */
function inOrder(lines: BudgetCase['chosen']): BudgetCase['chosen'] {
  return lines.toSorted(
    (a, b) =>
      actionOrder.indexOf(a.action) - actionOrder.indexOf(b.action) ||
      b.netCents - a.netCents ||
      (a.unitNumber < b.unitNumber ? -1 : 1),
  );
}

function whyLeft(
  entry: UnitRecommendation,
  disposalDay: number | null,
  { mustNot }: BudgetQuestion,
  { asOf }: FleetFacts,
  coefficients: Coefficients,
): LeftUnit['why'] {
  const listed = mustNot.filter(({ unitNumber }) => unitNumber === entry.unitNumber);
  if (listed.some(({ action }) => action === undefined || action === entry.action)) return 'listed';
  if (entry.cover.covered) return 'covered';
  if (entry.action !== 'run') return 'elsewhere';
  const days = disposalDay === null ? Infinity : disposalDay - dayFromIso(asOf);
  if (days <= coefficients['money.soon_disposed_months']! * (365.25 / 12)) return 'soon_gone';
  return entry.risk === null ? 'not_known' : 'no_gain';
}

function coveredUnits({ recommendations }: BudgetCase, { units }: FleetFacts): BudgetDocument['covered'] {
  return recommendations
    .filter(({ cover }) => cover.covered)
    .map(({ unitNumber, claimByOn, reasons }) => ({
      unitNumber,
      claimByOn,
      reasons: [...reasons],
      evidence: [...(units.get(unitNumber)?.claimEvidence ?? [])],
    }))
    .sort((a, b) => ((a.claimByOn ?? '9999') < (b.claimByOn ?? '9999') ? -1 : 1));
}
