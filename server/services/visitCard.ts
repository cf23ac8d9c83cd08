import { banksOf } from '../../models/cards/banksOf.ts';
import { jobCard } from '../../models/cards/jobCard.ts';
import { cardStepFile, type CardStepFile, type JobCard } from '../../models/schema/jobCard.ts';
import type { ShopJob } from '../../models/schema/shopPlan.ts';
import catalog from '../../data/catalog/job-card-steps.json';
import type { Context } from '../context.ts';
import type { Store } from '../store/openStore.ts';
import { stockOfSite } from '../store/stockShelf.ts';
import { unitNow } from './unitNow.ts';

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

/** The job card of a unit, or null when there is no such unit in service. */
export async function visitCard(
  context: Context,
  store: Store,
  request: CardRequest,
): Promise<JobCard | null> {
  const own = await unitNow(context, store, request.unitNumber);
  if (own === null) return null;
  const { history } = own.view;
  const { unit, engine } = history;
  const site = request.site ?? unit.site;
  const asOf = await context.asOf(store);
  return jobCard(
    {
      unit: { ...unit, site },
      engine,
      banks: banksOf(history),
      jobs: request.jobs,
      asOf,
      judged: own.assessment,
      stock: stockOfSite(store, site, asOf),
      plannedHours: request.plannedHours,
    },
    cardCatalog(),
  );
}
