import { draftOf, keepDraft, readPlace, typedSince, writePlace, type Typed } from './drafts.ts';

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
  /** what is sent from the next day on: the same with the day on which it was entered */
  readonly later?: unknown;
  /** whether the demo was shown then: what is entered there is never sent into own records */
  readonly demo?: boolean;
  /** the draft that it was typed in, and what it said */
  readonly draft?: { readonly name: string; readonly typed: Typed };
  /** why the server did not take it when it was sent */
  readonly refused?: string;
}

/** Entries of this device have changed. */
export const keptEvent = 'sumpwise-kept';

// a place for each, so that pages open side by side do not write over each other's
const placePrefix = 'sumpwise.kept-entry.';
const earlierPlace = 'sumpwise.kept-entries';
const placeOf = (key: string): string => placePrefix + key;

function places(): string[] {
  try {
    return Object.keys(localStorage).filter((place) => place.startsWith(placePrefix));
  } catch {
    return [];
  }
}

/** Earlier builds kept all entries in one place. */
function bringOver(): void {
  const earlier = readPlace<readonly KeptEntry[]>(earlierPlace, []);
  for (const entry of earlier) writePlace(placeOf(entry.key), entry);
  if (earlier.length > 0) writePlace(earlierPlace, null);
}

/** Entries that still wait, oldest first; `under` picks those whose path begins so. */
export function keptEntries(under = '/'): readonly KeptEntry[] {
  bringOver();
  return places()
    .flatMap((place) => readPlace<KeptEntry | null>(place, null) ?? [])
    .filter((entry) => entry.path.startsWith(under))
    .sort((a, b) => (a.at < b.at ? -1 : 1));
}

export const isKept = (key: string): boolean => readPlace(placeOf(key), null) !== null;

/** Writes an entry down on this device, or what became of it. */
export function keepEntry(entry: KeptEntry): void {
  writePlace(placeOf(entry.key), entry);
  window.dispatchEvent(new Event(keptEvent));
}

/** Gives an entry up. */
export function dropEntry(key: string): void {
  writePlace(placeOf(key), null);
  window.dispatchEvent(new Event(keptEvent));
}

/** An entry that the server has taken goes, and with it what its draft still says of it. */
export function settleEntry({ key, draft }: KeptEntry): void {
  if (draft !== undefined) {
    const left = typedSince(draftOf<object>(draft.name, {}), draft.typed);
    keepDraft(draft.name, Object.keys(left).length === 0 ? null : left);
  }
  dropEntry(key);
}

const demoDraft = 'demo-shown';

/** The day of the demo where that was shown last on this device, else empty. */
export const demoShown = (): string => draftOf(demoDraft, '');

export const keepDemoShown = (asOf: string): void => void keepDraft(demoDraft, asOf === '' ? null : asOf);

/**
 * An entry to send: the one that waits already where it says the same (pressed twice, kept once), else a new one with a key
 * of its own. The key is made so that it also works where pages are not on a secure address.
 */
export function newEntry(
  title: string,
  path: string,
  body: unknown,
  draft: KeptEntry['draft'],
  later: (day: string) => unknown = () => body,
): KeptEntry {
  const same = keptEntries(path).find(
    (entry) => entry.path === path && JSON.stringify(entry.body) === JSON.stringify(body),
  );
  if (same !== undefined) return { ...same, refused: undefined, draft };
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  const key = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  const at = new Date();
  const demo = demoShown() !== '';
  return { key, title, path, body, at: at.toISOString(), demo, draft, later: later(dayOf(at)) };
}

/** The day of a moment where this device is, as `2026-03-14`. */
export function dayOf(at: Date): string {
  const two = (part: number) => String(part).padStart(2, '0');
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

/** What to send of an entry: what says no day is of the day on which it was entered, not of the day that it is sent. */
export function bodyToSend({ at, body, later, demo }: KeptEntry, now: Date): unknown {
  // the demo stands still at a day of its own
  return later === undefined || demo === true || dayOf(new Date(at)) === dayOf(now) ? body : later;
}
