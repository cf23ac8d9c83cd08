import { cardRecords, shelfTakings, unknownItems, type CardTable } from '../../models/cards/cardRecords.ts';
import { checkClosing } from '../../models/cards/checkClosing.ts';
import type { FieldFault } from '../../models/cards/visitMoves.ts';
import type { CardClosing } from '../../models/schema/jobCard.ts';
import type { ShopJob } from '../../models/schema/shopPlan.ts';
import { visitStateWords, type Visit } from '../../models/schema/visit.ts';
import type { Context } from '../context.ts';
import { writeEntryFiles } from '../files/entryFiles.ts';
import { addOilEntry } from '../store/oilEntries.ts';
import type { Store } from '../store/openStore.ts';
import { addStockMovement } from '../store/stockMovements.ts';
import { stockOfSite } from '../store/stockShelf.ts';
import { addVisit, changeVisit, type VisitFields } from '../store/visits.ts';
import { takeIn } from './takeIn.ts';
import { unitNow } from './unitNow.ts';
import { visitCard } from './visitCard.ts';

/** The card of a booked visit, or of a unit that came without one. */
export type CardTarget =
  | { readonly visit: Visit; readonly version: number }
  | { readonly unitNumber: string; readonly jobs: readonly ShopJob[] };

export type CloseResult =
  | { noUnit: true }
  | { faults: readonly FieldFault[] }
  | {
      visit: Visit;
      batch: string;
      records: number;
      messages: string[];
      dueBefore: string | null;
      dueAfter: string | null;
      callBefore: string | null;
      callAfter: string | null;
    };

/** A row of the card that the intake would hold. */
class RowsHeld extends Error {
  readonly faults: readonly FieldFault[];

  constructor(faults: readonly FieldFault[]) {
    super(faults.map(({ message }) => message).join('; '));
    this.faults = faults;
  }
}

const asFile = ({ kind, columns, rows }: CardTable, visitId: string) => ({
  name: `${kind}_job_card_${visitId}.csv`,
  columns,
  rows,
});

const newVisit = (
  unitNumber: string,
  site: string | null,
  jobs: readonly ShopJob[],
  on: string,
): VisitFields => ({
  planVisitId: null,
  unitNumber,
  site,
  place: 'bay',
  outsideShop: null,
  bay: null,
  technician: null,
  on,
  lastDay: on,
  startMinute: null,
  endMinute: null,
  startsAt: null,
  endsAt: null,
  jobs: [...jobs],
  state: 'arrived',
  plannedHours: null,
  plannedCents: null,
  actualHours: null,
  actualCents: null,
  batch: null,
});

/**
 * Closes a card: service and findings become records by the ordinary intake, as a batch in the technician's name, in one
 * transaction with the state of the visit, what came off the shelf and the used oil. A row that the intake would hold refuses it all.
 * @throws VisitConflict when someone changed the visit before
 */
export async function closeCard(
  context: Context,
  store: Store,
  target: CardTarget,
  closing: CardClosing,
): Promise<CloseResult> {
  const visit = 'visit' in target ? target.visit : null;
  const unitNumber = 'visit' in target ? target.visit.unitNumber : target.unitNumber;
  const jobs = 'visit' in target ? target.visit.jobs : target.jobs;
  const card = await visitCard(context, store, {
    unitNumber,
    jobs,
    site: visit?.site ?? null,
    plannedHours: visit?.plannedHours ?? null,
  });
  if (card === null) return { noUnit: true };
  const asOf = await context.asOf(store);
  if (visit?.state === 'done')
    return { faults: [{ field: 'visit', message: 'This card is closed already; take it back first.' }] };
  const faults = checkClosing(card, closing, asOf);
  if (faults.length > 0) return { faults };
  const before = (await unitNow(context, store, unitNumber))?.assessment ?? null;
  const on = closing.closedOn ?? asOf;
  const stock = stockOfSite(store, card.site, asOf);
  const key = visit === null ? `new-${context.now().replace(/\D/g, '')}` : `${visit.id}-${visit.version}`;
  const tables = cardRecords(closing, {
    key,
    unitNumber: card.unitNumber,
    on,
    shop: visit?.outsideShop ?? card.site,
  });
  const written = await writeEntryFiles(
    context.paths.uploads,
    tables.map((table) => asFile(table, key)),
  );
  let closed: Visit | null = null;
  try {
    const report = await takeIn(store.file, written.files, {
      dryRun: false,
      by: closing.technician,
      today: asOf,
      alongside: (writing, { batch, reasons, files }) => {
        const wanted = tables.reduce((sum, { rows }) => sum + rows.length, 0);
        const accepted = files.reduce((sum, file) => sum + file.accepted, 0);
        if (accepted !== wanted)
          throw new RowsHeld(
            reasons.length > 0
              ? reasons.map(({ code, message }) => ({ field: 'closing', message: message ?? code }))
              : [{ field: 'closing', message: 'A row of this card is on record already.' }],
          );
        const open =
          visit ??
          addVisit(writing, newVisit(card.unitNumber, card.site, card.jobs, on), {
            ...{ reason: null, approver: null, manager: null, newDate: null, risk: null },
            at: context.now(),
            by: closing.technician,
            words: 'came without a booking',
          });
        closed = changeVisit(
          writing,
          { id: open.id, version: 'visit' in target ? target.version : open.version },
          {
            state: 'done',
            batch,
            card: closing,
            actualHours: closing.labourHours,
            actualCents: closing.costCents,
          },
          {
            ...{ reason: null, approver: null, manager: null, newDate: null, risk: null },
            at: context.now(),
            by: closing.technician,
            words: `${visitStateWords.done}, card closed`,
          },
        );
        for (const { item, quantity } of shelfTakings(closing, stock))
          addStockMovement(
            writing,
            {
              item,
              site: card.site ?? '',
              quantity: -quantity,
              on,
              batch,
              who: closing.technician,
              note: `unit ${card.unitNumber}`,
            },
            context.now(),
          );
        if (closing.usedOilL !== null && closing.usedOilL > 0)
          addOilEntry(
            writing,
            {
              kind: 'collected',
              on,
              site: card.site,
              grade: null,
              liters: closing.usedOilL,
              who: closing.technician,
              note: `unit ${card.unitNumber}`,
              visitId: open.id,
            },
            context.now(),
          );
      },
    });
    if (report.batch === null || closed === null)
      return {
        faults: [
          ...(report.refused ?? []).map(({ message }) => ({ field: 'closing', message })),
          ...report.questions.map(({ question }) => ({ field: 'closing', message: question })),
        ],
      };
    const after = (await unitNow(context, store, unitNumber))?.assessment ?? null;
    const unknown = unknownItems(closing, stock);
    return {
      visit: closed,
      batch: report.batch,
      records: tables.reduce((sum, { rows }) => sum + rows.length, 0),
      messages:
        unknown.length === 0
          ? []
          : [
              `No stock record of ${unknown.join(', ')} at ${card.site ?? 'this site'}: not taken off a shelf.`,
            ],
      dueBefore: before?.oil?.dueOn ?? null,
      dueAfter: after?.oil?.dueOn ?? null,
      callBefore: before?.call ?? null,
      callAfter: after?.call ?? null,
    };
  } catch (error) {
    if (error instanceof RowsHeld) return { faults: error.faults };
    throw error;
  } finally {
    await written.remove();
  }
}
