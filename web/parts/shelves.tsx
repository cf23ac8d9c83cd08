import { write, type Answer } from '../api.ts';
import { date } from '../format/dates.ts';
import { plain } from '../format/measures.ts';
import { itemWords } from '../format/planWords.ts';
import {
  isOil,
  itemAmount,
  itemPrice,
  typedLiterCents,
  typedLiters,
  volumeUnit,
} from '../format/typedMeasures.ts';
import { EntryForm, typedCents, typedNumber, typedText } from './entryForm.tsx';
import { useSettings } from './fleetState.tsx';
import { Loading } from './notice.tsx';
import { LineTable } from './planTable.tsx';
import { ReadFault } from './readFault.tsx';
import { useRead } from './useRead.ts';
import { useWriter, WriterLine } from './writerName.tsx';

interface ShelvesProps {
  readonly site: string;
  readonly sites: readonly string[];
  readonly currency: string;
  readonly onChanged: () => void;
}

/** What the shelves hold; what came in, what was counted, and every movement. */
export function Shelves({ site, sites, currency, onChanged }: ShelvesProps) {
  const [by, setBy] = useWriter();
  const { measures } = useSettings();
  const { data, error, again } = useRead<'shelf'>('/api/shelf');
  if (data === null)
    return error === null ? <Loading what="the shelves" /> : <ReadFault error={error} again={again} />;
  const here = (entry: { readonly site: string | null }): boolean => site === '' || entry.site === site;
  const items = data.items.filter(here);
  const movements = data.movements.filter(here);
  const changed = (words: string): string => {
    again();
    onChanged();
    return words;
  };
  const inPieces = (item: string, typed: number): number =>
    isOil(item) ? typedLiters(typed, measures) : typed;
  const priceOf = (item: string, cents: number | null): number | null =>
    cents === null || !isOil(item) ? cents : typedLiterCents(cents, measures);
  const names = [...new Set(items.map(({ item }) => item))];
  const siteField = {
    name: 'site',
    label: 'Site',
    choices: sites.map((name) => [name, name] as const),
    preset: site === '' ? (sites.at(0) ?? '') : site,
  };
  return (
    <>
      <h2>On the shelves</h2>
      {items.length === 0 ? (
        <p>No shelf is counted yet: count an item below, or bring a stock file in.</p>
      ) : (
        <LineTable
          label="Shelves"
          header={['Item', 'Site', 'On hand', 'Comes after', 'Price each']}
          numbers={['On hand', 'Comes after', 'Price each']}
          rows={items.map((row) => ({
            key: `${row.site} ${row.item}`,
            cells: [
              itemWords(row.item),
              row.site ?? 'not known',
              row.onHand === null ? 'not counted' : itemAmount(row.item, row.onHand, measures),
              row.leadTimeDays === null ? 'can not be had' : `${plain(row.leadTimeDays)} days`,
              row.unitCostCents === null
                ? 'not known'
                : itemPrice(row.item, row.unitCostCents, currency, measures),
            ],
          }))}
        />
      )}
      <WriterLine by={by} setBy={setBy} />
      <h3 class="no-print">Came in, or taken other than by a job card</h3>
      <EntryForm
        key={`move ${site}`}
        title="Movement"
        by={by}
        button="Note it"
        fields={[
          { name: 'item', label: 'Item', choices: names.map((name) => [name, itemWords(name)] as const) },
          siteField,
          {
            name: 'quantity',
            label: `Pieces, or oil in ${volumeUnit(measures)} (taken: below 0)`,
            kind: 'number',
          },
          { name: 'note', label: 'Note', optional: true },
        ]}
        send={async (values) => {
          const { onHand } = await write<'moveStock'>('/api/shelf', {
            item: values.item,
            site: values.site,
            quantity: inPieces(values.item, typedNumber(values.quantity) ?? 0),
            who: by.trim(),
            note: typedText(values.note),
          });
          return changed(
            `${itemWords(values.item)} at ${values.site}: ${onHand === null ? 'not counted' : `${itemAmount(values.item, onHand, measures)} on hand`}.`,
          );
        }}
      />
      <h3 class="no-print">Counted</h3>
      <EntryForm
        key={`count ${site}`}
        title="Count"
        by={by}
        button="Keep the count"
        fields={[
          { name: 'item', label: 'Item' },
          siteField,
          { name: 'onHand', label: `On hand, oil in ${volumeUnit(measures)}`, kind: 'number' },
          { name: 'lead', label: 'Days from order to shelf', kind: 'number', optional: true },
          {
            name: 'price',
            label: `Price each, ${currency}; oil per ${volumeUnit(measures)}`,
            kind: 'number',
            optional: true,
          },
        ]}
        send={async (values) => {
          const earlier = data.items.find(
            (row) => row.item.toLowerCase() === values.item.trim().toLowerCase() && row.site === values.site,
          );
          await write<'addShopRow'>('/api/shop-records/rows', {
            by: by.trim(),
            row: {
              kind: 'stock',
              item: values.item,
              site: values.site,
              onHand: inPieces(values.item, typedNumber(values.onHand) ?? 0),
              leadTimeDays: typedNumber(values.lead) ?? earlier?.leadTimeDays ?? null,
              unitCostCents: priceOf(values.item, typedCents(values.price)) ?? earlier?.unitCostCents ?? null,
            },
          });
          return changed(`${itemWords(values.item)} at ${values.site} is counted.`);
        }}
      />
      <Movements movements={movements} />
    </>
  );
}

function Movements({ movements }: { movements: Answer<'shelf'>['movements'] }) {
  const { measures } = useSettings();
  if (movements.length === 0) return <p class="muted">Nothing went on or off a shelf since the counts.</p>;
  return (
    <>
      <h3>What went on and off</h3>
      <LineTable
        label="Movements"
        header={['Day', 'Item', 'Site', 'Amount', 'Who', 'For']}
        numbers={['Amount']}
        rows={movements.map((row) => ({
          key: String(row.id),
          cells: [
            date(row.on),
            itemWords(row.item),
            row.site,
            `${row.quantity > 0 ? '+' : '−'}${itemAmount(row.item, Math.abs(row.quantity), measures)}`,
            row.who,
            row.note ?? '',
          ],
        }))}
      />
    </>
  );
}
