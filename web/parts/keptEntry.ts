import type { EndpointName } from '../../models/schema/endpoints.ts';
import { RequestError, write, type Answer } from '../api.ts';

/** Something entered on a page that waits to reach the server; kept on this device until it has answered. */
export interface KeptEntry {
  /** sent as the Idempotency-Key: sent twice, it is kept once */
  readonly key: string;
  /** what it is, for people */
  readonly title: string;
  readonly path: string;
  readonly body: unknown;
  /** when it was entered, ISO */
  readonly at: string;
  /** why the server did not take it when it was sent by itself */
  readonly refused?: string;
}

const entriesPlace = 'sumpwise.kept-entries';
const draftPlace = (name: string): string => `sumpwise.draft.${name}`;

function readPlace<T>(place: string, fallback: T): T {
  try {
    const text = localStorage.getItem(place);
    return text === null ? fallback : (JSON.parse(text) as T);
  } catch {
    return fallback;
  }
}

/** @returns false where the device keeps nothing (private window, full) */
function writePlace(place: string, value: unknown): boolean {
  try {
    if (value === null) localStorage.removeItem(place);
    else localStorage.setItem(place, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

/** Entries that still wait, oldest first; `under` picks those whose path begins so. */
export function keptEntries(under = '/'): readonly KeptEntry[] {
  return readPlace<KeptEntry[]>(entriesPlace, []).filter((entry) => entry.path.startsWith(under));
}

/** Gives an entry up. */
export function dropEntry(key: string): void {
  const rest = readPlace<KeptEntry[]>(entriesPlace, []).filter((entry) => entry.key !== key);
  writePlace(entriesPlace, rest.length === 0 ? null : rest);
}

/**
 * An entry to send: the one that waits already where it says the same (pressed twice, kept once), else a new one with a key
 * of its own. The key is made so that it also works where pages are not on a secure address.
 */
export function newEntry(title: string, path: string, body: unknown): KeptEntry {
  const same = keptEntries(path).find(
    (entry) => entry.path === path && JSON.stringify(entry.body) === JSON.stringify(body),
  );
  if (same !== undefined) return { ...same, refused: undefined };
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  const key = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return { key, title, path, body, at: new Date().toISOString() };
}

/** Whether a send may work later: no answer, a fault or a wait on the other side, or someone who has to sign in again. */
export function mayWorkLater(reason: unknown): boolean {
  return (
    reason instanceof RequestError &&
    (reason.status === 0 || reason.status >= 500 || [401, 403, 409, 429].includes(reason.status))
  );
}

/**
 * Sends an entry. It is written down on this device first, and goes from there when the server has taken it or has said
 * why it does not; when the connection drops it stays and can be sent again.
 */
export async function sendEntry<N extends EndpointName>(entry: KeptEntry): Promise<Answer<N>> {
  const others = readPlace<KeptEntry[]>(entriesPlace, []).filter(({ key }) => key !== entry.key);
  writePlace(entriesPlace, [...others, entry]);
  try {
    const answer = await write<N>(entry.path, entry.body, 'POST', entry.key);
    dropEntry(entry.key);
    return answer;
  } catch (reason) {
    if (!mayWorkLater(reason)) dropEntry(entry.key);
    throw reason;
  }
}

/** Told to the page when an entry was sent by itself. */
export const sentEvent = 'sumpwise-sent';
let sending = false;

/**
 * Sends what waits, oldest first, once the server answers again. What is refused stays with the reason, and is sent again
 * only when a person asks for it; each success is told to the page with the entry.
 */
export async function sendWaiting(refusedToo = false): Promise<void> {
  if (sending) return;
  sending = true;
  try {
    for (const entry of keptEntries().filter(({ refused }) => refusedToo || refused === undefined))
      try {
        await write(entry.path, entry.body, 'POST', entry.key);
        dropEntry(entry.key);
        window.dispatchEvent(new CustomEvent(sentEvent, { detail: entry }));
      } catch (reason) {
        if (mayWorkLater(reason)) return;
        const refused = reason instanceof Error ? reason.message : String(reason);
        const all = readPlace<KeptEntry[]>(entriesPlace, []);
        writePlace(
          entriesPlace,
          all.map((other) => (other.key === entry.key ? { ...entry, refused } : other)),
        );
      }
  } finally {
    sending = false;
  }
}

/** What was typed and not sent yet, from this device. */
export function draftOf<T>(name: string, fallback: T): T {
  return readPlace(draftPlace(name), fallback);
}

/** Keeps what is typed on this device; null forgets it. */
export function keepDraft(name: string, value: unknown): boolean {
  return writePlace(draftPlace(name), value);
}
