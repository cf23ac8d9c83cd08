import { useEffect } from 'preact/hooks';
import { write, type Answer } from '../api.ts';
import { date } from '../format/dates.ts';
import { volume } from '../format/measures.ts';
import { typedLiters } from '../format/typedMeasures.ts';
import { EntryForm, typedNumber, typedText } from '../parts/entryForm.tsx';
import { useFleetState, useSettings } from '../parts/fleetState.tsx';
import { Loading, Notice } from '../parts/notice.tsx';
import { LineTable } from '../parts/planTable.tsx';
import { ReadFault } from '../parts/readFault.tsx';
import { ShopLinks } from '../parts/shopLinks.tsx';
import { useRead } from '../parts/useRead.ts';
import { useWriter, WriterLine } from '../parts/writerName.tsx';
import '../styles/shop.css';
import '../styles/records.css';

const kinds = { collected: 'into the drum', picked_up: 'picked up', bulk_drawn: 'bulk oil drawn' } as const;

/** Used oil in the drums and picked up; bulk oil drawn against what the job cards filled. */
export function OilLogPage() {
  const state = useFleetState();
  const { data, error, again } = useRead<'oilLog'>('/api/oil-log', {}, state.data?.revision);
  useEffect(() => {
    document.title = 'Used and bulk oil · Sumpwise';
  }, []);
  return (
    <main id="page">
      <h1>Used and bulk oil</h1>
      <ShopLinks at="/shop/oil" />
      {error !== null && <ReadFault error={error} again={again} />}
      {data === null && error === null && <Loading what="the oil log" />}
      {data !== null && <Log log={data} again={again} />}
    </main>
  );
}

function Log({ log, again }: { log: Answer<'oilLog'>; again: () => void }) {
  const [by, setBy] = useWriter();
  const { measures } = useSettings();
  const records = useRead<'shopRecords'>('/api/shop-records');
  const sites = (records.data?.sites ?? []).map(({ site }) => [site, site] as const);
  const liters = log.inDrums.reduce((sum, drum) => sum + Math.max(0, drum.liters), 0);
  const short = log.inDrums.filter((drum) => drum.liters < -0.05);
  const add = async (kind: 'picked_up' | 'bulk_drawn', values: Readonly<Record<string, string>>) => {
    const amount = typedLiters(typedNumber(values.liters) ?? 0, measures);
    await write<'addOil'>('/api/oil-log', {
      kind,
      on: typedText(values.on),
      site: typedText(values.site),
      grade: typedText(values.grade ?? ''),
      liters: amount,
      who: by.trim(),
      note: typedText(values.note),
    });
    again();
    return `${volume(amount, measures)} ${kinds[kind]}.`;
  };
  const common = [
    { name: 'liters', label: measures === 'us' ? 'Quarts' : 'Litres', kind: 'number' as const },
    { name: 'site', label: 'Site', choices: sites },
    { name: 'on', label: 'Day (open: today)', kind: 'date' as const, optional: true },
  ];
  return (
    <>
      <p class="sentence">
        {liters < 0.05
          ? 'The drums are empty.'
          : `${volume(liters, measures)} of used oil stand in the drums (${log.inDrums
              .filter((drum) => drum.liters >= 0.05)
              .map((drum) => `${drum.site ?? 'no site'} ${volume(drum.liters, measures)}`)
              .join(', ')}).`}
      </p>
      {short.map((drum) => (
        <Notice
          key={drum.site}
          kind="hint"
          words={`${volume(-drum.liters, measures)} more were picked up at ${drum.site ?? 'no site'} than job cards collected: cards may lack their used oil, or a pick-up is noted twice.`}
        />
      ))}
      <WriterLine by={by} setBy={setBy} />
      <h2 class="no-print">Picked up</h2>
      <EntryForm
        title="Pick-up"
        by={by}
        button="Note the pick-up"
        fields={[...common, { name: 'note', label: 'Collector, slip number', optional: true }]}
        send={(values) => add('picked_up', values)}
      />
      <h2>Bulk oil against the job cards</h2>
      {log.bulk.length === 0 ? (
        <p>No bulk oil is noted as drawn. Once it is, the difference to what the cards filled stands here.</p>
      ) : (
        <LineTable
          label="Bulk oil"
          header={['Grade', 'Site', 'Drawn', 'Filled by cards', 'Difference']}
          rows={log.bulk.map((row) => ({
            key: `${row.site} ${row.grade}`,
            cells: [
              row.grade,
              row.site ?? 'no site',
              volume(row.drawnL, measures),
              volume(row.usedByCardsL, measures),
              Math.abs(row.differenceL) < 0.05
                ? 'none'
                : row.differenceL > 0
                  ? `${volume(row.differenceL, measures)} drawn without a card`
                  : `${volume(-row.differenceL, measures)} filled and not noted as drawn`,
            ],
          }))}
        />
      )}
      <EntryForm
        title="Bulk oil"
        by={by}
        button="Note what was drawn"
        fields={[
          { name: 'grade', label: 'Grade' },
          ...common,
          { name: 'note', label: 'Note', optional: true },
        ]}
        send={(values) => add('bulk_drawn', values)}
      />
      <h2>Log</h2>
      {log.entries.length === 0 ? (
        <p class="muted">Nothing is noted yet: an oil card that is closed notes its used oil here.</p>
      ) : (
        <LineTable
          label="Oil log"
          header={['Day', 'What', 'Amount', 'Site', 'Who', 'Note']}
          rows={log.entries.map((entry) => ({
            key: String(entry.id),
            cells: [
              date(entry.on),
              [kinds[entry.kind], entry.grade].filter((word) => word !== null).join(', '),
              volume(entry.liters, measures),
              entry.site ?? 'no site',
              entry.who,
              entry.visitId === null ? (
                (entry.note ?? '')
              ) : (
                <a href={`/card/${entry.visitId}`}>{entry.note ?? 'job card'}</a>
              ),
            ],
          }))}
        />
      )}
    </>
  );
}
