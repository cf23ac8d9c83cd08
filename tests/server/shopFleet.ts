import { takeIn } from '../../server/services/takeIn.ts';
import { setStoreNote } from '../../server/store/settings.ts';
import type { CardClosing, JobCard } from '../../models/schema/jobCard.ts';
import { ownFleet, writeFiles } from './ownFleet.ts';
import { startServer, type Running } from './running.ts';

/** The day at which the invented haulier's store stands. */
export const shopDay = '2024-06-03';

const stock = `item,site,on_hand,lead_time_days,unit_cost
oil 5W-30,Millbank,60,4,5.20
filter Tarn 20,Millbank,4,3,9.50
timing_set Holm 35,Eastquay,1,18,1500
oil 5W-20,Eastquay,30,4,5.40
`;

/** The invented haulier on the real application, with stock, standing at a fixed day. */
export async function startShop(): Promise<Running> {
  const server = await startServer();
  const store = await server.context.own();
  const report = await takeIn(store.file, writeFiles({ ...ownFleet, 'stock.csv': stock }), {
    dryRun: false,
    by: 'test',
    today: shopDay,
  });
  if (!report.committed) throw new Error(`the fleet must be taken in: ${JSON.stringify(report)}`);
  await setStoreNote(store, 'as_of', shopDay);
  return server;
}

/** The same, with its own records shown and not the demo's. */
export async function startOwnShop(): Promise<Running> {
  const server = await startShop();
  await post(server, '/api/own', {});
  return server;
}

/** A card filled in as a careful technician would. */
export function filledIn(card: JobCard, more: Partial<CardClosing>): Partial<CardClosing> {
  return {
    technician: 'Ines Farrow',
    odometerKm: (card.lastOdometerKm ?? 1000) + 40,
    makersReference: card.makersReferenceNeeded ? 'workshop manual, timing drive, revision 3' : null,
    jobsDone: card.jobs,
    steps: card.steps.map(({ id, needs, value }) => ({
      id,
      done: true,
      value: needs === 'value' ? (value?.type === 'number' ? '180' : (value?.choices?.[0] ?? 'none')) : null,
      person: needs === 'second_person' ? 'Tobin Karr' : null,
      leftOut: null,
    })),
    ...more,
  };
}

/** Posts JSON; the answer's status and body. */
export async function post<T>(
  server: Running,
  path: string,
  body: unknown,
  headers: Record<string, string> = {},
): Promise<{ status: number; body: T }> {
  const answer = await fetch(server.address + path, {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...headers },
    body: JSON.stringify(body),
  });
  return { status: answer.status, body: (await answer.json()) as T };
}

/** Reads JSON. */
export async function get<T>(server: Running, path: string): Promise<T> {
  return (await (await fetch(server.address + path)).json()) as T;
}
