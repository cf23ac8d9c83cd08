import { utils, write, type WorkSheet } from '@e965/xlsx';
import type { BudgetDocument } from '../../models/schema/budgetDocument.ts';
import { sheetOf, type Cell } from './plainSheet.ts';

const money = (cents: number): number => cents / 100;

/** First and last row of the units on the sheet Plan, as a spreadsheet counts. */
const firstRow = 4;

function planSheet(data: BudgetDocument): WorkSheet {
  const lastRow = firstRow + Math.max(1, data.chosen.length) - 1;
  const total = (column: string, v: number): Cell => ({
    f: `SUM(${column}${firstRow}:${column}${lastRow})`,
    v,
  });
  const avoided = data.chosen.map((line) => money(line.avoidedCents.mid));
  const saving = data.chosen.map((line) =>
    money(line.avoidedCents.mid - line.costCents - line.downtimeCents),
  );
  const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0);
  return sheetOf(
    [
      ['Work that the money buys; change the factors on the sheet Inputs and these columns recompute'],
      [],
      [
        'Unit',
        'Work',
        'From',
        'Parts',
        'Labour',
        'Cost',
        'Failure cost avoided as recorded',
        'Failure cost avoided',
        'Downtime of the work',
        'Saving',
      ],
      ...data.chosen.map((line, i): Cell[] => {
        const row = firstRow + i;
        return [
          line.unitNumber,
          line.words,
          line.on,
          money(line.partsCents),
          money(line.labourCents),
          { f: `(D${row}+E${row})*Inputs!$B$6`, v: money(line.costCents) },
          avoided[i],
          { f: `G${row}*Inputs!$B$7`, v: avoided[i] },
          money(line.downtimeCents),
          { f: `H${row}-F${row}-I${row}`, v: saving[i] },
        ];
      }),
      ...(data.chosen.length === 0 ? [['Nothing is bought'] as Cell[]] : []),
      [
        'Together',
        null,
        null,
        total('D', money(sum(data.chosen.map((line) => line.partsCents)))),
        total('E', money(sum(data.chosen.map((line) => line.labourCents)))),
        total('F', money(data.spentCents)),
        total('G', sum(avoided)),
        total('H', sum(avoided)),
        total('I', money(sum(data.chosen.map((line) => line.downtimeCents)))),
        total('J', sum(saving)),
      ],
      [],
      [
        'Left of the amount',
        null,
        null,
        null,
        null,
        { f: `Inputs!$B$4-F${lastRow + 1}`, v: money(data.amountCents - data.spentCents) },
      ],
    ],
    [12, 60, 12, 12, 12, 12, 26, 20, 20, 12],
  );
}

/**
 * The case as a workbook: what is assumed on one sheet, and the plan, the months and the budgets on others with formulas
 * that recompute from it where that is simple. The chances themselves come from the models and stay as they are.
 */
export function budgetWorkbook(data: BudgetDocument): Buffer {
  const book = utils.book_new();
  const add = (name: string, sheet: WorkSheet): void => {
    utils.book_append_sheet(book, sheet, name);
  };
  add(
    'Inputs',
    sheetOf(
      [
        ['Budget case', `as of ${data.asOf}`],
        ['Currency', data.currency],
        ['Months', data.months],
        ['Amount', money(data.amountCents)],
        [],
        ['Times on all planned costs', 1, 'change and the sheet Plan recomputes'],
        ['Times on all failure costs', 1, 'change and the sheet Plan recomputes'],
        [],
        ['Assumption', 'Used', 'Low', 'High', 'Source'],
        ...data.assumptions.map((entry): Cell[] => [
          entry.words,
          entry.value,
          entry.low,
          entry.high,
          `${entry.kind}: ${entry.source}`,
        ]),
        ...data.filledCosts.map(({ words, units }): Cell[] => [
          words,
          units,
          null,
          null,
          'units it was filled for',
        ]),
      ],
      [48, 14, 10, 10, 40],
    ),
  );
  add('Plan', planSheet(data));
  add(
    'Months',
    sheetOf(
      [
        [
          'Month',
          'Planned',
          'Failures under the plan',
          'Failures, 9 of 10 below',
          'Failures, all run',
          'Difference',
        ],
        ...data.byMonth.map((month, i): Cell[] => [
          i + 1,
          money(month.plannedCents),
          money(month.unplannedCents),
          money(month.unplannedP90Cents),
          money(month.unplannedWithoutCents),
          {
            f: `E${i + 2}-C${i + 2}-B${i + 2}`,
            v: money(month.unplannedWithoutCents - month.unplannedCents - month.plannedCents),
          },
        ]),
      ],
      [8, 14, 24, 24, 18, 14],
    ),
  );
  add(
    'Budgets',
    sheetOf(
      [
        [
          'Budget',
          'Takes',
          'Units',
          'Avoided, low',
          'Avoided, expected',
          'Avoided, high',
          'Chance of loss',
          'Per failure avoided',
        ],
        ...data.levels.map((level, i): Cell[] => [
          money(level.budgetCents),
          money(level.spentCents),
          level.lines,
          level.failuresAvoided.low,
          level.failuresAvoided.mid,
          level.failuresAvoided.high,
          level.chanceOfLoss,
          {
            f: `IF(E${i + 2}>0,B${i + 2}/E${i + 2},0)`,
            v: level.failuresAvoided.mid > 0 ? money(level.spentCents) / level.failuresAvoided.mid : 0,
          },
        ]),
      ],
      [12, 12, 8, 14, 18, 14, 16, 20],
    ),
  );
  add(
    'Left alone',
    sheetOf(
      [
        ['Unit', 'Why', 'Claim by', 'Disposal'],
        ...data.leftAlone.map((unit): Cell[] => [
          unit.unitNumber,
          unit.reason,
          unit.claimByOn,
          unit.plannedDisposalOn,
        ]),
      ],
      [12, 90, 12, 12],
    ),
  );
  add(
    'About',
    sheetOf(
      [
        ['Model version', data.modelVersion],
        ['Units in service', data.units],
        ['Records', data.records],
        ['Newest record', data.newestRecordOn],
        ['Futures', data.draws],
        ['Seed', data.seed],
        ['Own data, share', data.ownDataShare],
        ['Basis', data.basis],
        ...data.notes.map((note): Cell[] => ['Note', note]),
        [
          'Caution',
          "Decision support: the maker's schedule, warranty terms and a licensed technician's judgement come first.",
        ],
      ],
      [18, 90],
    ),
  );
  return write(book, { type: 'buffer', bookType: 'xlsx', compression: true }) as Buffer;
}
