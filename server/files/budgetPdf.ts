import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { Content, TableCell, TDocumentDefinitions } from 'pdfmake/interfaces';
import type { BudgetDocument, LeftUnit } from '../../models/schema/budgetDocument.ts';
import { frontierSvg, spendSvg, tornadoSvg } from './budgetPdfCharts.ts';
import { count, kindsOf, money, rough, statement, whole, whyWords } from './budgetPdfWords.ts';

const folder = join(
  dirname(createRequire(import.meta.url).resolve('pdfmake/package.json')),
  'build/fonts/Roboto',
);

const heading = (text: string): Content => ({ text, style: 'heading' });
const table = (
  widths: (string | number)[],
  head: readonly string[],
  rows: readonly (readonly (string | TableCell)[])[],
): Content => ({
  layout: 'lightHorizontalLines',
  fontSize: 8.5,
  table: {
    headerRows: 1,
    dontBreakRows: true,
    widths,
    body: [head.map((text) => ({ text, bold: true })), ...rows.map((row) => [...row])],
  },
  margin: [0, 0, 0, 8],
});
const right = (text: string): TableCell => ({ text, alignment: 'right' });
/** Low and high before the middle; a single number where they are one. */
const spread = ({ low, mid, high }: BudgetDocument['savingCents']): string =>
  low === high ? rough(mid) : `${rough(low)} to ${rough(high)}, about ${rough(mid)}`;

function keyFigures(data: BudgetDocument): Content {
  return table(
    ['*', 'auto', 'auto'],
    ['Over the months of the plan', `This plan, ${data.currency}`, `Run everything, ${data.currency}`],
    [
      ['Planned work', right(money(data.spentCents)), right('0')],
      ['Timing failures', right(count(data.failuresWith.mid)), right(count(data.failuresWithout.mid))],
      [
        'Timing failures, 8 of 10 futures',
        right(`${count(data.failuresWith.low)} to ${count(data.failuresWith.high)}`),
        right(`${count(data.failuresWithout.low)} to ${count(data.failuresWithout.high)}`),
      ],
      [
        'Cost of failures, expected',
        right(rough(data.unplannedCents.mid)),
        right(rough(data.unplannedWithoutCents.mid)),
      ],
      [
        'Cost of failures, 9 of 10 futures stay below',
        right(rough(data.unplannedCents.p90)),
        right(rough(data.unplannedWithoutCents.p90)),
      ],
      ['Saving after its own cost, over the judged months', right(spread(data.savingCents)), right('')],
      ['Waiting a month with the whole plan costs', right(spread(data.waitingMonthCents)), right('')],
      [
        'Worth of the next thousand',
        right(
          data.nextThousandCents === null
            ? `about ${rough(data.valueOfNextThousandCents)}; range not known`
            : spread(data.nextThousandCents),
        ),
        right(''),
      ],
    ],
  );
}

function leftAlone(data: BudgetDocument): Content[] {
  return (Object.keys(whyWords) as LeftUnit['why'][]).flatMap((why): Content[] => {
    const units = data.leftAlone.filter((unit) => unit.why === why);
    if (units.length === 0) return [];
    const title: Content = { text: `${whyWords[why]} (${units.length})`, bold: true, margin: [0, 4, 0, 2] };
    return why === 'no_gain'
      ? [title, { text: units.map(({ unitNumber }) => unitNumber).join(', '), fontSize: 8.5 }]
      : [title, { ul: units.map(({ unitNumber, reason }) => `${unitNumber}: ${reason}`), fontSize: 8.5 }];
  });
}

function foundations(data: BudgetDocument): Content[] {
  return [
    heading('Assumptions'),
    table(
      ['*', 'auto', 64, 150],
      ['What', 'Used', 'Plausible', 'Source'],
      data.assumptions.map((entry) => [
        entry.words + (entry.changed ? ' (changed for this case)' : ''),
        right(String(entry.value)),
        right(entry.low === null ? '' : `${entry.low} to ${entry.high}`),
        entry.kind === 'factor' ? entry.source : `${entry.kind}: ${entry.source}`,
      ]),
    ),
    data.filledCosts.length === 0
      ? 'All costs of renewals and failures are on record.'
      : {
          ul: data.filledCosts.map(({ words, units }) => `${words} (${units} units)`),
          fontSize: 8.5,
        },
    {
      unbreakable: true,
      stack: [
        heading('What it rests on'),
        {
          ul: [
            `${data.units} units in service and ${whole(data.records)} records as known on ${data.asOf}, the newest of ${data.newestRecordOn ?? 'a day not known'}.`,
            `Model version ${data.modelVersion}; ${whole(data.draws)} futures from seed ${data.seed}, the same for every budget compared.`,
            `Own data: ${Math.round(100 * data.ownDataShare)} % of what is known of the level of failures; ${data.basis}.`,
            `The list was chosen by an integer programme, ${data.gap < 1e-9 ? 'proved to be the best' : `proved to within ${Number((100 * data.gap).toPrecision(2))} % of the best`}; picking by ratio alone would lose ${money(data.greedyLossCents)} ${data.currency}.`,
            'Methods: discrete renewal equation (Barlow & Proschan 1965), multiple-choice knapsack, Weibull life on cumulative damage (NIST/SEMATECH e-Handbook 8.1), Monte Carlo with common random numbers.',
          ],
          fontSize: 8.5,
        },
      ],
    },
    heading('Cautions'),
    {
      ul: [
        "Decision support: the maker's schedule, warranty terms, local rules and a licensed technician's judgement come first.",
        'Ranges hold 8 of 10 futures; one future in five lies outside. Discounted to the day of the case.',
        ...(data.chosen.some(({ action }) => action === 'look')
          ? [
              'A look is set aside for at its own cost and its share of the renewals and cleanings that it is expected to lead to; what is found decides.',
            ]
          : []),
        'A unit with direct evidence of damage is to be stopped and checked whatever its money says.',
        ...data.notes,
      ],
      fontSize: 8.5,
    },
  ];
}

/** The case as a document for pdfmake: what is asked, what it buys, what it avoids, what it rests on. */
export function budgetPdfDefinition(data: BudgetDocument): TDocumentDefinitions {
  return {
    info: { title: `Budget case of ${data.asOf}`, creator: 'Sumpwise' },
    pageSize: 'A4',
    pageMargins: [48, 48, 48, 52],
    defaultStyle: { font: 'Roboto', fontSize: 10, color: '#2a261f' },
    styles: { heading: { fontSize: 12, bold: true, margin: [0, 12, 0, 4] } },
    footer: (page: number, pages: number): Content => ({
      columns: [
        { text: `Sumpwise, budget case as of ${data.asOf}, model ${data.modelVersion}` },
        { text: `page ${page} of ${pages}`, alignment: 'right' },
      ],
      fontSize: 8,
      margin: [48, 16, 48, 0],
    }),
    content: [
      { text: 'Budget case: renewals, cleanings and looks before failure', fontSize: 18, bold: true },
      {
        text: `As of ${data.asOf}; ${data.months} months; money in ${data.currency}`,
        margin: [0, 2, 0, 10],
      },
      { text: statement(data), fontSize: 13, margin: [0, 0, 0, 10] },
      keyFigures(data),
      heading('What the money buys'),
      ...(data.chosen.length === 0 ? [] : [{ text: kindsOf(data), margin: [0, 0, 0, 4] } as Content]),
      data.chosen.length === 0
        ? 'Nothing.'
        : table(
            ['auto', '*', 'auto', 'auto', 112, 40],
            ['Unit', 'Work', 'From', 'Costs', 'Failure cost avoided', 'A month later'],
            [
              ...data.chosen.map((line) => [
                line.unitNumber,
                [line.words, line.engineFamily].filter((text) => text !== null).join(', '),
                line.on,
                right(money(line.costCents)),
                right(
                  `${rough(line.avoidedCents.low)} to ${rough(line.avoidedCents.high)}, about ${rough(line.avoidedCents.mid)}`,
                ),
                right(line.waitingMonthCents === null ? '' : rough(line.waitingMonthCents.mid)),
              ]),
              ['', { text: 'Together', bold: true }, '', right(money(data.spentCents)), '', ''],
            ],
          ),
      { stack: [heading('Money against failures avoided'), { svg: frontierSvg(data) }], unbreakable: true },
      { stack: [heading('Spend over the months'), { svg: spendSvg(data) }], unbreakable: true },
      ...(data.chosen.length === 0
        ? []
        : [{ stack: [heading('What the saving hangs on'), { svg: tornadoSvg(data) }], unbreakable: true }]),
      heading('Left alone, and why'),
      ...leftAlone(data),
      ...(data.covered.length === 0
        ? []
        : [
            heading('Claims'),
            {
              ul: data.covered.map(
                ({ unitNumber, claimByOn, evidence }) =>
                  `${unitNumber}: claim by ${claimByOn ?? 'a day not known'}; to hand in: ${evidence.join('; ')}`,
              ),
              fontSize: 8.5,
            },
          ]),
      ...foundations(data),
    ],
  };
}

/** The case as PDF bytes. The library is loaded when a report is first wanted. */
export async function budgetPdf(data: BudgetDocument): Promise<Buffer> {
  const { default: pdfmake } = await import('pdfmake');
  pdfmake.setUrlAccessPolicy(() => false);
  pdfmake.setLocalAccessPolicy((path) => path.startsWith(folder));
  pdfmake.setFonts({
    Roboto: {
      normal: join(folder, 'Roboto-Regular.ttf'),
      bold: join(folder, 'Roboto-Medium.ttf'),
      italics: join(folder, 'Roboto-Italic.ttf'),
      bolditalics: join(folder, 'Roboto-MediumItalic.ttf'),
    },
  });
  return pdfmake.createPdf(budgetPdfDefinition(data)).getBuffer();
}
