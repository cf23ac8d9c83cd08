import loadHighs from 'highs';
import { budgetDocumentOf } from '../../models/assessment/moneyDocument.ts';
import { budgetPdf } from '../../server/files/budgetPdf.ts';
import { budgetWorkbook } from '../../server/files/budgetWorkbook.ts';
import { coefficients, decisionCatalog } from '../models/decisions/catalog.ts';
import { wornFleet } from '../models/decisions/moneyFixture.ts';
import type { Figure } from './figure.ts';

/** Median seconds of three runs; the first, which loads the library, is left out. */
async function seconds(work: () => Promise<unknown> | Buffer): Promise<number> {
  const times: number[] = [];
  for (let turn = 0; turn < 4; turn += 1) {
    const begun = performance.now();
    await work();
    times.push((performance.now() - begun) / 1000);
  }
  return times.slice(1).sort((a, b) => a - b)[1];
}

/** The report and the workbook of a case that buys work on a good part of its units. */
export async function run(): Promise<readonly Figure[]> {
  const solver = await loadHighs();
  const figures: Figure[] = [];
  for (const units of [120, 2000]) {
    const data = budgetDocumentOf(
      wornFleet(units, 6, 32),
      {
        asOf: '2026-03-31',
        currency: 'USD',
        modelVersion: 'bench',
        records: 0,
        newestRecordOn: null,
        ownDataShare: 0,
        ownFailures: 0,
        units: new Map(),
      },
      {
        amountCents: 150_000 * units,
        months: 24,
        seed: 1,
        draws: 500,
        mustDo: [],
        mustNot: [],
        hoursPerYear: null,
        assumed: {},
      },
      solver,
      coefficients,
      decisionCatalog.coefficients,
    );
    const name = `${units} units, ${data.chosen.length} lines`;
    figures.push(
      {
        name: `report, ${name}`,
        figure: await seconds(() => budgetPdf(data)),
        unit: 's',
        target: 'below 3 s',
      },
      {
        name: `workbook, ${name}`,
        figure: await seconds(() => budgetWorkbook(data)),
        unit: 's',
        target: 'below 3 s',
      },
    );
  }
  return figures;
}
