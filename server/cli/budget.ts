import { existsSync, writeFileSync } from 'node:fs';
import type { Paths } from '../config.ts';
import { makeContext } from '../context.ts';
import type { BudgetDocument } from '../../models/schema/budgetDocument.ts';
import { budgetPdf } from '../files/budgetPdf.ts';
import { budgetWorkbook } from '../files/budgetWorkbook.ts';
import { openDemo } from '../services/demoStore.ts';
import { budgetOf, NoSuchUnit, usualDraws, usualSeed } from '../services/moneyCase.ts';
import { printJson, Refusal } from './refusal.ts';

interface BudgetWords {
  readonly amount: number;
  readonly months: number;
  readonly asOf?: string;
  readonly seed?: number;
  readonly mustDo?: readonly string[];
  readonly mustNot?: readonly string[];
  readonly pdf?: string;
  readonly xlsx?: string;
  readonly json: boolean;
}

/** Prints the budget case: what the money buys, what it avoids, what is left alone. */
export async function budget(paths: Paths, options: BudgetWords): Promise<void> {
  if (!existsSync(paths.ownStore))
    throw new Refusal(
      `store: ${paths.ownStore} does not exist; bring records in first with "sumpwise intake FILE…"`,
    );
  const context = makeContext(paths, () => openDemo(paths, () => undefined));
  try {
    const store = await context.own();
    const result = await budgetOf(context, store, {
      amountCents: options.amount,
      months: options.months,
      seed: options.seed ?? usualSeed,
      draws: usualDraws,
      mustDo: options.mustDo ?? [],
      mustNot: options.mustNot ?? [],
      hoursPerYear: null,
      assumed: {},
      ...(options.asOf === undefined ? {} : { asOf: options.asOf }),
    });
    if (result.units === 0)
      throw new Refusal(`store: there are no units in service on ${result.asOf}; nothing to budget for`);
    if (options.pdf !== undefined) writeFileSync(options.pdf, await budgetPdf(result));
    if (options.xlsx !== undefined) writeFileSync(options.xlsx, budgetWorkbook(result));
    if (options.json) printJson(result);
    else say(result);
  } catch (error) {
    if (error instanceof NoSuchUnit) throw new Refusal(error.message);
    throw error;
  } finally {
    await context.close();
  }
}

const money = (cents: number): string => (cents / 100).toFixed(2);
const whole = (value: number): string => String(Number(value.toPrecision(2)));

function say(result: BudgetDocument): void {
  const { failuresAvoided: avoided, failuresWithout: without } = result;
  const lines = [
    `As of ${result.asOf}: ${money(result.amountCents)} ${result.currency} over ${result.months} months`,
    `takes ${money(result.spentCents)} and is expected to avoid about ${whole(avoided.mid)} of ${whole(without.mid)} failures; ${whole(avoided.low)} to ${whole(avoided.high)}`,
    `it loses money in ${Math.round(100 * result.chanceOfLoss)} of 100 futures`,
    ...result.chosen.map(
      (line) => `${line.unitNumber}\t${line.action}\t${line.on}\t${money(line.costCents)}\t${line.words}`,
    ),
    `${result.leftAlone.length} units left alone`,
    ...result.leftAlone
      .filter(({ why }) => why !== 'no_gain')
      .map(({ unitNumber, reason }) => `${unitNumber}\t${reason}`),
    ...result.notes,
    ...result.filledCosts.map(({ words, units }) => `${words} (${units} units)`),
  ];
  process.stdout.write(`${lines.join('\n')}\n`);
}
