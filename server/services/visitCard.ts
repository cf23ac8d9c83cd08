import { banksOf } from '../../models/cards/banksOf.ts';
import { jobCard } from '../../models/cards/jobCard.ts';
import { cardStepFile, type CardStepFile, type JobCard } from '../../models/schema/jobCard.ts';
import type { UnitAssessment } from '../../models/schema/assessment.ts';
import type { ShopJob } from '../../models/schema/shopPlan.ts';
import catalog from '../../data/catalog/job-card-steps.json';
import type { Context } from '../context.ts';
import type { Store } from '../store/openStore.ts';
import { stockOfSite } from '../store/stockShelf.ts';
import { assessStore, unitViewOf } from './assessStore.ts';

let steps: CardStepFile | null = null;

/** The catalog of steps, checked once. */
function cardCatalog(): CardStepFile {
  steps ??= cardStepFile.parse(catalog);
  return steps;
}

/** What a card is asked for. */
export interface CardRequest {
  readonly unitNumber: string;
  readonly jobs: readonly ShopJob[];
  /** where the work is done; null = the unit's site */
  readonly site: string | null;
  readonly plannedHours: number | null;
}

/** What was said of one unit in the assessment of the store's day, or null when it is not in service. */
export async function judgedUnit(
  context: Context,
  store: Store,
  unitNumber: string,
): Promise<UnitAssessment | null> {
  const wanted = unitNumber.toLowerCase();
  const { units } = await assessStore(context, store);
  return units.find((unit) => unit.unitNumber.toLowerCase() === wanted) ?? null;
}

/** The job card of a unit, or null when there is no such unit in service. */
export async function visitCard(
  context: Context,
  store: Store,
  request: CardRequest,
): Promise<JobCard | null> {
  const view = await unitViewOf(context, store, request.unitNumber);
  if (view === null) return null;
  const { unit, engine } = view.history;
  const site = request.site ?? unit.site;
  const asOf = await context.asOf(store);
  return jobCard(
    {
      unit: { ...unit, site },
      engine,
      banks: banksOf(view.history),
      jobs: request.jobs,
      asOf,
      judged: await judgedUnit(context, store, unit.unitNumber),
      stock: stockOfSite(store, site, asOf),
      plannedHours: request.plannedHours,
    },
    cardCatalog(),
  );
}
