import { claimEvidence } from '../../models/assessment/claimEvidence.ts';
import { listedUnit, type ListedUnit } from '../../models/assessment/listedUnits.ts';
import {
  budgetDocumentOf,
  type BudgetQuestion,
  type FleetFacts,
  type UnitFacts,
} from '../../models/assessment/moneyDocument.ts';
import { evenDeviates, type MoneySetting } from '../../models/assessment/moneyUnitOf.ts';
import { moneyUnitWithStates } from '../../models/assessment/moneyUnitWithStates.ts';
import { activeUnits } from '../../models/assessment/unitViews.ts';
import type { MoneyUnit } from '../../models/decisions/moneyUnit.ts';
import { seededRandom } from '../../models/numeric/random.ts';
import type { BudgetDocument } from '../../models/schema/budgetDocument.ts';
import type { Context } from '../context.ts';
import { countRecords } from '../store/counts.ts';
import { newestRecordOn } from '../store/flatRecords.ts';
import { findKeptResult, keepResult } from '../store/keptResults.ts';
import type { Store } from '../store/openStore.ts';
import { revisionOf } from '../store/settings.ts';
import { fleetUnits } from './fleetUnits.ts';
import { moneySolver } from './moneySolver.ts';

/** Parameter draws a unit's chances are spread over. */
const parameterDraws = 64;
/** Seed of the simulated futures where none is asked for. */
export const usualSeed = 20_260_331;
/** Simulated futures where no number is asked for. */
export const usualDraws = 10_000;
/** Steps of a case, for whoever waits: the fleet, the units, the choice, the curve, the futures. */
export const budgetSteps = 5;

/** A question as it is asked: lists as they were typed. */
export interface BudgetRequest extends Omit<BudgetQuestion, 'mustDo' | 'mustNot'> {
  readonly mustDo: readonly string[];
  readonly mustNot: readonly string[];
  readonly asOf?: string;
}

/** The answer to a question, or why it can't be answered. */
export type BudgetAnswer = { readonly document: BudgetDocument } | { readonly refused: string };

/** A question that names a unit which is not there. */
export class NoSuchUnit extends Error {}

/** The key under which the answer to a question holds: store, revision, day, question, and the build that answers. */
export async function budgetKey(context: Context, store: Store, request: BudgetRequest): Promise<string> {
  const asOf = request.asOf ?? (await context.asOf(store));
  const question = JSON.stringify({ ...request, asOf });
  return ['budget', store.file, await revisionOf(store), context.paths.web, question].join('|');
}

/** An answer that was worked out before, or null. */
export function keptBudget(store: Store, key: string): BudgetAnswer | null {
  const kept = findKeptResult(store, key);
  return kept === null ? null : (JSON.parse(kept) as BudgetAnswer);
}

/**
 * Works out the budget case of a store and keeps it until records, rules or program change.
 * @param progress told after each step how many of {@link budgetSteps} are done
 */
export async function budgetAnswer(
  context: Context,
  store: Store,
  request: BudgetRequest,
  progress: (done: number, total: number) => void = () => undefined,
): Promise<BudgetAnswer> {
  const key = await budgetKey(context, store, request);
  const known = keptBudget(store, key);
  if (known !== null) return known;
  let answer: BudgetAnswer;
  try {
    answer = { document: await workBudget(context, store, request, progress) };
  } catch (error) {
    if (!(error instanceof NoSuchUnit)) throw error;
    answer = { refused: error.message };
  }
  keepResult(store, key, JSON.stringify(answer), context.now());
  return answer;
}

/**
 * The budget case of a store.
 * @throws NoSuchUnit when a list names a unit that is not in service
 */
export async function budgetOf(
  context: Context,
  store: Store,
  request: BudgetRequest,
): Promise<BudgetDocument> {
  const answer = await budgetAnswer(context, store, request);
  if ('refused' in answer) throw new NoSuchUnit(answer.refused);
  return answer.document;
}

async function workBudget(
  context: Context,
  store: Store,
  request: BudgetRequest,
  progress: (done: number, total: number) => void,
): Promise<BudgetDocument> {
  const day = request.asOf ?? (await context.asOf(store));
  const { fleet, learned, views } = await fleetUnits(context, store, day);
  progress(1, budgetSteps);
  const { coefficients, catalog } = context;
  const byNumber = new Map(
    activeUnits(fleet).map(({ unit: { unitNumber } }) => [unitNumber.toLowerCase(), unitNumber]),
  );
  const named = (list: readonly string[], field: string): ListedUnit[] =>
    list.map((text) => {
      const whole = byNumber.get(text.trim().toLowerCase());
      if (whole !== undefined) return { unitNumber: whole };
      const listed = listedUnit(text);
      const unitNumber = byNumber.get(listed.unitNumber.toLowerCase());
      if (unitNumber === undefined)
        throw new NoSuchUnit(`${field}: there is no unit ${listed.unitNumber} in service on ${day}`);
      return { ...listed, unitNumber };
    });
  const setting: MoneySetting = {
    horizonDays: learned.horizonDays,
    shape: learned.shape,
    fleetDeviates: evenDeviates(parameterDraws),
    fleetShare: coefficients['money.fleet_share_of_doubt'],
    random: seededRandom(request.seed),
  };
  const units: MoneyUnit[] = [];
  const told = new Map<string, UnitFacts>();
  for (const own of views()) {
    const { history, failure } = own;
    units.push(moneyUnitWithStates(own, setting, coefficients));
    told.set(history.unit.unitNumber, {
      site: history.unit.site,
      ownDataShare: failure?.ownDataShare ?? null,
      claimEvidence: claimEvidence(history),
    });
  }
  const facts: FleetFacts = {
    asOf: day,
    currency: fleet.settings.currency,
    modelVersion: learned.modelVersion,
    records: countRecords(store).records,
    newestRecordOn: newestRecordOn(store, day),
    ownDataShare: learned.ownDataShare,
    ownFailures: learned.ownFailures,
    units: told,
  };
  return budgetDocumentOf(
    units,
    facts,
    { ...request, mustDo: named(request.mustDo, 'mustDo'), mustNot: named(request.mustNot, 'mustNot') },
    await moneySolver(),
    coefficients,
    catalog.flatMap((file) => file.coefficients),
    (done) => progress(1 + done, budgetSteps),
  );
}
