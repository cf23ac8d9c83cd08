import type { CardClosing, JobCard } from '../../models/schema/jobCard.ts';
import type { Settings } from '../../models/schema/settings.ts';
import { typedKm, typedKpa, typedLiters } from '../format/typedMeasures.ts';

/** A card as it is being filled in: text as typed, by field. Step fields begin with the step's id. */
export interface CardForm {
  readonly text: Readonly<Record<string, string>>;
  readonly ticks: Readonly<Record<string, boolean>>;
}

export const emptyCard: CardForm = { text: {}, ticks: {} };

/** Field name of a finding of the card. */
export const findingField = (finding: string, bank: string | null): string =>
  `findings.${finding}.${bank ?? ''}`;

const decimal = (text: string): number => Number(text.replace(',', '.'));

/** Number fields that hold something else than a number of 0 or more, with a sentence each. */
export function unreadNumbers(card: JobCard, form: CardForm): { field: string; message: string }[] {
  const fields = ['odometerKm', 'engineHoursH', 'oil.amountL', 'usedOilL', 'labourHours', 'cost'];
  for (const { item } of card.items) fields.push(`stock.${item}`);
  for (const { finding, bank, input } of card.findings)
    if (input === 'number' || input === 'percent') fields.push(findingField(finding, bank));
  return fields.flatMap((field) => {
    const text = (form.text[field] ?? '').trim();
    const value = decimal(text);
    if (text === '' || (Number.isFinite(value) && value >= 0)) return [];
    return [{ field, message: `This must be a number of 0 or more, got "${text}".` }];
  });
}

/** A value as it is stored: litres and kPa where they were typed in the reader's measures; other text as it stands. */
function inStored(text: string, unit: string, measures: Settings['measures']): string {
  const change = unit === 'L' ? typedLiters : unit === 'kPa' ? typedKpa : null;
  const value = decimal(text);
  return change === null || !Number.isFinite(value)
    ? text.replace(',', '.')
    : String(change(value, measures));
}

/** The closing that a form says, typed in the reader's measures; empty fields are left unsaid. */
export function closingOf(card: JobCard, form: CardForm, measures: Settings['measures']): CardClosing {
  const words = (field: string): string | null => (form.text[field] ?? '').trim() || null;
  const number = (field: string): number | null => {
    const text = words(field);
    return text === null ? null : decimal(text);
  };
  const inMetric = (field: string, change: typeof typedKm): number | null => {
    const value = number(field);
    return value === null ? null : change(value, measures);
  };
  const stepValue = (id: string, unit = ''): string | null => {
    const text = words(`steps.${id}.value`);
    return text === null || unit === '' ? text : inStored(text, unit, measures);
  };
  const grade = words('oil.grade');
  const amountL = inMetric('oil.amountL', typedLiters);
  const cost = number('cost');
  const outcome = words('outcome');
  return {
    technician: words('technician') ?? '',
    closedOn: words('closedOn'),
    odometerKm: inMetric('odometerKm', typedKm),
    engineHoursH: number('engineHoursH'),
    makersReference: words('makersReference'),
    jobsDone: card.jobs.filter((job) => form.ticks[`jobs.${job}`] !== false),
    steps: card.steps.map(({ id, value }) => ({
      id,
      done: form.ticks[`steps.${id}`] === true,
      value: stepValue(id, value?.unit),
      person: words(`steps.${id}.person`),
      leftOut: words(`steps.${id}.leftOut`),
    })),
    oil:
      grade === null || amountL === null
        ? null
        : {
            grade,
            category: words('oil.category'),
            amountL,
            filterChanged: form.ticks['oil.filterChanged'] === true,
          },
    usedOilL: inMetric('usedOilL', typedLiters),
    findings: card.findings.flatMap(({ finding, bank, input, unit }) => {
      const value = words(findingField(finding, bank));
      if (value === null) return [];
      return [
        {
          finding,
          bank,
          note: null,
          value:
            input === 'percent' && finding.endsWith('_share')
              ? String(Number((decimal(value) / 100).toFixed(4)))
              : inStored(value, unit, measures),
        },
      ];
    }),
    renewed: card.renewable
      .filter((work) => form.ticks[`renewed.${work}`] === true)
      .flatMap((work) => {
        const bank = words(`renewed.${work}.bank`);
        return [{ work, bank, revision: words(`renewed.${work}.revision`) }];
      }),
    cleared: words('cleared'),
    outcome: outcome === 'planned' || outcome === 'failed' ? outcome : null,
    labourHours: number('labourHours'),
    costCents: cost === null ? null : Math.round(cost * 100),
    stockUsed: card.items.flatMap(({ item, measure }) => {
      const typed = number(`stock.${item}`);
      const quantity = typed !== null && measure === 'l' ? typedLiters(typed, measures) : typed;
      return quantity === null || quantity === 0 ? [] : [{ item, quantity }];
    }),
    note: words('note'),
  };
}
