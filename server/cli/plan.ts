import { existsSync, writeFileSync } from 'node:fs';
import type { ShopPlan } from '../../models/schema/shopPlan.ts';
import type { Paths } from '../config.ts';
import { makeContext, type Context } from '../context.ts';
import { calendarText } from '../files/calendarFile.ts';
import { planCsv } from '../files/planCsv.ts';
import { openDemo } from '../services/demoStore.ts';
import { standOf } from '../services/planBook.ts';
import { planStore } from '../services/planShop.ts';
import type { Store } from '../store/openStore.ts';
import { printJson, Refusal } from './refusal.ts';

interface PlanWords {
  readonly from: string;
  readonly weeks: number;
  readonly asOf?: string;
  readonly ics?: string;
  readonly csv?: string;
  readonly json: boolean;
}

/** Prints the shop plan: visits with bay, person and time, and what has no place. */
export async function plan(paths: Paths, options: PlanWords): Promise<void> {
  if (!existsSync(paths.ownStore))
    throw new Refusal(
      `store: ${paths.ownStore} does not exist; bring records in first with "sumpwise intake FILE…"`,
    );
  const context = makeContext(paths, () => openDemo(paths, () => undefined));
  try {
    const store = await context.own();
    const result = await planAsked(context, store, options);
    if (options.ics !== undefined) writeFileSync(options.ics, calendarText(result, context.now()));
    if (options.csv !== undefined) writeFileSync(options.csv, planCsv(result));
    if (options.json) printJson(result);
    else say(result);
  } finally {
    await context.close();
  }
}

/** The plan as the page shows it; as of another day, what was known then alone. */
async function planAsked(
  context: Context,
  store: Store,
  { from, weeks, asOf }: Pick<PlanWords, 'from' | 'weeks' | 'asOf'>,
): Promise<ShopPlan> {
  if (asOf === undefined || asOf === (await context.asOf(store)))
    return (await standOf(context, store, { from, weeks })).plan;
  const plan = await planStore(context, store, { from, weeks, asOf });
  const left = `as of ${asOf}: visits that are booked, asked for or locked today are left out`;
  return { ...plan, messages: [...plan.messages, left] };
}

const money = (cents: number): string => (cents / 100).toFixed(2);

function say(result: ShopPlan): void {
  const lines = [
    `${result.weeks} weeks from ${result.from}: ${result.visits.length} visits, ${result.notPlaced.length} jobs without a place`,
    `expected cost ${money(result.objectiveCents)}, no plan costs less than ${money(result.boundCents)}; ${money(result.idealCents)} with unlimited bays and people (gap ${(100 * result.gap).toFixed(1)} %)`,
    ...result.visits.map((visit) =>
      [
        visit.startsAt,
        visit.site,
        visit.bay ?? visit.outsideShop,
        visit.technician,
        visit.unitNumber,
        visit.jobs.join(' '),
      ].join('\t'),
    ),
    ...result.notPlaced.map(
      (job) => `${job.unitNumber}\t${job.job}\tno place: ${job.reason}\t${money(job.costCents)}`,
    ),
    ...result.messages,
  ];
  process.stdout.write(`${lines.join('\n')}\n`);
}
