import { budgetCheckOf } from '../../models/assessment/budgetCheckOf.ts';
import { fleetListOf } from '../../models/assessment/fleetListOf.ts';
import { fleetMoves } from '../../models/assessment/fleetMoves.ts';
import { fleetSamplesOf, unitSampleLines } from '../../models/assessment/fleetSamples.ts';
import { promiseKeptOf, unitPromiseOf } from '../../models/assessment/promiseKept.ts';
import { activeUnits } from '../../models/assessment/unitViews.ts';
import type { Move } from '../../models/schema/endpoints.ts';
import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import type { ShopInputs } from '../../models/decisions/shop/shopInputs.ts';
import type { Context } from '../context.ts';
import type { AnswerName, FleetAsk } from '../fleetAsk.ts';
import { fleetModels } from '../fleetModels.ts';
import { findKeptResult, keepResult } from '../store/keptResults.ts';
import type { Store } from '../store/openStore.ts';
import { assessmentKey, assessStore, learnedKey, learnedOf } from './assessStore.ts';
import { fleetUnits } from './fleetUnits.ts';
import { fleetOn, questionOf, type Question } from './fleetQuestion.ts';
import { budgetOf, type BudgetRequest } from './moneyCase.ts';
import { pack } from './packed.ts';
import { shopInputsOf } from './planShop.ts';
import { policyOf } from './policyOf.ts';
import { tryPolicy } from './policyTrial.ts';
import { fleetRollups } from './rollups.ts';
import { spendOf } from './spendOf.ts';

/** Days back that the first page compares with. */
export const movesDays = 7;

/** What a plan rests on, as it is kept. */
export type PlanData = Omit<ShopInputs, 'offsetMinutes'> & { readonly offsetMinutes: null };

type Maker = (context: Context, store: Store, ask: FleetAsk, question: Question) => Promise<unknown>;

/** Units whose call or governing limit changed over the last days, with the records that came in between. */
async function movesOf(context: Context, store: Store, days: number, question: Question) {
  const now = await assessStore(context, store);
  const since = isoFromDay(dayFromIso(question.day) - days);
  const before = await assessStore(context, store, since);
  const moves: Move[] = fleetMoves(before, now, fleetOn(store, question), since);
  return { since, asOf: question.day, moves };
}

/** How each question about a fleet is answered, in whichever thread this is. */
const makers: Record<Exclude<AnswerName, 'learned' | 'planInputs'>, Maker> = {
  assessment: (context, store, { asOf, horizonDays }) => assessStore(context, store, asOf, horizonDays),
  list: async (context, store, { asOf, horizonDays }) =>
    fleetListOf(await assessStore(context, store, asOf, horizonDays)),
  moves: (context, store, { more }, question) =>
    movesOf(context, store, Number(more?.days ?? movesDays), question),
  /** how well the shop keeps its own promise */
  promise: async (context, store, { asOf }, { day }) => {
    const { views } = await fleetUnits(context, store, asOf);
    const asOfDay = dayFromIso(day);
    const units = Array.from(views(), (own) => unitPromiseOf(own, asOfDay, context.coefficients));
    return promiseKeptOf(units, asOfDay, context.coefficients);
  },
  /** sums by site, duty and engine family */
  rollups: async (context, store, { asOf, horizonDays }) =>
    fleetRollups(await assessStore(context, store, asOf, horizonDays)),
  /** every sample of units in service against its limits */
  samples: async (context, store, { asOf, horizonDays }) => {
    const { fleet, learned, views } = await fleetUnits(context, store, asOf, horizonDays);
    const { coefficients, condemningLimits } = fleetModels(context.coefficients);
    return fleetSamplesOf(
      Array.from(views(), (own) => unitSampleLines(own, coefficients)).flat(),
      { asOf: fleet.asOf, units: activeUnits(fleet), alarms: learned.alarms },
      condemningLimits,
      coefficients,
    );
  },
  policy: (context, store, { asOf }) => policyOf(context, store, asOf),
  policyTrial: (context, store, { asOf, more }) =>
    tryPolicy(
      context,
      store,
      { duty: String(more?.duty), intervalKm: Number(more?.intervalKm), months: Number(more?.months) },
      asOf,
    ),
  spend: (context, store, { asOf }) => spendOf(context, store, asOf),
  /** a case of a past day beside what happened since */
  budgetCheck: async (context, store, { more }, question) => {
    const said = await budgetOf(context, store, JSON.parse(String(more?.request)) as BudgetRequest);
    return budgetCheckOf(said, fleetOn(store, question).units, question.day);
  },
};

/** The key under which the answer to a question is kept. */
export function answerKey(question: Question, { name, more }: FleetAsk): string {
  if (name === 'assessment') return assessmentKey(question);
  if (name === 'learned') return learnedKey(question);
  return [question.key, name, ...(more === undefined ? [] : [JSON.stringify(more)])].join('|');
}

/** What a plan rests on, but for what is no data. */
async function planInputsOf(context: Context, store: Store, { asOf, more }: FleetAsk): Promise<PlanData> {
  const asked = { from: String(more?.from), weeks: Number(more?.weeks), asOf };
  return { ...(await shopInputsOf(context, store, asked)), offsetMinutes: null };
}

/** The answer as JSON text (`learned`, `planInputs`: packed), worked out in this thread where it is not kept. */
export async function answerHere(context: Context, store: Store, ask: FleetAsk): Promise<string> {
  const question = await questionOf(context, store, ask.asOf, ask.horizonDays);
  const key = answerKey(question, ask);
  const kept = findKeptResult(store, key);
  if (kept !== null) return kept;
  if (ask.name === 'learned') {
    const learned = await learnedOf(context, store, question);
    return findKeptResult(store, key) ?? pack(learned);
  }
  const text =
    ask.name === 'planInputs'
      ? pack(await planInputsOf(context, store, ask))
      : JSON.stringify(await makers[ask.name](context, store, ask, question));
  // the assessment keeps itself
  if (ask.name !== 'assessment') keepResult(store, key, text, context.now());
  return text;
}
