import { readFileSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { budgetDocument, type BudgetDocument } from '../../models/schema/budgetDocument.ts';
import { policyDocument } from '../../models/schema/policyDocument.ts';
import { read } from '@e965/xlsx';
import { budgetPdf, budgetPdfDefinition } from '../../server/files/budgetPdf.ts';
import { frontierSvg, spendSvg, tornadoSvg } from '../../server/files/budgetPdfCharts.ts';
import { budgetWorkbook } from '../../server/files/budgetWorkbook.ts';
import { pathsOf } from '../../server/config.ts';
import { makeContext, type Context } from '../../server/context.ts';
import { runCommand } from '../../server/cli/command.ts';
import { openDemo } from '../../server/services/demoStore.ts';
import { budgetKey, budgetOf, keptBudget, type BudgetRequest } from '../../server/services/moneyCase.ts';
import { takeIn } from '../../server/services/takeIn.ts';
import { ownFleet, writeFiles } from './ownFleet.ts';
import { temporaryPaths } from './running.ts';

const paths = temporaryPaths();
const files = writeFiles(ownFleet);
let context: Context;
beforeAll(async () => {
  await takeIn(paths.ownStore, files, { dryRun: false, by: 'test', today: '2024-06-01' });
  context = makeContext(paths, () => openDemo(paths, () => undefined));
});
afterAll(async () => {
  await context.close();
  paths.remove();
  rmSync(dirname(files[0].path), { recursive: true, force: true });
});

const question: BudgetRequest = {
  amountCents: 2_000_000,
  months: 24,
  seed: 1,
  draws: 500,
  mustDo: [],
  mustNot: [],
  hoursPerYear: null,
  assumed: {},
  asOf: '2024-06-01',
};
const ask = async (over: Partial<BudgetRequest> = {}): Promise<BudgetDocument> =>
  budgetOf(context, await context.own(), { ...question, ...over });

describe('the budget of a store', () => {
  test('agrees with its schema, accounts for every unit and spends no more than there is', async () => {
    const result = await ask();
    expect(budgetDocument.safeParse(result).error).toBeUndefined();
    expect(result.units).toBe(10);
    expect(result.chosen.length + result.leftAlone.length).toBe(10);
    expect(result.spentCents).toBe(result.chosen.reduce((sum, line) => sum + line.costCents, 0));
    expect(result.spentCents).toBeLessThanOrEqual(2_000_000);
    expect(result.leftAlone.every(({ reason }) => reason !== '')).toBe(true);
    expect(result).toMatchObject({ asOf: '2024-06-01', currency: 'USD', seed: 1, draws: 500 });
  });
  test('a renewal costs parts and labour to the cent; what is filled in is said', async () => {
    const result = await ask({ mustDo: ['b2', 'D1'] });
    const cost = (unit: string) => result.chosen.find(({ unitNumber }) => unitNumber === unit)?.costCents;
    // Holm 35: parts 1 500.00 and 14 h at the assumed 120.00; D1 has no engine: 900.00 and 9 h at 120.00
    expect(cost('B2')).toBe(150_000 + 14 * 12_000);
    expect(cost('D1')).toBe(90_000 + 9 * 12_000);
    const filled = result.filledCosts.map(({ words, units }) => `${words}: ${units}`);
    expect(filled).toContain('labour at 120.00 USD an hour assumed: 10');
    expect(filled).toContain('parts of 900.00 USD assumed: 1');
  });
  test('factors move costs, and what was changed is marked', async () => {
    const result = await ask({ mustDo: ['B2'], assumed: { plannedFactor: 1.5, discountRate: -0.1 } });
    expect(result.chosen.find(({ unitNumber }) => unitNumber === 'B2')?.costCents).toBe(477_000);
    expect(result.assumptions.filter(({ changed }) => changed).map(({ name }) => name)).toEqual([
      'discountRate',
      'plannedFactor',
    ]);
    expect(result.notes).toContain('a discount rate below 0 (-0.1) is taken as 0');
  });
  test('a budget of 0, a list of units to leave alone, and a unit that is not there', async () => {
    const none = await ask({ amountCents: 0 });
    expect(none.chosen).toEqual([]);
    expect(none.chanceOfLoss).toBe(0);
    const without = await ask({ mustNot: ['B2'] });
    expect(without.leftAlone.find(({ unitNumber }) => unitNumber === 'B2')).toMatchObject({ why: 'listed' });
    await expect(ask({ mustDo: ['Z9'] })).rejects.toThrow('mustDo: there is no unit Z9 in service');
  });
  test('looking first and cleaning are options, each with what it leads to and its own cost', async () => {
    const look = await ask({ mustDo: ['B2:look'], mustNot: ['B1:renew'] });
    const line = look.chosen.find(({ unitNumber }) => unitNumber === 'B2')!;
    expect(line.action).toBe('look');
    expect(line.words).toMatch(/ first; .+ \(about .+ in \d+\): (run on|clean|renew), /);
    const clean = await ask({ mustDo: ['B2: clean'] });
    // 1 h at the assumed 120.00 and 20.00 of cleaner
    expect(clean.chosen.find(({ unitNumber }) => unitNumber === 'B2')).toMatchObject({
      action: 'clean',
      costCents: 14_000,
    });
    const dearer = await ask({ assumed: { wornTimes: 60 } });
    expect(dearer.assumptions.find(({ name }) => name === 'wornTimes')).toMatchObject({
      value: 60,
      changed: true,
    });
  });
  test('the answer is kept in the store, and a list that names nobody is kept as refused', async () => {
    const store = await context.own();
    const request = { ...question, amountCents: 1_234_500 };
    const document = await ask(request);
    expect(keptBudget(store, await budgetKey(context, store, request))).toEqual({ document });
    const wrong = { ...question, mustDo: ['Z9:look'] };
    await expect(ask(wrong)).rejects.toThrow('mustDo: there is no unit Z9 in service');
    expect(keptBudget(store, await budgetKey(context, store, wrong))).toMatchObject({
      refused: expect.stringContaining('Z9') as string,
    });
  });
  test('planned work dearer than the failure is left alone with the reason', async () => {
    const result = await ask({ assumed: { plannedFactor: 20 } });
    expect(result.chosen.filter(({ action }) => action === 'renew')).toEqual([]);
    expect(result.leftAlone.some(({ reason }) => reason.includes('renewing early can not pay'))).toBe(true);
  });
});

describe('report and workbook', () => {
  test('the report is a PDF of some pages with its charts', async () => {
    const data = await ask({ mustDo: ['B2'] });
    const bytes = await budgetPdf(data);
    expect(bytes.subarray(0, 5).toString()).toBe('%PDF-');
    expect(bytes.length).toBeGreaterThan(10_000);
    const text = JSON.stringify(budgetPdfDefinition(data));
    expect(text).toContain('What the money buys');
    expect(text).toContain('B2');
    expect(text).not.toContain('NaN');
    for (const draw of [frontierSvg, spendSvg, tornadoSvg]) expect(draw(data)).not.toMatch(/NaN|Infinity/);
    expect((await budgetPdf(await ask({ amountCents: 0 }))).length).toBeGreaterThan(5000);
  });
  test('the workbook recomputes from its inputs, and text stays text', async () => {
    const data = await ask({ mustDo: ['B2'] });
    const [line] = data.chosen;
    const evil = { ...data, chosen: [{ ...line, unitNumber: '=1+1' }] };
    const book = read(budgetWorkbook(evil), { cellFormula: true });
    expect(book.SheetNames).toEqual(['Inputs', 'Plan', 'Months', 'Budgets', 'Left alone', 'About']);
    const plan = book.Sheets.Plan;
    expect(plan.A4).toMatchObject({ t: 's', v: '=1+1' });
    expect(plan.A4.f).toBeUndefined();
    expect(plan.F4).toMatchObject({ f: '(D4+E4)*Inputs!$B$6', v: line.costCents / 100 });
    expect(plan.D4.v + plan.E4.v).toBeCloseTo(plan.F4.v, 9);
    expect(plan.J4.f).toBe('H4-F4-I4');
    expect(plan.H4.v - plan.F4.v - plan.I4.v).toBeCloseTo(plan.J4.v, 9);
    expect(book.Sheets.Inputs.B4.v).toBe(20_000);
  });
});

describe('the verb', () => {
  const run = async (...words: string[]) => {
    const written: string[] = [];
    const { stdout, stderr } = process;
    const [out, err] = [stdout.write.bind(stdout), stderr.write.bind(stderr)];
    const keep = (text: unknown): boolean => written.push(String(text)) > 0;
    Object.assign(stdout, { write: keep });
    Object.assign(stderr, { write: keep });
    try {
      const status = await runCommand(words, () => paths);
      return { status, text: written.join('') };
    } finally {
      Object.assign(stdout, { write: out });
      Object.assign(stderr, { write: err });
    }
  };
  test('prints one JSON document', async () => {
    const { status, text } = await run(
      ...'budget --amount 20000 --months 24 --as-of 2024-06-01 --json --pdf'.split(' '),
      join(dirname(files[0].path), 'case.pdf'),
    );
    expect(status).toBe(0);
    expect(
      readFileSync(join(dirname(files[0].path), 'case.pdf'))
        .subarray(0, 4)
        .toString(),
    ).toBe('%PDF');
    expect(budgetDocument.parse(JSON.parse(text))).toMatchObject({ amountCents: 2_000_000, months: 24 });
  });
  test.each([
    ['--amount 20,000 --months 24', 2, 'must be plain decimal money like 20000 or 1250.50, got 20,000'],
    ['--amount -5 --months 24', 2, 'got -5'],
    ['--amount 20000 --months 61', 2, 'must be a whole number from 1 to 60, got 61'],
    ['--months 24', 2, '--amount'],
    ['--amount 20000 --months 24 --must-do Z9', 1, 'mustDo: there is no unit Z9'],
  ])('refuses %s', async (words, wanted, said) => {
    const { status, text } = await run('budget', ...words.split(' '), '--as-of', '2024-06-01');
    expect(status).toBe(wanted);
    expect(text).toContain(said);
  });
  test('policy prints a duty group, and refuses one that is not there', async () => {
    const { status, text } = await run(...'policy --duty PATROL --as-of 2024-06-01 --json'.split(' '));
    expect(status, text).toBe(0);
    const { duties } = policyDocument.parse(JSON.parse(text));
    expect(duties.map(({ duty }) => duty)).toEqual(['patrol']);
    const [patrol] = duties;
    expect(patrol.bookIntervalKm).toBeGreaterThan(0);
    expect(patrol.recommendedIntervalKm).toBeLessThanOrEqual(patrol.bookIntervalKm!);
    expect(patrol.flatFromKm).toBeLessThanOrEqual(patrol.bestIntervalKm);
    expect(patrol.flatToKm).toBeGreaterThanOrEqual(patrol.bestIntervalKm);
    expect(patrol.centsPer1000Km.best).toBeLessThanOrEqual(patrol.centsPer1000Km.current!);
    const refused = await run(...'policy --duty moonlight --as-of 2024-06-01'.split(' '));
    expect(refused).toMatchObject({ status: 1 });
    expect(refused.text).toContain('there is no duty group moonlight; there are: highway');
  });
  test('a store that is not there is refused in one line', async () => {
    const missing = {
      ...pathsOf('/nowhere', '/nowhere'),
      ownStore: join(dirname(files[0].path), 'no.sqlite'),
    };
    expect(await runCommand(['budget', '--amount', '1', '--months', '1'], () => missing)).toBe(1);
  });
});
