import { useEffect, useState } from 'preact/hooks';
import { jobWords } from '../../models/cards/jobCard.ts';
import type { KeptResource } from '../../models/schema/shopRecordEndpoints.ts';
import { write, type Answer } from '../api.ts';
import { date } from '../format/dates.ts';
import { plain } from '../format/measures.ts';
import { money } from '../format/money.ts';
import { clockTime } from '../format/planWords.ts';
import { useFleetState, useSettings } from '../parts/fleetState.tsx';
import { Loading, Notice } from '../parts/notice.tsx';
import { LineTable } from '../parts/planTable.tsx';
import { ReadFault } from '../parts/readFault.tsx';
import { ShopLinks } from '../parts/shopLinks.tsx';
import {
  BlackoutForm,
  HolidayForm,
  LoanForm,
  OutsideForm,
  TechnicianForm,
} from '../parts/shopRecordForms.tsx';
import { useRead } from '../parts/useRead.ts';
import { useWriter, WriterLine } from '../parts/writerName.tsx';
import '../styles/shop.css';
import '../styles/records.css';

const dayNames = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

/** A date as readers write it, weekdays as they stand. */
const dayOrWords = (text: string | null): string =>
  text === null ? '' : /^\d{4}-\d{2}-\d{2}$/.test(text) ? date(text) : text.replaceAll(',', ', ');

/** Sites, people, days off, outside shops and loan units: what a plan has to work with. */
export function ShopRecordsPage() {
  const state = useFleetState();
  const { data, error, again } = useRead<'shopRecords'>('/api/shop-records', {}, state.data?.revision);
  useEffect(() => {
    document.title = 'People, places, days · Sumpwise';
  }, []);
  return (
    <main id="page">
      <h1>People, places, days</h1>
      <ShopLinks at="/shop/records" />
      {error !== null && <ReadFault error={error} again={again} />}
      {data === null && error === null && <Loading what="the shop's records" />}
      {data !== null && <Records records={data} again={again} />}
    </main>
  );
}

function Records({ records, again }: { records: Answer<'shopRecords'>; again: () => void }) {
  const [by, setBy] = useWriter();
  const { currency } = useSettings();
  const [fault, setFault] = useState<string | null>(null);
  const changed = (words: string): string => {
    again();
    return words;
  };
  const sites = records.sites.map(({ site }) => site);
  const of = <K extends KeptResource['resource']['kind']>(kind: K) =>
    records.resources.flatMap(({ id, resource }) =>
      resource.kind === kind
        ? [{ id, resource: resource as Extract<KeptResource['resource'], { kind: K }> }]
        : [],
    );
  const end = (id: number, name: string) => (
    <button
      type="button"
      class="no-print"
      disabled={by.trim().length < 2}
      aria-label={`End ${name}`}
      onClick={() => {
        setFault(null);
        write<'endShopResource'>(`/api/shop-records/resources/${id}/end`, { by: by.trim() })
          .catch((reason: unknown) => setFault(reason instanceof Error ? reason.message : String(reason)))
          .finally(again);
      }}
    >
      End
    </button>
  );
  const forms = { by, sites, currency, changed };
  return (
    <>
      <p class="sentence">
        Plans use what stands here from the next time they are read. Bays, hours and weekdays come with the
        file of sites.
      </p>
      <WriterLine by={by} setBy={setBy} />
      {fault !== null && <Notice kind="fault" words={fault} />}
      <h2>Sites</h2>
      {records.messages.map((words) => (
        <p class="muted" key={words}>
          {words}.
        </p>
      ))}
      {records.sites.length === 0 && (
        <p>No site is on record yet. Bring a file of sites in on the page Intake.</p>
      )}
      <LineTable
        label="Sites"
        header={['Site', 'Bays', 'Open', 'Weekdays', 'Time zone']}
        rows={records.sites.map((row) => ({
          key: row.site,
          cells: [
            row.site,
            plain(row.bays),
            `${clockTime(row.opensAtMinute)} to ${clockTime(row.closesAtMinute)}`,
            dayNames.filter((_, day) => row.weekdays[day]).join(', '),
            row.timeZone,
          ],
        }))}
      />
      <h2>Technicians</h2>
      {records.technicians.length === 0 && (
        <p>No technician is on record yet. Name one below, or bring a file of technicians in.</p>
      )}
      <LineTable
        label="Technicians"
        header={['Name', 'Site', 'Can do', 'Hours a day', 'Away']}
        rows={records.technicians.map((row) => ({
          key: `${row.site} ${row.technician}`,
          cells: [
            row.technician,
            row.site,
            row.skills === null ? 'everything' : row.skills.join(', '),
            plain(row.hoursPerDay, 1),
            row.away
              .map(({ from, to }) => (from === to ? date(from) : `${date(from)} to ${date(to)}`))
              .join('; '),
          ],
        }))}
      />
      <TechnicianForm {...forms} />
      <h2>Days on which units can not be spared</h2>
      {records.blackouts.length > 0 && (
        <LineTable
          label="Days not spared"
          header={['Unit', 'From', 'To', 'Because of']}
          rows={records.blackouts.map((row) => ({
            key: `${row.unitNumber} ${row.from} ${row.to}`,
            cells: [row.unitNumber, dayOrWords(row.from), dayOrWords(row.to), row.reason ?? ''],
          }))}
        />
      )}
      <BlackoutForm {...forms} />
      <h2>Holidays</h2>
      {of('holiday').length > 0 && (
        <LineTable
          label="Holidays"
          header={['Name', 'From', 'To', 'Site', 'Change']}
          rows={of('holiday').map(({ id, resource }) => ({
            key: String(id),
            cells: [
              resource.name,
              date(resource.on),
              date(resource.through ?? resource.on),
              resource.site ?? 'every site',
              end(id, resource.name),
            ],
          }))}
        />
      )}
      <HolidayForm {...forms} />
      <h2>Outside shops and mobile service</h2>
      {of('outside_shop').length > 0 && (
        <LineTable
          label="Outside shops"
          header={['Name', 'For', 'Weekdays', 'Away beside the first day', 'Prices', 'Change']}
          rows={of('outside_shop').map(({ id, resource }) => ({
            key: String(id),
            cells: [
              `${resource.name}${resource.mobile ? ', comes to the unit' : ''}`,
              resource.site ?? 'every site',
              resource.weekdays,
              `${resource.turnaroundDays} days`,
              resource.prices
                .map(({ job, cents }) => `${jobWords[job]} ${money(cents, currency)}`)
                .join('; '),
              end(id, resource.name),
            ],
          }))}
        />
      )}
      <OutsideForm {...forms} />
      <h2>Loan units</h2>
      {of('loan_unit').length > 0 && (
        <LineTable
          label="Loan units"
          header={['Name', 'Site', 'Costs a day', 'Change']}
          rows={of('loan_unit').map(({ id, resource }) => ({
            key: String(id),
            cells: [
              resource.name,
              resource.site,
              money(resource.centsPerDay, currency),
              end(id, resource.name),
            ],
          }))}
        />
      )}
      <LoanForm {...forms} />
    </>
  );
}
