import { jobWords } from '../../models/cards/jobCard.ts';
import type { ShopResource, ShopRow } from '../../models/schema/shopRecordEndpoints.ts';
import { shopJobs } from '../../models/schema/shopPlan.ts';
import { write } from '../api.ts';
import { EntryForm, type EntryField, typedCents, typedNumber, typedText } from './entryForm.tsx';

interface FormProps {
  readonly by: string;
  readonly sites: readonly string[];
  readonly currency: string;
  /** reads the page again and gives the words back */
  readonly changed: (words: string) => string;
}

const siteChoice = (sites: readonly string[], optional = false) => ({
  name: 'site',
  label: optional ? 'Site (any: every site)' : 'Site',
  choices: sites.map((name) => [name, name] as const),
  optional,
});

type Made = { readonly words: string } & ({ readonly row: ShopRow } | { readonly resource: ShopResource });

interface AddProps extends Pick<FormProps, 'by' | 'changed'> {
  readonly title: string;
  readonly fields: readonly EntryField[];
  /** what is kept of what was typed, and what is said then; throws where something lacks */
  readonly made: (values: Readonly<Record<string, string>>) => Made;
}

/** Keeps one row, or one thing that ends, under the name of who writes. */
function AddForm({ title, fields, by, changed, made }: AddProps) {
  return (
    <EntryForm
      title={title}
      by={by}
      button="Add"
      fields={fields}
      send={async (values) => {
        const { words, ...entry } = made(values);
        const body = { ...entry, by: by.trim() };
        if ('row' in entry) await write<'addShopRow'>('/api/shop-records/rows', body);
        else await write<'addShopResource'>('/api/shop-records/resources', body);
        return changed(words);
      }}
    />
  );
}

/** A person, or days on which one is away. */
export function TechnicianForm({ by, sites, changed }: FormProps) {
  return (
    <AddForm
      title="Technician"
      by={by}
      changed={changed}
      fields={[
        { name: 'technician', label: 'Name' },
        siteChoice(sites),
        { name: 'skills', label: 'Can do (oil;timing)', optional: true },
        { name: 'hours', label: 'Hours a day', kind: 'number', optional: true },
        { name: 'from', label: 'Away from', kind: 'date', optional: true },
        { name: 'to', label: 'Away to', kind: 'date', optional: true },
      ]}
      made={(values) => ({
        row: {
          kind: 'technicians',
          technician: values.technician,
          site: values.site,
          skills: typedText(values.skills),
          hoursPerDay: typedNumber(values.hours),
          awayFrom: typedText(values.from),
          awayTo: typedText(values.to),
        },
        words: `${values.technician} is on record.`,
      })}
    />
  );
}

/** Days on which one unit can't be spared. */
export function BlackoutForm({ by, changed }: FormProps) {
  return (
    <AddForm
      title="Days not spared"
      by={by}
      changed={changed}
      fields={[
        { name: 'unit', label: 'Unit' },
        { name: 'from', label: 'From', kind: 'date', optional: true },
        { name: 'to', label: 'To', kind: 'date', optional: true },
        { name: 'weekdays', label: 'Or every (mon,tue)', optional: true },
        { name: 'reason', label: 'Because of', optional: true },
      ]}
      made={(values) => {
        const weekdays = typedText(values.weekdays);
        if (weekdays === null && values.from === '')
          throw new Error('Name the first day, or the weekdays on which it can not be spared.');
        return {
          row: {
            kind: 'blackouts',
            unitNumber: values.unit.trim(),
            from: weekdays ?? values.from,
            to: weekdays === null ? typedText(values.to) : null,
            reason: typedText(values.reason),
          },
          words: `Unit ${values.unit} is not planned in on these days.`,
        };
      }}
    />
  );
}

/** Days on which a site is shut. */
export function HolidayForm({ by, sites, changed }: FormProps) {
  return (
    <AddForm
      title="Holiday"
      by={by}
      changed={changed}
      fields={[
        { name: 'name', label: 'Name' },
        { name: 'on', label: 'First day', kind: 'date' },
        { name: 'through', label: 'Last day', kind: 'date', optional: true },
        siteChoice(sites, true),
      ]}
      made={(values) => ({
        resource: {
          kind: 'holiday',
          name: values.name,
          on: values.on,
          through: typedText(values.through),
          site: typedText(values.site),
        },
        words: `${values.name} is kept; nothing is planned there.`,
      })}
    />
  );
}

/** A shop of others with its prices. */
export function OutsideForm({ by, sites, currency, changed }: FormProps) {
  return (
    <AddForm
      title="Outside shop"
      by={by}
      changed={changed}
      fields={[
        { name: 'name', label: 'Name' },
        { name: 'mobile', label: 'comes to the unit', kind: 'tick' },
        siteChoice(sites, true),
        { name: 'weekdays', label: 'Weekdays', preset: 'mon-fri' },
        { name: 'away', label: 'Days away beside the first', kind: 'number', preset: '0' },
        ...shopJobs.map((job) => ({
          name: `price.${job}`,
          label: `${jobWords[job]}, ${currency}`,
          kind: 'number' as const,
          optional: true,
        })),
      ]}
      made={(values) => {
        const prices = shopJobs.flatMap((job) => {
          const cents = typedCents(values[`price.${job}`]);
          return cents === null ? [] : [{ job, cents }];
        });
        if (prices.length === 0)
          throw new Error('Name the price of one job at least, parts and oil included.');
        return {
          resource: {
            kind: 'outside_shop',
            name: values.name,
            mobile: values.mobile === 'yes',
            site: typedText(values.site),
            weekdays: values.weekdays,
            turnaroundDays: Math.round(typedNumber(values.away) ?? 0),
            prices,
          },
          words: `${values.name} is kept with ${prices.length} of ${shopJobs.length} jobs.`,
        };
      }}
    />
  );
}

/** A unit that stands in for others. */
export function LoanForm({ by, sites, currency, changed }: FormProps) {
  return (
    <AddForm
      title="Loan unit"
      by={by}
      changed={changed}
      fields={[
        { name: 'name', label: 'Name or number' },
        siteChoice(sites),
        { name: 'cost', label: `Costs a day, ${currency}`, kind: 'number', preset: '0' },
      ]}
      made={(values) => ({
        resource: {
          kind: 'loan_unit',
          name: values.name,
          site: values.site,
          centsPerDay: typedCents(values.cost) ?? 0,
        },
        words: `${values.name} stands in where downtime costs most.`,
      })}
    />
  );
}
