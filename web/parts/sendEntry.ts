import type { EndpointName } from '../../models/schema/endpoints.ts';
import { RequestError, write, type Answer } from '../api.ts';
import {
  bodyToSend,
  demoShown,
  dropEntry,
  isKept,
  keepEntry,
  keptEntries,
  keptEvent,
  settleEntry,
  type KeptEntry,
} from './keptEntry.ts';

/** Whether a send may work later: no answer, a fault or a wait on the other side, or someone who has to sign in again. */
function mayWorkLater(reason: unknown): boolean {
  return (
    reason instanceof RequestError &&
    (reason.status === 0 ||
      reason.status >= 500 ||
      [401, 403, 429].includes(reason.status) ||
      reason.code === 'still_running')
  );
}

/** Whether it lies at this one entry; what follows may still be taken. */
const isItsOwn = (reason: unknown): boolean =>
  reason instanceof RequestError && (reason.status === 500 || reason.code === 'still_running');

const inWords = (reason: unknown): string => (reason instanceof Error ? reason.message : String(reason));

/** What is said of an entry that was not sent, or not taken. */
export function failureWords(reason: unknown, entry: KeptEntry, what: string): string {
  if (!mayWorkLater(reason)) return inWords(reason);
  if (!isKept(entry.key))
    return `${inWords(reason)} This device keeps nothing: leave the page open, and send it once more.`;
  const why =
    reason instanceof RequestError && reason.code === 'busy'
      ? 'Records are being written, such as by an intake, and that takes long.'
      : inWords(reason);
  return `${why} ${what} is kept on this device and sent again by itself.`;
}

let last: Promise<unknown> = Promise.resolve();

/** One entry after the other, over all pages that are open where the browser can see to that. */
function oneByOne<T>(work: () => Promise<T>): Promise<T> {
  const mine = last.then(() =>
    'locks' in navigator ? (navigator.locks.request('sumpwise.kept-entries', work) as Promise<T>) : work(),
  );
  last = mine.catch(() => undefined);
  return mine;
}

const underWay = new Set<string>();

/** Whether this page is sending the entry because someone pressed for it. */
export const isUnderWay = (key: string): boolean => underWay.has(key);

/**
 * Sends an entry. It is written down on this device first, and goes from there when the server has taken it, or has refused
 * what still stands in its form; one that waited before stays with the reason. When the connection drops it waits.
 */
export async function sendEntry<N extends EndpointName>(entry: KeptEntry): Promise<Answer<N>> {
  const hasWaited = isKept(entry.key);
  underWay.add(entry.key);
  keepEntry(entry);
  try {
    return await oneByOne(async () => {
      try {
        const answer = await write<N>(entry.path, bodyToSend(entry, new Date()), 'POST', entry.key);
        settleEntry(entry);
        return answer;
      } catch (reason) {
        if (!mayWorkLater(reason)) {
          if (hasWaited) keepEntry({ ...entry, refused: inWords(reason) });
          else dropEntry(entry.key);
        }
        throw reason;
      }
    });
  } finally {
    underWay.delete(entry.key);
    window.dispatchEvent(new Event(keptEvent));
  }
}

/** Told to the page when an entry was sent by itself. */
export const sentEvent = 'sumpwise-sent';

const otherStore =
  'It was entered in the demo, and own records are shown now, or the other way round. Give it up, or enter it anew.';

async function sendAll(refusedToo: boolean): Promise<void> {
  const waiting = keptEntries().filter(({ refused }) => refusedToo || refused === undefined);
  const held = new Set<string>();
  for (const entry of waiting) {
    // what was entered later for the same place does not overtake; another page may have sent or given up this one
    if (held.has(entry.path) || !isKept(entry.key) || isUnderWay(entry.key)) continue;
    if (entry.demo !== undefined && entry.demo !== (demoShown() !== '')) {
      keepEntry({ ...entry, refused: otherStore });
      continue;
    }
    try {
      await write(entry.path, bodyToSend(entry, new Date()), 'POST', entry.key);
      settleEntry(entry);
      window.dispatchEvent(new CustomEvent(sentEvent, { detail: entry }));
    } catch (reason) {
      if (!mayWorkLater(reason)) keepEntry({ ...entry, refused: inWords(reason) });
      else if (isItsOwn(reason)) held.add(entry.path);
      else return;
    }
  }
}

let asked: Promise<void> | null = null;

/**
 * Sends what waits, oldest first. What is refused stays with the reason, and is sent again only when a person asks for it;
 * each success is told to the page with the entry.
 */
export function sendWaiting(refusedToo = false): Promise<void> {
  if (asked !== null && !refusedToo) return asked;
  const mine = oneByOne(() => sendAll(refusedToo)).finally(() => {
    if (asked === mine) asked = null;
  });
  asked = mine;
  return mine;
}
