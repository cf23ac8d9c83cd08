import { claimEvidence } from '../../models/assessment/claimEvidence.ts';
import {
  budgetDocumentOf,
  type BudgetQuestion,
  type FleetFacts,
} from '../../models/assessment/moneyDocument.ts';
import { evenDeviates, moneyUnitOf, type MoneySetting } from '../../models/assessment/moneyUnitOf.ts';
import { seededRandom } from '../../models/decisions/random.ts';
import type { BudgetDocument } from '../../models/schema/budgetDocument.ts';
import type { Context } from '../context.ts';
import { countRecords } from '../store/counts.ts';
import { newestRecordOn } from '../store/flatRecords.ts';
import type { Store } from '../store/openStore.ts';
import { revisionOf } from '../store/settings.ts';
import { workFleet } from './assessStore.ts';
import { moneySolver } from './moneySolver.ts';

/** Parameter draws a unit's chances are spread over. */
const parameterDraws = 64;
/** Seed of the simulated futures where none is asked for. */
export const usualSeed = 20_260_331;
/** Simulated futures where no number is asked for. */
export const usualDraws = 10_000;

/** A question that names a unit which is not there. */
export class NoSuchUnit extends Error {}

const kept = new Map<string, BudgetDocument>();
const mostKept = 12;

/**
 * The budget case of a store. The same question on the same records is answered from memory.
 * @throws NoSuchUnit when a list names a unit that is not in service
 */
export async function budgetOf(
  context: Context,
  store: Store,
  question: BudgetQuestion,
  asOf?: string,
): Promise<BudgetDocument> {
  const day = asOf ?? (await context.asOf(store));
  const key = [store.file, await revisionOf(store), day, context.paths.web, JSON.stringify(question)].join(
    '|',
  );
  const known = kept.get(key);
  if (known !== undefined) return known;
  const { fleet, view } = await workFleet(context, store, day);
  const { coefficients, catalog } = context;
  const byNumber = new Map(
    [...view.views.keys()].map((unitNumber) => [unitNumber.toLowerCase(), unitNumber]),
  );
  const named = (list: readonly string[], field: string): string[] =>
    list.map((text) => {
      const unitNumber = byNumber.get(text.trim().toLowerCase());
      if (unitNumber === undefined)
        throw new NoSuchUnit(`${field}: there is no unit ${text.trim()} in service on ${day}`);
      return unitNumber;
    });
  const setting: MoneySetting = {
    horizonDays: view.assessment.horizonDays,
    shape: view.fit.shape.value,
    fleetDeviates: evenDeviates(parameterDraws),
    fleetShare: coefficients['money.fleet_share_of_doubt'],
    random: seededRandom(question.seed),
  };
  const facts: FleetFacts = {
    asOf: day,
    currency: fleet.settings.currency,
    modelVersion: view.assessment.modelVersion,
    records: countRecords(store).records,
    newestRecordOn: newestRecordOn(store, day),
    ownDataShare: view.fit.ownDataShare,
    ownFailures: view.fit.failures,
    units: new Map(
      [...view.views].map(([unitNumber, { history, failure }]) => [
        unitNumber,
        {
          site: history.unit.site,
          ownDataShare: failure?.ownDataShare ?? null,
          claimEvidence: claimEvidence(history),
        },
      ]),
    ),
  };
  const result = budgetDocumentOf(
    [...view.views.values()].map((own) => moneyUnitOf(own, setting)),
    facts,
    {
      ...question,
      mustDo: named(question.mustDo, 'mustDo'),
      mustNot: named(question.mustNot, 'mustNot'),
    },
    await moneySolver(),
    coefficients,
    catalog.flatMap((file) => file.coefficients),
  );
  kept.set(key, result);
  if (kept.size > mostKept) kept.delete([...kept.keys()][0]);
  return result;
}
